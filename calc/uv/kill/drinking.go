package kill

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// Target is an organism that national drinking-water rules give a table of doses for.
type Target int

// The three targets of 40 CFR 141.720.
const (
	Cryptosporidium Target = iota + 1
	Giardia
	Virus
)

// drinkingWaterDose is the dose for each half power of ten from 0.5 to 4, in mJ/cm².
var drinkingWaterDose = [...][8]float64{
	Cryptosporidium: {1.6, 2.5, 3.9, 5.8, 8.5, 12, 15, 22},
	Giardia:         {1.5, 2.1, 3.0, 5.2, 7.7, 11, 15, 22},
	Virus:           {39, 58, 79, 100, 121, 143, 163, 186},
}

// A DrinkingWaterDose is a row of the table of 40 CFR 141.720.
type DrinkingWaterDose struct {
	Target Target
	Log10  unit.Ratio
	Dose   unit.Fluence
	Source source.Source
}

// DrinkingWaterDoses is the whole table. The caller may keep and change the slice.
func DrinkingWaterDoses() (rows []DrinkingWaterDose) {
	for _, target := range []Target{Cryptosporidium, Giardia, Virus} {
		for i, d := range drinkingWaterDose[target] {
			rows = append(rows, DrinkingWaterDose{
				Target: target, Log10: unit.Ratio(0.5 * float64(i+1)), Dose: unit.MillijoulesPerSquareCentimetre(d), Source: source.UVDGM2006,
			})
		}
	}
	return rows
}

// DrinkingWaterCredit is the inactivation that the US rule grants for a validated dose, in whole half powers of ten,
// rounded down, at most 4. It stands here as a check on the arithmetic of dose: a pond is not a drinking-water works,
// and a garden unit has no validated dose. Valid for 254 nm and filtered water.
//
// Source: EPA 815-R-06-007 (2006), table 1.4 = 40 CFR 141.720(d)(1) (from memory).
func DrinkingWaterCredit(target Target, validated unit.Fluence) (unit.Ratio, source.Source) {
	if target < Cryptosporidium || target > Virus {
		return 0, source.UVDGM2006
	}
	credit := 0.0
	for i, d := range drinkingWaterDose[target] {
		if validated >= unit.MillijoulesPerSquareCentimetre(d) {
			credit = 0.5 * float64(i+1)
		}
	}
	return unit.Ratio(credit), source.UVDGM2006
}

// DrinkingWaterMinimum is the reduction equivalent dose that Austria and Germany ask of a drinking-water device: 400 J/m²
// at 254 nm.
func DrinkingWaterMinimum() (unit.Fluence, source.Source) {
	return unit.MillijoulesPerSquareCentimetre(40), source.OENORM5873
}

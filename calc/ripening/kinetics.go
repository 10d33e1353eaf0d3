// Package ripening follows the first weeks of a filter: ammonia rises, then nitrite, until the bacteria that live on them
// have grown up.
//
// Two kinds of bacteria are followed, one that turns ammonia to nitrite and one that turns nitrite to nitrate, in a pond
// that is stirred by its pump. How many there are at the start nobody knows, and the day a filter is ripe hangs on the
// logarithm of that: an answer is a span of weeks, never a date.
package ripening

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// KineticsInput is the water the bacteria live in.
type KineticsInput struct {
	Temperature unit.Temperature `sym:"T"`
}

// Kinetics are the growth constants of both kinds: A oxidises ammonia, B oxidises nitrite. Yields are dry bacteria by
// nitrogen turned over.
type Kinetics struct {
	GrowthA unit.PerTime       `sym:"μ_A"`
	HalfA   unit.Concentration `sym:"K_A"` // ammonia nitrogen at half the growth
	YieldA  unit.Ratio         `sym:"Y_A"`
	DecayA  unit.PerTime       `sym:"b_A"`
	OxygenA unit.Concentration `sym:"KO_A"` // oxygen at half the growth
	GrowthB unit.PerTime       `sym:"μ_B"`
	HalfB   unit.Concentration `sym:"K_B"`
	YieldB  unit.Ratio         `sym:"Y_B"`
	DecayB  unit.PerTime       `sym:"b_B"`
	OxygenB unit.Concentration `sym:"KO_B"`
}

// NitrifierKinetics gives the growth constants at a water temperature.
//
//	μ_A = 0.47 exp(0.098 (T − 15)),  K_A = 10^(0.051 T − 1.158)
//	μ_B = 10^(0.0255 T − 0.492),     K_B = 10^(0.063 T − 1.149)
//	Y_A = 0.15, Y_B = 0.05, b = 0.05 · 1.04^(T − 20), KO_A = 0.5, KO_B = 1.0
//
// with T in °C, rates a day, concentrations in mg/L. From 8 to 30 °C.
// Source: USEPA 1975; Knowles, Downing & Barrett 1965 (from memory).
var NitrifierKinetics = working.Formula[KineticsInput, Kinetics]{
	ID: "ripening.nitrifier-kinetics", Name: "growth of nitrifying bacteria",
	Equation: "μ_A = 0.47 e^(0.098(T−15)); K_A = 10^(0.051T−1.158); μ_B = 10^(0.0255T−0.492); K_B = 10^(0.063T−1.149); b = 0.05·1.04^(T−20)",
	Source:   source.NitrifierGrowth,
	Outside: func(in KineticsInput) string {
		if in.Temperature < 8 || in.Temperature > 30 {
			return "water outside 8 to 30 °C"
		}
		return ""
	},
	Eval: func(in KineticsInput) Kinetics {
		T := in.Temperature.Celsius()
		b := unit.PerDay(0.05 * math.Pow(1.04, T-20))
		return Kinetics{
			GrowthA: unit.PerDay(0.47 * math.Exp(0.098*(T-15))),
			HalfA:   unit.MilligramsPerLitre(math.Pow(10, 0.051*T-1.158)),
			YieldA:  0.15,
			DecayA:  b,
			OxygenA: unit.MilligramsPerLitre(0.5),
			GrowthB: unit.PerDay(math.Pow(10, 0.0255*T-0.492)),
			HalfB:   unit.MilligramsPerLitre(math.Pow(10, 0.063*T-1.149)),
			YieldB:  0.05,
			DecayB:  b,
			OxygenB: unit.MilligramsPerLitre(1.0),
		}
	},
}

// PHFactorInput is how sour the water is.
type PHFactorInput struct {
	PH float64 `sym:"pH"`
}

// PHFactor gives the growth of nitrifiers in sour water as a share of that at pH 7.2 and above.
//
//	f = 1 − 0.833 (7.2 − pH) below pH 7.2, not below 0
//
// From pH 6 to 7.2 the line is stated; 1 above.
// Source: USEPA 1975 (from memory).
var PHFactor = working.Formula[PHFactorInput, unit.Ratio]{
	ID: "ripening.ph-factor", Name: "growth of nitrifiers in sour water", Symbol: "f_pH",
	Equation: "f_pH = min(1, max(0, 1 − 0.833 (7.2 − pH)))", Source: source.NitrifierGrowth,
	Eval: func(in PHFactorInput) unit.Ratio {
		return unit.Ratio(min(1, max(0, 1-0.833*(7.2-in.PH))))
	},
}

// Formulas lists every formula of this package.
func Formulas() []working.Entry {
	return []working.Entry{&NitrifierKinetics, &PHFactor, &SteadyState}
}

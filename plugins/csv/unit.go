package csvcatalogue

import (
	"slices"
	"strconv"
	"strings"

	"example.com/pondwright/calc/unit"
)

// A column may be given in another unit by writing that in its name: flow_us_gal_per_min, or "Flow (US gal/min)", in the
// place of flow_l_per_h. Numbers are turned into the unit of the contract as they are read.

// measure is a unit that stands at the end of a column's name, and the others that may stand there instead.
type measure struct {
	suffix string // of the contract's name
	others []otherUnit
}

// otherUnit is a unit that is turned into that of the contract.
type otherUnit struct {
	suffix string
	turn   func(float64) float64
}

// measures come in the order in which they are tried, an ending before any that it ends in: price_per_l before l. Pressures do
// for a head and not for other lengths.
func measures() []measure {
	per := func(other float64) func(float64) float64 { return func(x float64) float64 { return x / other } }
	return []measure{
		{suffix: "l_per_h", others: []otherUnit{
			{"l_per_min", func(x float64) float64 { return unit.LitresPerMinute(x).LitresPerHour() }},
			{"l_per_s", func(x float64) float64 { return unit.LitresPerSecond(x).LitresPerHour() }},
			{"m3_per_h", func(x float64) float64 { return unit.CubicMetresPerHour(x).LitresPerHour() }},
			{"uk_gal_per_h", func(x float64) float64 { return unit.UKGallonsPerHour(x).LitresPerHour() }},
			{"uk_gal_per_min", func(x float64) float64 { return unit.UKGallonsPerHour(x * minutesPerHour).LitresPerHour() }},
			{"us_gal_per_h", func(x float64) float64 { return unit.USGallonsPerHour(x).LitresPerHour() }},
			{"us_gal_per_min", func(x float64) float64 { return unit.USGallonsPerMinute(x).LitresPerHour() }},
		}},
		{suffix: "price_per_m2", others: []otherUnit{{"price_per_ft2", per(unit.Feet(1).Metres() * unit.Feet(1).Metres())}}},
		{suffix: "price_per_m", others: []otherUnit{{"price_per_ft", per(unit.Feet(1).Metres())}}},
		{suffix: "price_per_l", others: []otherUnit{
			{"price_per_m3", per(unit.CubicMetres(1).Litres())},
			{"price_per_ft3", per(litresPerCubicFoot())},
			{"price_per_uk_gal", per(unit.UKGallons(1).Litres())},
			{"price_per_us_gal", per(unit.USGallons(1).Litres())},
		}},
		{suffix: "kg_per_l", others: []otherUnit{{"kg_per_m3", per(unit.CubicMetres(1).Litres())}}},
		{suffix: "m2_per_m3", others: []otherUnit{{"ft2_per_ft3", per(unit.Feet(1).Metres())}}},
		{suffix: "head_m", others: []otherUnit{
			{"head_ft", func(x float64) float64 { return unit.Feet(x).Metres() }},
			{"head_kpa", headOfKilopascals},
			{"head_bar", func(x float64) float64 { return headOfKilopascals(x * kilopascalsPerBar) }},
		}},
		{suffix: "mm", others: []otherUnit{
			{"cm", func(x float64) float64 { return unit.Centimetres(x).Millimetres() }},
			{"in", func(x float64) float64 { return unit.Inches(x).Millimetres() }},
		}},
		{suffix: "cm", others: []otherUnit{
			{"mm", func(x float64) float64 { return unit.Millimetres(x).Centimetres() }},
			{"m", func(x float64) float64 { return unit.Length(x).Centimetres() }},
			{"in", func(x float64) float64 { return unit.Inches(x).Centimetres() }},
		}},
		{suffix: "temperature_c", others: []otherUnit{{"temperature_f", celsiusOfFahrenheit}}},
		{suffix: "l", others: []otherUnit{
			{"m3", func(x float64) float64 { return unit.CubicMetres(x).Litres() }},
			{"ft3", func(x float64) float64 { return x * litresPerCubicFoot() }},
			{"uk_gal", func(x float64) float64 { return unit.UKGallons(x).Litres() }},
			{"us_gal", func(x float64) float64 { return unit.USGallons(x).Litres() }},
		}},
		{suffix: "m", others: []otherUnit{
			{"mm", func(x float64) float64 { return unit.Millimetres(x).Metres() }},
			{"cm", func(x float64) float64 { return unit.Centimetres(x).Metres() }},
			{"ft", func(x float64) float64 { return unit.Feet(x).Metres() }},
			{"in", func(x float64) float64 { return unit.Inches(x).Metres() }},
		}},
		{suffix: "w", others: []otherUnit{{"kw", func(x float64) float64 { return x * wattsPerKilowatt }}}},
	}
}

const (
	minutesPerHour    = 60
	kilopascalsPerBar = 100
	wattsPerKilowatt  = 1000
	// A metre of water as a unit of pressure is conventional: water of 1000 kg/m³ under standard gravity.
	// Source: NIST Special Publication 811, appendix B (conventional metre of water), from memory.
	kilopascalsPerMetreOfWater = 9.80665
)

// litresPerCubicFoot follows from the foot.
func litresPerCubicFoot() float64 {
	ft := unit.Feet(1).Metres()
	return unit.CubicMetres(ft * ft * ft).Litres()
}

// celsiusOfFahrenheit is exact: t = (t_F - 32)/1.8. Source: NIST Special Publication 811, section 4.2 and appendix B, from memory.
func celsiusOfFahrenheit(f float64) float64 { return (f - 32) / 1.8 }

// headOfKilopascals is the height of water that presses with p.
func headOfKilopascals(p float64) float64 {
	return unit.MetresOfWater(p / kilopascalsPerMetreOfWater).Metres()
}

// named is a name a column may have, and how its numbers are turned into the contract's unit.
type named struct {
	name string
	turn func(float64) float64 // nil for the contract's own unit
}

// names are all names of a column, that of the contract first.
func (c column) names() []named {
	all := []named{{name: c.name}}
	for _, m := range measures() {
		base, ok := strings.CutSuffix(c.name, m.suffix)
		if !ok || base != "" && !strings.HasSuffix(base, "_") {
			continue
		}
		for _, other := range m.others {
			all = append(all, named{base + other.suffix, other.turn})
		}
		break
	}
	return all
}

// bareGallons are the endings that leave open which gallon is meant.
func bareGallons() []string { return []string{"_gal_per_h", "_gal_per_min", "_gal", "_gph", "_gpm"} }

// isBareGallon says whether a header has a gallon that could be either.
func isBareGallon(name string) bool {
	return slices.ContainsFunc(bareGallons(), func(ending string) bool {
		base, ok := strings.CutSuffix(name, ending)
		return ok && !strings.HasSuffix(base, "_uk") && !strings.HasSuffix(base, "_us")
	})
}

// tidy takes away the last bits that turning a number into another unit leaves behind. Twelve digits are far more than
// anyone has measured.
func tidy(x float64) float64 {
	const digits = 12
	y, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
	if err != nil { // beyond what a number can hold, which the checks refuse
		return x
	}
	return y
}

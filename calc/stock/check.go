package stock

import (
	"fmt"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// Outside these a number is a slip of the pen: metres for centimetres, a count in grams.
const (
	shortest  = unit.Length(0.01)
	longest   = unit.Length(1.5)
	mostFish  = 100_000
	coldest   = unit.Temperature(-2)
	warmest   = unit.Temperature(40)
	leastFeed = unit.Ratio(0.1) // protein
	mostFeed  = unit.Ratio(0.7)
	mostYears = unit.Time(100 * 366 * 86400)
)

// checkGroups reports fields such as "groups[0].length_cm".
func checkGroups(problems *input.Errors, groups []Group) {
	for i, g := range groups {
		field := func(name string) string { return fmt.Sprintf("groups[%d].%s", i, name) }
		if g.Species < Goldfish || g.Species > Other {
			problems.Add(field("species"), "give goldfish, koi, carp or other", "no kind of fish")
		}
		if g.Count < 1 || g.Count > mostFish {
			problems.Add(field("count"), "give the number of fish, or leave the group out", "%d fish", g.Count)
		}
		if !(g.Length >= shortest && g.Length <= longest) {
			problems.Add(field("length_cm"), "give the total length, 1 to 150 cm", "no fish is %g cm long", g.Length.Centimetres())
		}
		if g.GrownLength != 0 && !(g.GrownLength >= g.Length && g.GrownLength <= longest) {
			problems.Add(field("grown_length_cm"), "give at least the length now, at most 150 cm, or nothing",
				"a fish of %g cm does not grow to %g cm", g.Length.Centimetres(), g.GrownLength.Centimetres())
		}
		checkYears(problems, field("after_years"), g.After)
		if g.Build != (Build{}) {
			checkBuild(problems, field, g.Build)
		}
	}
}

// checkBuild: exponents of 2.5 to 3.5 are plausible (Froese 2006); coefficients beyond these belong to eels and balls.
func checkBuild(problems *input.Errors, field func(string) string, b Build) {
	problems.Between(field("length_mass_coefficient"), b.Coefficient, 0.0005, 0.1, "give a of W = a L^b for W in g and L in cm, and b with it, or neither")
	problems.Between(field("length_mass_exponent"), b.Exponent, 2.5, 3.5, "give b of W = a L^b, and a with it, or neither")
}

func checkFeeding(problems *input.Errors, f Feeding) {
	problems.Between("water_temperature_c", f.Temperature.Celsius(), coldest.Celsius(), warmest.Celsius(), "give the water temperature")
	if f.Protein != 0 {
		problems.Between("protein_percent", f.Protein.Percent(), leastFeed.Percent(), mostFeed.Percent(), "give the share of protein on the feed's label, or nothing")
	}
}

func checkYears(problems *input.Errors, field string, t unit.Time) {
	if !(t >= 0 && t <= mostYears) {
		problems.Add(field, "give 0 to 100 years", "%g days", t.Days())
	}
}

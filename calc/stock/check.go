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
)

// checkGroups reports under path, "fish" or "additions".
func checkGroups(problems *input.Errors, path string, groups []Group) {
	for i, g := range groups {
		field := func(name string) string { return fmt.Sprintf("%s[%d].%s", path, i, name) }
		if g.Species < Goldfish || g.Species > Other {
			problems.Add(field("species"), "give goldfish, koi, carp or other", "no kind of fish")
		}
		if g.Count < 1 || g.Count > mostFish {
			problems.Add(field("count"), "give the number of fish, or leave the group out", "%d fish", g.Count)
		}
		if !(g.Length >= shortest && g.Length <= longest) {
			problems.Add(field("length_m"), "give the total length in metres, 0.01 to 1.5", "no fish is %g m long", g.Length.Metres())
		}
		if g.GrownLength != 0 && !(g.GrownLength >= g.Length && g.GrownLength <= longest) {
			problems.Add(field("grown_length_m"), "give at least the length now, at most 1.5 m, or nothing",
				"a fish of %g m does not grow to %g m", g.Length.Metres(), g.GrownLength.Metres())
		}
	}
}

func checkFeeding(problems *input.Errors, f Feeding) {
	if !(f.Temperature >= coldest && f.Temperature <= warmest) {
		problems.Add("water_temperature_c", "give the water temperature, -2 to 40 °C", "%g °C", f.Temperature.Celsius())
	}
	if f.Protein != 0 && !(f.Protein >= leastFeed && f.Protein <= mostFeed) {
		problems.Add("protein", "give the share of protein on the feed's label, 0.1 to 0.7, or nothing", "%g is no share of protein", f.Protein.Float())
	}
}

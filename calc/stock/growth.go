package stock

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// GrowthRate is how fast a fish nears its grown length in a temperate garden pond.
const GrowthRate = unit.PerTime(0.2 / (365.25 * 86400)) // 0.2 a year

// GrowthInput is a fish and the years it is given.
type GrowthInput struct {
	Length unit.Length  `sym:"L0"`
	Grown  unit.Length  `sym:"L∞"`
	Rate   unit.PerTime `sym:"K"`
	Time   unit.Time    `sym:"t"`
}

// Growth gives the length of a fish some years on.
//
//	L = L∞ − (L∞ − L0) exp(−K t)
//
// Fish that are fed and have room; farmed carp are two to three times as heavy after three summers.
// Source: von Bertalanffy's form; K is an assumption, see source.GardenGrowth.
var Growth = working.Formula[GrowthInput, unit.Length]{
	ID: "stock.growth", Name: "length of a fish some years on", Symbol: "L",
	Equation: "L = L∞ − (L∞ − L0) exp(−K t)", Source: source.GardenGrowth,
	Eval: func(in GrowthInput) unit.Length {
		return in.Grown - unit.Length(float64(in.Grown-in.Length)*math.Exp(-float64(in.Rate)*in.Time.Seconds()))
	},
}

// An Addition is fish to be put in some years from now.
type Addition struct {
	Group
	After unit.Time
}

// Ahead gives the load some time from now: the fish there are, grown on, and those that will have been added by then.
// Problems of the input are in err, as for Loads; those of additions have fields such as "additions[0].length_m".
func Ahead(t *working.Trail, groups []Group, additions []Addition, f Feeding, after unit.Time) (Load, []finding.Finding, error) {
	if err := checkAhead(groups, additions, f, after); err != nil {
		return Load{}, nil, err
	}
	grown := make([]Group, 0, len(groups)+len(additions))
	for _, g := range groups {
		grown = append(grown, g.after(t, after))
	}
	for _, a := range additions {
		if a.After <= after {
			grown = append(grown, a.Group.after(t, after-a.After))
		}
	}
	load, _, findings, err := Loads(t, grown, f)
	return load, append(findings, growthAssumed), err
}

func (g Group) after(t *working.Trail, time unit.Time) Group {
	g.GrownLength = g.grownLength()
	g.Length = Growth.Run(t, GrowthInput{Length: g.Length, Grown: g.GrownLength, Rate: GrowthRate, Time: time})
	return g
}

func checkAhead(groups []Group, additions []Addition, f Feeding, after unit.Time) error {
	var problems input.Errors
	checkGroups(&problems, "fish", groups)
	checkFeeding(&problems, f)
	added := make([]Group, len(additions))
	for i, a := range additions {
		added[i] = a.Group
		checkYears(&problems, fmt.Sprintf("additions[%d].after_years", i), a.After)
	}
	checkGroups(&problems, "additions", added)
	checkYears(&problems, "after_years", after)
	return problems.Err()
}

func checkYears(problems *input.Errors, field string, t unit.Time) {
	if !(t >= 0 && t <= mostYears) {
		problems.Add(field, "give 0 to 100 years", "%g days", t.Days())
	}
}

const mostYears = unit.Time(100 * 366 * 86400)

var growthAssumed = finding.Finding{
	Code: "GROWTH_ASSUMED", Severity: finding.Note, Subject: "fish",
	Sentence: "Fish were grown on by a fifth of what they lack each year; feed, warmth and room change that by half or double.",
	Change:   "Measure a fish each autumn.", Source: source.GardenGrowth,
}

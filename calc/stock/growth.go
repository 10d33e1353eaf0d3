package stock

import (
	"fmt"
	"math"
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Year is a mean year.
const Year = unit.Time(365.25 * 86400)

// GrowthRate is how fast a fish nears its grown length in a temperate garden pond.
const GrowthRate = unit.PerTime(0.2 / float64(Year)) // 0.2 a year

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

// Then gives the fish as they will be some time from now: those there are, grown on, and those that will have been put
// in by then. Each is given as long as it will be that day, now and grown, so that any load of them is the load of that
// day. Problems of the input are in err, as for Loads.
func Then(t *working.Trail, groups []Group, after unit.Time) ([]Group, []finding.Finding, error) {
	var problems input.Errors
	checkGroups(&problems, groups)
	checkYears(&problems, "after_years", after)
	if err := problems.Err(); err != nil {
		return nil, nil, err
	}
	var grown []Group
	for _, g := range groups {
		if g.After <= after {
			grown = append(grown, g.then(t, after-g.After))
		}
	}
	if after == 0 || len(grown) == 0 {
		return grown, nil, nil
	}
	return grown, append(grownLengths(groups), growthAssumed), nil
}

// Grown gives all fish, those yet to be put in among them, as they will be when grown; otherwise as Then.
func Grown(groups []Group) ([]Group, []finding.Finding, error) {
	var problems input.Errors
	if checkGroups(&problems, groups); problems.Err() != nil {
		return nil, nil, problems.Err()
	}
	grown := slices.Clone(groups)
	for i, g := range groups {
		grown[i].Length, grown[i].GrownLength, grown[i].After = g.grownLength(), g.grownLength(), 0
	}
	return grown, grownLengths(groups), nil
}

// Ahead gives the load some time from now; see Then.
func Ahead(t *working.Trail, groups []Group, f Feeding, after unit.Time) (Load, []finding.Finding, error) {
	var problems input.Errors
	checkFeeding(&problems, f)
	grown, grew, err := Then(t, groups, after)
	problems.AddUnder("", err)
	if err := problems.Err(); err != nil {
		return Load{}, nil, err
	}
	load, _, found, err := Loads(t, grown, f)
	return load, append(grew, found...), err
}

// Years gives the load from year to year, n of them after the first, which is now; see Ahead.
func Years(t *working.Trail, groups []Group, f Feeding, n int) ([]Load, []finding.Finding, error) {
	loads := make([]Load, n+1)
	var found []finding.Finding
	for y := range loads {
		t.About(fmt.Sprintf("after %d years", y))
		var err error
		if loads[y], found, err = Ahead(t, groups, f, unit.Time(y)*Year); err != nil {
			return nil, nil, err
		}
	}
	t.About("")
	return loads, found, nil
}

func (g Group) then(t *working.Trail, time unit.Time) Group {
	g.Length = Growth.Run(t, GrowthInput{Length: g.Length, Grown: g.grownLength(), Rate: GrowthRate, Time: time})
	g.GrownLength, g.After = g.Length, 0
	return g
}

var growthAssumed = finding.Finding{
	Code: "GROWTH_ASSUMED", Severity: finding.Note, Subject: "fish",
	Sentence: "Fish were grown on by a fifth of what they lack each year; feed, warmth and room change that by half or double.",
	Change:   "Measure a fish each autumn.", Source: source.GardenGrowth,
}

// LaterNotCounted is the finding that fish put in years from now are not in a load of today.
func LaterNotCounted() finding.Finding {
	return finding.Finding{
		Code: "LATER_FISH_NOT_COUNTED", Severity: finding.Caution, Subject: "fish",
		Sentence: "Fish that are put in years from now load no filter that ripens today, and are not counted.",
		Change:   "Give a step of its own, from its day on, to fish that go in while the filter ripens.", Source: source.Choice,
	}
}

package stock

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Group is some fish of one kind and about one size.
type Group struct {
	Species     Species
	Count       int
	Length      unit.Length // total length now, tail and all
	GrownLength unit.Length // total length one day; 0 takes Species.GrownLength
}

// Feeding is what decides how much is fed and what it turns into.
type Feeding struct {
	Temperature unit.Temperature // of the water
	Protein     unit.Ratio       // of the feed; 0 takes TypicalProtein
}

// A Load is what all the fish together weigh, eat, take from the water and leave in it.
type Load struct {
	Count         int
	Mass          unit.Mass
	Feed          unit.MassRate
	TAN           unit.MassRate // total ammonia, as nitrogen
	OxygenDemand  unit.MassRate // of the fish for the feed they burn; nothing where they are not fed
	CarbonDioxide unit.MassRate
	Solids        unit.MassRate // dry
}

// Loads gives the load of the fish as they are and as they will be when grown, at the same water temperature.
//
// Every problem of the input is in err, an input.Errors with field paths such as "fish[0].length_m".
func Loads(t *working.Trail, groups []Group, f Feeding) (now, grown Load, findings []finding.Finding, err error) {
	var problems input.Errors
	checkGroups(&problems, "fish", groups)
	checkFeeding(&problems, f)
	if err := problems.Err(); err != nil {
		return Load{}, Load{}, nil, err
	}
	findings = assumptions(groups, f)
	if f.Protein == 0 {
		f.Protein = TypicalProtein
	}
	now = loadOf(t, groups, f, func(g Group) unit.Length { return g.Length })
	grown = loadOf(t, groups, f, Group.grownLength)
	return now, grown, findings, nil
}

func loadOf(t *working.Trail, groups []Group, f Feeding, length func(Group) unit.Length) Load {
	var l Load
	for _, g := range groups {
		w := g.Species.mass(t, length(g))
		share := Ration.Run(t, RationInput{Temperature: f.Temperature, Mass: w})
		l.Count += g.Count
		l.Mass += unit.Mass(g.Count) * w
		l.Feed += Feed.Run(t, FeedInput{Count: g.Count, Mass: w, Ration: share})
	}
	waste := WasteFromFeed.Run(t, WasteInput{Feed: l.Feed, Protein: f.Protein})
	l.TAN, l.OxygenDemand, l.CarbonDioxide, l.Solids = waste.TAN, waste.OxygenDemand, waste.CarbonDioxide, waste.Solids
	return l
}

// grownLength is the length the group will reach. A fish already longer than its kind usually gets stays as it is.
func (g Group) grownLength() unit.Length {
	if g.GrownLength > 0 {
		return g.GrownLength
	}
	return max(g.Length, g.Species.GrownLength())
}

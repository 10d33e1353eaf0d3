package stock

import (
	"slices"

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
	After       unit.Time   // until it is put in; 0 is there already
	Build       Build       // nothing takes that of the species
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

// Loads gives the load of the fish that are there now and of all, those yet to be put in among them, when they are grown,
// at the same water temperature.
//
// Every problem of the input is in err, an input.Errors with field paths such as "groups[0].length_cm".
func Loads(t *working.Trail, groups []Group, f Feeding) (now, grown Load, findings []finding.Finding, err error) {
	var problems input.Errors
	checkGroups(&problems, groups)
	checkFeeding(&problems, f)
	if err := problems.Err(); err != nil {
		return Load{}, Load{}, nil, err
	}
	findings = assumptions(groups, f)
	if f.Protein == 0 {
		f.Protein = TypicalProtein
	}
	now = loadOf(t, there(groups), f, Group.length)
	grown = loadOf(t, groups, f, Group.grownLength)
	return now, grown, findings, nil
}

func loadOf(t *working.Trail, groups []Group, f Feeding, length func(Group) unit.Length) Load {
	var l Load
	for _, g := range groups {
		one := g.portray(t, length(g), f.Temperature)
		l.Count += g.Count
		l.Mass += unit.Mass(g.Count) * one.Mass
		l.Feed += Feed.Run(t, FeedInput{Count: g.Count, Mass: one.Mass, Ration: one.Ration})
	}
	waste := WasteFromFeed.Run(t, WasteInput{Feed: l.Feed, Protein: f.Protein})
	l.TAN, l.OxygenDemand, l.CarbonDioxide, l.Solids = waste.TAN, waste.OxygenDemand, waste.CarbonDioxide, waste.Solids
	return l
}

// A Portrait is one fish of a group.
type Portrait struct {
	Length unit.Length
	Mass   unit.Mass
	Ration unit.PerTime // of its own mass
}

// Portraits gives one fish of each group as it is, or will be on the day it is put in, and as it will be when grown. There
// are none of groups that Loads would refuse.
func Portraits(groups []Group, temperature unit.Temperature) (now, grown []Portrait) {
	var problems input.Errors
	if checkGroups(&problems, groups); problems.Err() != nil {
		return nil, nil
	}
	for _, g := range groups {
		now = append(now, g.portray(nil, g.Length, temperature))
		grown = append(grown, g.portray(nil, g.grownLength(), temperature))
	}
	return now, grown
}

func (g Group) portray(t *working.Trail, l unit.Length, temperature unit.Temperature) Portrait {
	w := g.mass(t, l)
	return Portrait{Length: l, Mass: w, Ration: Ration.Run(t, RationInput{Temperature: temperature, Mass: w})}
}

// there are the groups that need not be put in yet.
func there(groups []Group) []Group {
	return slices.DeleteFunc(slices.Clone(groups), func(g Group) bool { return g.After > 0 })
}

func (g Group) length() unit.Length { return g.Length }

// grownLength is the length the group will reach. A fish already longer than its kind usually gets stays as it is.
func (g Group) grownLength() unit.Length {
	if g.GrownLength > 0 {
		return g.GrownLength
	}
	return max(g.Length, g.Species.GrownLength())
}

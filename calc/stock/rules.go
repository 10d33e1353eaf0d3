package stock

import (
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Rule is one stocking habit of the trade applied to one pond. Rules disagree by a factor of six; none is averaged
// into anything.
type Rule struct {
	Name   string
	Basis  string        // what it counts and on what
	Value  finding.Value // the fish as they are
	Grown  finding.Value // the fish as they will be
	Limit  finding.Value // what the rule allows in this pond
	Source source.Source
}

// A tally is what the rules count.
type tally struct{ fish, cm, kg float64 }

// Rules gives the stocking rules of the trade for a pond side by side. A rule on the surface is left out where the area
// is not known, a rule on the water where the volume is not. There are no rules for groups that Loads would refuse.
func Rules(area unit.Area, volume unit.Volume, groups []Group) []Rule {
	var problems input.Errors
	if checkGroups(&problems, groups); problems.Err() != nil {
		return nil
	}
	now := count(there(groups), Group.length)
	grown := count(groups, Group.grownLength)
	var rules []Rule
	if known(float64(area)) {
		rules = append(rules, surfaceRules(area, now, grown)...)
	}
	if known(float64(volume)) {
		rules = append(rules, volumeRules(volume, now, grown)...)
		if onlyKoi(groups) {
			rules = append(rules, koiRules(volume, now, grown)...)
		}
	}
	return rules
}

func known(size float64) bool { return size > 0 && !math.IsInf(size, 1) }

func surfaceRules(area unit.Area, now, grown tally) []Rule {
	m2 := area.SquareMetres()
	squareFeet := m2 / (unit.Feet(1).Metres() * unit.Feet(1).Metres())
	inch := unit.Inches(1).Centimetres()
	return []Rule{
		lengthRule("60 cm² of surface for each cm of fish", "length on surface", now, grown, m2*1e4/60),
		lengthRule("2 in of fish for each ft² of open water", "length on surface", now, grown, squareFeet*2*inch),
		lengthRule("1 in of fish for each ft²", "length on surface", now, grown, squareFeet*inch),
		lengthRule("25 cm of goldfish for each m², comfortable", "length on surface", now, grown, m2*25),
		lengthRule("50 cm of goldfish for each m², at most", "length on surface", now, grown, m2*50),
	}
}

func volumeRules(volume unit.Volume, now, grown tally) []Rule {
	perTenGallons := volume.USGallons() / 10 * unit.Inches(1).Centimetres()
	m3 := volume.CubicMetres()
	return []Rule{
		lengthRule("1 in of fish for each 10 US gallons", "length on volume", now, grown, perTenGallons),
		lengthRule("1 in of fish for each 20 US gallons, for an easy life", "length on volume", now, grown, perTenGallons/2),
		massRule("garden pond with plants and a small filter: 0.5 kg/m³", now, grown, m3*0.5),
		massRule("filtered goldfish pond: 1 kg/m³", now, grown, m3),
		massRule("koi pond with a good filter: 2 kg/m³", now, grown, m3*2),
		massRule("more than a garden keeper should try: 3 kg/m³", now, grown, m3*3),
	}
}

// koiRules count heads: 1,000 US gallons for the first koi and 100, or 200, for each that follows.
func koiRules(volume unit.Volume, now, grown tally) []Rule {
	rule := func(name string, gallons float64) Rule {
		limit := 0.0
		if rest := volume.USGallons() - 1000; rest >= 0 {
			limit = 1 + rest/gallons
		}
		return newRule(name, "number on volume", "fish", now.fish, grown.fish, limit)
	}
	return []Rule{
		rule("1,000 US gallons for the first koi, 200 for each other", 200),
		rule("1,000 US gallons for the first koi, 100 for each other", 100),
	}
}

func lengthRule(name, basis string, now, grown tally, limit float64) Rule {
	return newRule(name, basis, "cm", now.cm, grown.cm, limit)
}

func massRule(name string, now, grown tally, limit float64) Rule {
	return newRule(name, "mass on volume", "kg", now.kg, grown.kg, limit)
}

func newRule(name, basis, unit string, now, grown, limit float64) Rule {
	return Rule{
		Name: name, Basis: basis, Source: source.Practice,
		Value: finding.Value{Number: now, Unit: unit},
		Grown: finding.Value{Number: grown, Unit: unit},
		Limit: finding.Value{Number: limit, Unit: unit},
	}
}

func count(groups []Group, length func(Group) unit.Length) tally {
	var sum tally
	for _, g := range groups {
		n, l := float64(g.Count), length(g)
		sum.fish += n
		sum.cm += n * l.Centimetres()
		sum.kg += n * g.mass(nil, l).Kilograms()
	}
	return sum
}

func onlyKoi(groups []Group) bool {
	for _, g := range groups {
		if g.Species != Koi {
			return false
		}
	}
	return len(groups) > 0
}

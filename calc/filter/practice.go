package filter

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// Stocking is what lives in a pond, as coarsely as the rules of the trade see it.
type Stocking int

// From least to most demanding.
const (
	NoFish Stocking = iota + 1
	GoldfishPond
	KoiPond
)

// String is the stocking in plain words.
func (s Stocking) String() string {
	switch s {
	case NoFish:
		return "no fish"
	case GoldfishPond:
		return "goldfish"
	case KoiPond:
		return "koi"
	default:
		return "unknown stocking"
	}
}

// TurnoverPractice gives how often a pond of that kind is put through its filter by habit of the trade. An unknown kind
// has no habit and gives nothing.
func TurnoverPractice(kind Stocking) (low, high unit.PerTime, src source.Source) {
	switch kind {
	case NoFish:
		low, high = unit.PerHour(0.1), unit.PerHour(0.25)
	case GoldfishPond:
		low, high = unit.PerHour(0.25), unit.PerHour(0.5)
	case KoiPond:
		low, high = unit.PerHour(0.5), unit.PerHour(1)
	}
	return low, high, source.Practice
}

const largestPond = 1e6 // m³, above which a number is a slip of the pen

// A LabelRule is the habit of the trade for one kind of stocking: the pond that a filter suits, as a share of the pond
// its label claims.
type LabelRule struct {
	Stocking Stocking
	Share    unit.Ratio
	Suits    unit.Volume // the share of the claim
	Carries  bool        // whether this pond is no larger
	Source   source.Source
}

// LabelRules holds a label's "up to so many litres" against a pond, once for each kind of stocking: the whole claim
// without fish, half with goldfish, a quarter with koi. It belongs beside a computed capacity, not in place of one. A
// label that claims nothing gives no rules.
func LabelRules(claim, pond unit.Volume) []LabelRule {
	if !(claim > 0 && claim <= unit.CubicMetres(largestPond)) {
		return nil
	}
	shares := []LabelRule{{Stocking: NoFish, Share: 1}, {Stocking: GoldfishPond, Share: 0.5}, {Stocking: KoiPond, Share: 0.25}}
	for i, r := range shares {
		shares[i].Suits = unit.Volume(r.Share.Float() * float64(claim))
		shares[i].Carries = pond <= shares[i].Suits
		shares[i].Source = source.Practice
	}
	return shares
}

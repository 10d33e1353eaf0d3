package kit

import "math"

// A Limit is what a set must keep to.
type Limit int

// The limits, in the order a set is held against them.
const (
	OutOfStock Limit = iota
	FilterMissing
	LampMissing
	OverBudget
	FilterTooSmall
	NoDuty
	FlowBelowWanted
	FlowAboveWanted
	FlowAboveFilter
	FlowAboveLampUnit
	FastInHose
	DoseTooLow
	WinterNoDuty
	WinterBelowWanted
	WinterAboveWanted
	WinterAboveFilter
	WinterAboveLampUnit
	WinterFastInHose
	limits
)

var limitNames = [limits]struct{ code, name string }{
	OutOfStock:        {"OUT_OF_STOCK", "what is in stock"},
	FilterMissing:     {"FILTER_MISSING", "a filter for the fish"},
	LampMissing:       {"LAMP_UNIT_MISSING", "a lamp unit, as asked for"},
	OverBudget:        {"OVER_BUDGET", "budget"},
	FilterTooSmall:    {"FILTER_TOO_SMALL", "filter capacity for the grown fish"},
	NoDuty:            {"NO_DUTY", "pump and circuit must meet"},
	FlowBelowWanted:   {"FLOW_BELOW_WANTED", "least flow wanted, from a pump at the weak end of its tolerance"},
	FlowAboveWanted:   {"FLOW_ABOVE_WANTED", "greatest flow wanted"},
	FlowAboveFilter:   {"FLOW_ABOVE_FILTER", "greatest flow of the filter"},
	FlowAboveLampUnit: {"FLOW_ABOVE_LAMP_UNIT", "greatest flow of the lamp unit"},
	FastInHose:        {"FAST_IN_HOSE", "velocity in the hose"},
	DoseTooLow:        {"DOSE_TOO_LOW", "UV dose the pond gathers in a day, lamps at the end of their life"},

	WinterNoDuty:        {"WINTER_NO_DUTY", "pump and circuit must meet in winter"},
	WinterBelowWanted:   {"WINTER_FLOW_BELOW_WANTED", "least flow wanted in winter, from a pump at the weak end of its tolerance"},
	WinterAboveWanted:   {"WINTER_FLOW_ABOVE_WANTED", "greatest flow wanted in winter"},
	WinterAboveFilter:   {"WINTER_FLOW_ABOVE_FILTER", "greatest flow of the filter, in winter"},
	WinterAboveLampUnit: {"WINTER_FLOW_ABOVE_LAMP_UNIT", "greatest flow of the lamp unit, in winter"},
	WinterFastInHose:    {"WINTER_FAST_IN_HOSE", "velocity in the hose, in winter"},
}

// Code is stable, upper snake case.
func (l Limit) Code() string { return limitNames[l].code }

// State is the one in which the limit is held against; none for what does not depend on it.
func (l Limit) State() (s State, ok bool) {
	switch {
	case l < NoDuty:
		return 0, false
	case l >= WinterNoDuty:
		return Cold, true
	case l == FlowBelowWanted || l == DoseTooLow:
		return Due, true
	default:
		return Clean, true
	}
}

// String is the limit in plain words.
func (l Limit) String() string { return limitNames[l].name }

// slacks is how far away each limit is, by the limit: 0.2 is a fifth of it to spare, −0.2 a fifth of it short or over, +∞
// where the limit does not apply.
type slacks [limits]float64

func free() slacks {
	var s slacks
	for i := range s {
		s[i] = math.Inf(1)
	}
	return s
}

func (s *slacks) atLeast(l Limit, value, least float64) {
	if least > 0 {
		s[l] = value/least - 1
	}
}

func (s *slacks) atMost(l Limit, value, most float64) {
	if most > 0 {
		s[l] = 1 - value/most
	}
}

// broken is the first limit that is broken.
func (s *slacks) broken() (Limit, bool) {
	for l, slack := range s {
		if slack < 0 {
			return Limit(l), true
		}
	}
	return 0, false
}

// tightest is the limit nearest to being broken, or broken the most. A budget that is kept is left out: what is left of it
// is no sign of how well a set works.
func (s *slacks) tightest() (Limit, float64) {
	least := FilterTooSmall
	for l, slack := range s {
		if slack < s[least] && (Limit(l) != OverBudget || slack < 0) {
			least = Limit(l)
		}
	}
	return least, s[least]
}

// short is by how much the limits are broken, all together.
func (s *slacks) short() float64 {
	sum := 0.0
	for _, slack := range s {
		sum -= min(slack, 0)
	}
	return sum
}

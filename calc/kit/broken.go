package kit

import (
	"fmt"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
)

// limits says which limits the set breaks; a set that works breaks none.
func (f *Finder) limits(c Candidate) []finding.Finding {
	judged, s := f.judge(c.Set, true)
	var found []finding.Finding
	for l, slack := range s {
		if slack < 0 && Limit(l) != NoDuty { // for which the circuit has its own words
			found = append(found, f.sentence(Limit(l), judged, slack))
		}
	}
	return found
}

func (f *Finder) sentence(l Limit, c Candidate, slack float64) finding.Finding {
	n := finding.Finding{Code: l.Code(), Severity: finding.Stop, Source: source.Asked}
	clean, due := "", ""
	if c.Filter >= 0 {
		clean, due = " with the filter clean", " with the filter due for cleaning"
	}
	flow := func(q unit.Flow) *finding.Value { return finding.Of(q.LitresPerHour(), "L/h") }
	say := func(subject, change string, value, limit *finding.Value, text string) {
		n.Subject, n.Change, n.Value, n.Limit = subject, change, value, limit
		n.Sentence = fmt.Sprintf(text, value.Number, limit.Number)
		if value.Unit == "L/h" {
			n.Sentence = fmt.Sprintf(text, finding.Whole(value.Number), finding.Whole(limit.Number))
		}
	}
	switch l {
	case OverBudget:
		say("budget", "raise the budget, or ask for less", finding.Of(f.price(c.Set), f.r.Currency), finding.Of(f.q.Budget, f.r.Currency),
			"The set costs %.2f to buy, more than the %.2f there is to spend.")
	case FilterTooSmall:
		n.Source = source.MediaRates
		a := f.assessed[c.Filter]
		say("filter", "take a larger filter, fewer fish, or a smaller margin",
			finding.Of(a.Capacity.Expected.GramsPerDay(), "g/day"), finding.Of(a.CapacityWanted.GramsPerDay(), "g/day"),
			"The filter takes up %.2f g of ammonia nitrogen a day; the grown fish with the margin ask for %.2f g.")
	case FlowBelowWanted:
		say("pump", "take a stronger pump or a wider hose", flow(c.Weakest), flow(f.q.Wanted.Least),
			"%s L/h flow from a pump at the weak end of its tolerance"+due+", less than the %s L/h wanted.")
	case FlowAboveWanted:
		say("pump", "take a smaller pump, or throttle it on the outlet side", flow(c.Flow[Clean]), flow(f.q.Wanted.Most),
			"%s L/h flow"+clean+", more than the %s L/h wanted.")
	case FlowAboveFilter:
		n.Source = source.Stated
		say("filter", "take a filter made for more flow, or a smaller pump", flow(c.Flow[Clean]), flow(f.r.Filters[c.Filter].MaxFlow),
			"%s L/h flow, more than the %s L/h the filter is made for.")
	case FlowAboveLampUnit:
		n.Source = source.Stated
		say("lamp unit", "take a lamp unit made for more flow, or a smaller pump", flow(c.Flow[Clean]), flow(f.r.Lamps[c.Lamp].MaxFlow),
			"%s L/h flow, more than the %s L/h the lamp unit is made for.")
	case FastInHose:
		n.Source = source.EN806
		say("hose", "take a wider hose", finding.Of(f.runs[c.Hose].Velocity(c.Flow[Clean]).MetresPerSecond(), "m/s"),
			finding.Of(circuit.VelocityLimit.MetresPerSecond(), "m/s"), "Water runs at %.1f m/s in the hose, faster than %.1f m/s.")
	case DoseTooLow:
		_, n.Source = uv.SuppressionDaily()
		wanted := f.suppression.MillijoulesPerSquareCentimetre()
		say("lamp unit", "take a stronger lamp unit, or run it longer", finding.Of((1+slack)*wanted, "mJ/cm²"), finding.Of(wanted, "mJ/cm²"),
			"The pond gathers %.1f mJ/cm² of UV a day with lamps at the end of their life, less than the %.1f mJ/cm² that held a blue-green kind back for a week in published work.")
	}
	return n
}

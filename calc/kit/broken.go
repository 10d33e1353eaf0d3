package kit

import (
	"fmt"
	"strings"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
)

// limits says which limits the set breaks, but for those of which the circuit has its own words; a set that works breaks none.
func (f *Finder) limits(c Candidate) []Broken {
	judged, s := f.judge(c.Set, true)
	var found []Broken
	for l, slack := range s {
		if slack < 0 && Limit(l) != NoDuty && Limit(l) != WinterNoDuty {
			state, depends := Limit(l).State()
			found = append(found, Broken{Limit(l), state, !depends, f.sentence(Limit(l), judged, slack)})
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
	case OutOfStock:
		n.Source, n.Subject, n.Change = source.Stated, "stock", "take a substitute, or wait for it"
		n.Sentence = fmt.Sprintf("The catalogue does not count enough of the %s in stock.", strings.Join(f.outOf(c.Set), " and of the "))
	case FilterMissing:
		n.Subject, n.Change, n.Sentence = "filter", "add a filter", "The brief wants a filter and the set has none."
	case LampMissing:
		n.Subject, n.Change, n.Sentence = "lamp unit", "add a lamp unit", "The brief wants a lamp unit and the set has none."
	case WinterBelowWanted:
		say("pump", "take a stronger pump, or a wider or shorter hose for the winter", flow(f.weakestCold(c.Set)), flow(f.q.Winter.Least),
			"%s L/h flow in winter from a pump at the weak end of its tolerance, less than the %s L/h wanted then.")
	case WinterAboveWanted:
		say("pump", "throttle it on the outlet side in winter", flow(c.Flow[Cold]), flow(f.q.Winter.Most),
			"%s L/h flow in winter, more than the %s L/h wanted then.")
	case WinterAboveFilter:
		n.Source = source.Stated
		say("filter", "lead the water past the filter in winter, or throttle the pump", flow(c.Flow[Cold]), flow(f.r.Filters[max(c.Filter, 0)].MaxFlow),
			"%s L/h flow in winter, more than the %s L/h the filter is made for.")
	case WinterAboveLampUnit:
		n.Source = source.Stated
		say("lamp unit", "lead the water past the lamp unit in winter, or throttle the pump", flow(c.Flow[Cold]), flow(f.r.Lamps[max(c.Lamp, 0)].MaxFlow),
			"%s L/h flow in winter, more than the %s L/h the lamp unit is made for.")
	case WinterFastInHose:
		n.Source = source.EN806
		say("hose", "throttle the pump in winter", finding.Of(f.runs[c.Hose].Velocity(c.Flow[Cold]).MetresPerSecond(), "m/s"),
			finding.Of(circuit.VelocityLimit.MetresPerSecond(), "m/s"), "Water runs at %.1f m/s in the hose in winter, faster than %.1f m/s.")
	case OverBudget:
		return f.overBudget(f.price(c.Set))
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

// outOf names the items of a set that may not be chosen for their stock.
func (f *Finder) outOf(set Set) []string {
	var names []string
	look := func(name string, s Stock, need int) {
		if !f.q.Stock.allows(s, need) {
			names = append(names, name)
		}
	}
	look("pump", f.r.Pumps[set.Pump].Stock, f.q.pumps())
	look("hose", f.r.Hoses[set.Hose].Stock, f.metres())
	if set.Filter >= 0 {
		look("filter", f.r.Filters[set.Filter].Stock, 1)
	}
	if set.Lamp >= 0 {
		look("lamp unit", f.r.Lamps[set.Lamp].Stock, 1)
	}
	return names
}

func (f *Finder) weakestCold(set Set) unit.Flow {
	q, _ := f.solve(f.weak[set.Pump], f.roughest(set, Cold), Cold)
	return q
}

func (f *Finder) overBudget(price float64) finding.Finding {
	return finding.Finding{
		Code: OverBudget.Code(), Severity: finding.Stop, Subject: "budget", Source: source.Asked,
		Sentence: fmt.Sprintf("The set costs %.2f to buy, more than the %.2f there is to spend.", price, f.q.Budget),
		Value:    finding.Of(price, f.r.Currency), Limit: finding.Of(f.q.Budget, f.r.Currency), Change: "raise the budget, or ask for less",
	}
}

package kit

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/working"
)

// A Detail is everything there is to say of one candidate.
type Detail struct {
	Candidate
	Duties      [states]*circuit.Duty // nil where pump and circuit do not meet
	Filter      *filter.Assessment    // nil without a filter
	Dose        *uv.Dose              // nil without a lamp unit, or without flow
	Suppression unit.Fluence          // what the daily dose is held against
	Findings    []finding.Finding
}

// Explain calculates a candidate in full, records each step, and says what to look at.
func (f *Finder) Explain(t *working.Trail, c Candidate) (Detail, error) {
	d := Detail{Candidate: c, Suppression: f.suppression}
	p := pump.AsMeasured(f.r.Pumps[c.Pump].Curve)
	for state := Clean; state < states; state++ {
		t.About(fmt.Sprintf("circuit, filter %s", state))
		duty, found := circuit.Assess(t, p, f.q.Tolerance, f.circuit(c.Set, state), f.q.Water)
		d.Duties[state] = duty
		d.add(found...)
		if duty == nil {
			d.add(f.limits(c)...)
			return d, nil
		}
	}
	if err := f.explainFilter(t, &d); err != nil {
		return Detail{}, err
	}
	if err := f.explainLamp(t, &d); err != nil {
		return Detail{}, err
	}
	t.About("cost")
	d.Cost = f.cost(t, c.Set, d.Duties[Clean].Power)
	d.add(f.limits(c)...)
	d.add(f.edge(d)...)
	d.add(f.box(d)...)
	d.add(f.solids(d)...)
	return d, nil
}

// add takes findings in, each code about each subject once and in its gravest form.
func (d *Detail) add(found ...finding.Finding) {
	for _, n := range found {
		i := slices.IndexFunc(d.Findings, func(old finding.Finding) bool { return old.Code == n.Code && old.Subject == n.Subject })
		switch {
		case i < 0:
			d.Findings = append(d.Findings, n)
		case n.Severity > d.Findings[i].Severity:
			d.Findings[i] = n
		}
	}
}

func (f *Finder) explainFilter(t *working.Trail, d *Detail) error {
	if d.Set.Filter < 0 {
		return nil
	}
	t.About("filter")
	item := f.r.Filters[d.Set.Filter]
	a, err := filter.Assess(t, f.assessInput(item, d.Duties[Due].Flow.Expected))
	if err != nil {
		return fmt.Errorf("assess filter: %w", err)
	}
	d.Filter = &a
	d.add(a.Findings...)
	d.add(f.label(item)...)
	if !item.Open {
		d.add(finding.Finding{
			Code: "LOSS_GOES_WITH_SQUARE", Severity: finding.Note, Subject: "filter",
			Sentence: "The head lost in the filter is known at one flow and taken to go with the square of the flow; foam alone loses head nearer in proportion to it.",
			Change:   "measure the flow with a bucket when the filter is due for cleaning", Source: source.Choice,
		})
	}
	return nil
}

func (f *Finder) explainLamp(t *working.Trail, d *Detail) error {
	if d.Lamp < 0 {
		return nil
	}
	t.About("lamp unit, lamps at the end of their life, filter due for cleaning")
	dose, err := uv.DoseAt(t, uv.DoseInput{
		Unit: f.r.Lamps[d.Lamp].Unit, Condition: f.condition(),
		Flow: d.Duties[Due].Flow.Expected, PondVolume: f.q.Volume, HoursPerDay: f.q.RunsDaily,
	})
	if err != nil {
		return fmt.Errorf("dose of lamp unit: %w", err)
	}
	d.Dose = &dose
	d.add(dose.Findings...)
	return nil
}

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
	n := finding.Finding{Code: l.Code(), Severity: finding.Stop, Source: source.Choice}
	flow := func(q unit.Flow) *finding.Value { return finding.Of(q.LitresPerHour(), "L/h") }
	say := func(subject, change string, value, limit *finding.Value, text string) {
		n.Subject, n.Change, n.Value, n.Limit = subject, change, value, limit
		n.Sentence = fmt.Sprintf(text, value.Number, limit.Number)
	}
	switch l {
	case OverBudget:
		say("budget", "raise the budget, or ask for less", finding.Of(f.price(c.Set), f.r.Currency), finding.Of(f.q.Budget, f.r.Currency),
			"The set costs %.2f to buy, more than the %.2f there is to spend.")
	case FilterTooSmall:
		a := f.assessed[c.Filter]
		say("filter", "take a larger filter, fewer fish, or a smaller margin",
			finding.Of(a.Capacity.Expected.GramsPerDay(), "g/day"), finding.Of(a.CapacityWanted.GramsPerDay(), "g/day"),
			"The filter takes up %.2f g of ammonia nitrogen a day; the grown fish with the margin ask for %.2f g.")
	case FlowBelowWanted:
		say("pump", "take a stronger pump or a wider hose", flow(c.Weakest), flow(f.q.Wanted.Least),
			"%.0f L/h flow from a pump at the weak end of its tolerance with the filter due for cleaning, less than the %.0f L/h wanted.")
	case FlowAboveWanted:
		say("pump", "take a smaller pump, or throttle it on the outlet side", flow(c.Flow[Clean]), flow(f.q.Wanted.Most),
			"%.0f L/h flow with the filter clean, more than the %.0f L/h wanted.")
	case FlowAboveFilter:
		say("filter", "take a filter made for more flow, or a smaller pump", flow(c.Flow[Clean]), flow(f.r.Filters[c.Filter].MaxFlow),
			"%.0f L/h flow, more than the %.0f L/h the filter is made for.")
	case FlowAboveLampUnit:
		say("lamp unit", "take a lamp unit made for more flow, or a smaller pump", flow(c.Flow[Clean]), flow(f.r.Lamps[c.Lamp].MaxFlow),
			"%.0f L/h flow, more than the %.0f L/h the lamp unit is made for.")
	case FastInHose:
		n.Source = source.EN806
		say("hose", "take a wider hose", finding.Of(f.runs[c.Hose].Velocity(c.Flow[Clean]).MetresPerSecond(), "m/s"),
			finding.Of(circuit.VelocityLimit.MetresPerSecond(), "m/s"), "Water runs at %.1f m/s in the hose, faster than %.1f m/s.")
	case DoseTooLow:
		_, n.Source = uv.SuppressionDaily()
		wanted := f.suppression.MillijoulesPerSquareCentimetre()
		say("lamp unit", "take a stronger lamp unit, or run it longer", finding.Of((1+slack)*wanted, "mJ/cm²"), finding.Of(wanted, "mJ/cm²"),
			"The pond gathers %.1f mJ/cm² of UV a day with lamps at the end of their life, less than the %.1f mJ/cm² that held algae back in published work.")
	}
	return n
}

// edge says where a pump at the strong edge of its tolerance leaves the flow wanted. The weak edge is a limit.
func (f *Finder) edge(d Detail) []finding.Finding {
	if high := d.Duties[Clean].Flow.High; f.q.Wanted.Most > 0 && high > f.q.Wanted.Most && d.Flow[Clean] <= f.q.Wanted.Most {
		return []finding.Finding{{
			Code: "FLOW_MAY_BE_TOO_MUCH", Severity: finding.Note, Subject: "pump",
			Sentence: fmt.Sprintf("A pump at the strong end of its tolerance gives %.0f L/h with the filter clean, more than the %.0f L/h wanted.",
				high.LitresPerHour(), f.q.Wanted.Most.LitresPerHour()),
			Value: finding.Of(high.LitresPerHour(), "L/h"), Limit: finding.Of(f.q.Wanted.Most.LitresPerHour(), "L/h"),
			Change: "throttle it on the outlet side, never on the inlet", Source: f.q.Tolerance.Source,
		}}
	}
	return nil
}

// box sets the flow on the box beside the flow that arrives.
func (f *Finder) box(d Detail) []finding.Finding {
	label := f.r.Pumps[d.Pump].LabelFlow
	if label == 0 {
		return nil
	}
	q := d.Duties[Due].Flow.Expected
	return []finding.Finding{{
		Code: "BOX_FLOW_IS_AT_NO_LIFT", Severity: finding.Note, Subject: "pump",
		Sentence: fmt.Sprintf("The box says %.0f L/h, which is at no lift and without a hose; %.0f L/h arrive with the filter due for cleaning, %.0f %% of it.",
			label.LitresPerHour(), q.LitresPerHour(), 100*float64(q/label)),
		Value: finding.Of(q.LitresPerHour(), "L/h"), Limit: finding.Of(label.LitresPerHour(), "L/h"), Source: source.Definition,
	}}
}

// finePassage is the passage below which a pump before a filter blocks soon.
//
// Source: common practice, no source.
const finePassage = unit.Length(4e-3)

// solids says how the dirt on its way to the filter gets through the pump.
func (f *Finder) solids(d Detail) []finding.Finding {
	passes := f.r.Pumps[d.Pump].Solids
	n := finding.Finding{Severity: finding.Note, Subject: "pump", Source: source.Practice}
	switch {
	case d.Set.Filter < 0 || passes >= finePassage:
		return nil
	case passes == 0:
		n.Code = "SOLIDS_PASSAGE_UNKNOWN"
		n.Sentence = "The catalogue does not say what solids the pump passes: a fine cage keeps dirt from the filter and chokes within days."
		n.Change = "ask for the passage, and look at the cage after the first week"
	default:
		n.Code, n.Severity = "PUMP_BLOCKS_SOON", finding.Caution
		n.Sentence = fmt.Sprintf("The pump passes solids of no more than %.0f mm: leaves and fish waste block its cage, and the flow falls until it is cleaned.",
			passes.Millimetres())
		n.Value, n.Limit = finding.Of(passes.Millimetres(), "mm"), finding.Of(finePassage.Millimetres(), "mm")
		n.Change = "take a pump that passes larger solids, or clean its cage often"
	}
	return []finding.Finding{n}
}

// label sets the pond that the filter's label claims beside this one.
func (f *Finder) label(item Filter) []finding.Finding {
	if item.LabelPond == 0 {
		return nil
	}
	for _, rule := range filter.LabelRules(item.LabelPond, f.q.Volume) {
		if rule.Stocking != f.q.Stocking {
			continue
		}
		verdict := "covers"
		if !rule.Carries {
			verdict = "does not cover"
		}
		return []finding.Finding{{
			Code: "LABEL_BESIDE_LOAD", Severity: finding.Note, Subject: "filter",
			Sentence: fmt.Sprintf("The label says ponds up to %.0f L. The trade takes %.0f %% of that for %s, %.0f L, which %s this pond; the choice here rests on the ammonia of the fish instead.",
				item.LabelPond.Litres(), rule.Share.Percent(), rule.Stocking, rule.Suits.Litres(), verdict),
			Value: finding.Of(f.q.Volume.Litres(), "L"), Limit: finding.Of(rule.Suits.Litres(), "L"), Source: rule.Source,
		}}
	}
	return nil
}

// Formulas lists the formulas of this package.
func Formulas() []working.Entry { return []working.Entry{&Turnover, &YearlyEnergy, &LampsPerYear} }

package kit

import (
	"fmt"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// edges says which limits from above a pump at the strong edge of its tolerance breaks. Its weak edge is a limit itself.
func (f *Finder) edges(d Detail) []finding.Finding {
	high := d.Duties[Clean].Flow.High
	var found []finding.Finding
	over := func(code, subject, what, change string, severity finding.Severity, most unit.Flow) {
		if most == 0 || high <= most || d.Flow[Clean] > most {
			return
		}
		found = append(found, finding.Finding{
			Code: code, Severity: severity, Subject: subject,
			Sentence: fmt.Sprintf("A pump at the strong end of its tolerance gives %s L/h, more than the %s L/h %s.",
				finding.Whole(high.LitresPerHour()), finding.Whole(most.LitresPerHour()), what),
			Value: finding.Of(high.LitresPerHour(), "L/h"), Limit: finding.Of(most.LitresPerHour(), "L/h"),
			Change: change, Source: f.q.Tolerance.Source,
		})
	}
	const throttle = "throttle it on the outlet side, never on the inlet"
	over("FLOW_MAY_BE_TOO_MUCH", "pump", "wanted", throttle, finding.Note, f.q.Wanted.Most)
	if d.Set.Filter >= 0 {
		over("FLOW_MAY_EXCEED_FILTER", "filter", "the filter is made for", throttle, finding.Caution, f.r.Filters[d.Set.Filter].MaxFlow)
	}
	if d.Lamp >= 0 {
		over("FLOW_MAY_EXCEED_LAMP_UNIT", "lamp unit", "the lamp unit is made for", throttle, finding.Caution, f.r.Lamps[d.Lamp].MaxFlow)
	}
	return found
}

// lampPrice says where the cost leaves new lamps out.
func (f *Finder) lampPrice(c Candidate) []finding.Finding {
	if c.Lamp < 0 || f.r.Lamps[c.Lamp].LampPrice > 0 {
		return nil
	}
	return []finding.Finding{{
		Code: "LAMP_PRICE_NOT_KNOWN", Severity: finding.Caution, Subject: "cost",
		Sentence: "The catalogue gives no price of a new lamp: what new lamps cost is not in the cost of this set, which makes it look cheaper than it is.",
		Change:   "ask what a lamp costs before you compare", Source: source.Stated,
	}}
}

// powerKnown says where the cost leaves the pump's energy out.
func (f *Finder) powerKnown(d Detail) []finding.Finding {
	if d.Duties[Clean].Power > 0 {
		return nil
	}
	return []finding.Finding{{
		Code: "PUMP_POWER_NOT_KNOWN", Severity: finding.Caution, Subject: "cost",
		Sentence: "Nothing says what power the pump takes: its energy is not in the cost of this set, which makes it look cheaper than it is.",
		Change:   "read the power off its plate", Source: source.Stated,
	}}
}

// stock says which items are not there, or not known to be, where the question takes them all the same.
func (f *Finder) stock(c Candidate) []finding.Finding {
	var found []finding.Finding
	look := func(subject string, s Stock, need int, what string) {
		if s.Owned || !s.Known || s.Count >= need || f.q.Stock != AnyStock {
			return
		}
		found = append(found, finding.Finding{
			Code: "OUT_OF_STOCK", Severity: finding.Caution, Subject: subject, Source: source.Stated,
			Sentence: fmt.Sprintf("The catalogue counts %d%s of the %s in stock; the set takes %d.", s.Count, what, subject, need),
			Value:    finding.Of(float64(s.Count), ""), Limit: finding.Of(float64(need), ""),
			Change: "order it, or ask for a substitute",
		})
	}
	look("pump", f.r.Pumps[c.Pump].Stock, f.q.pumps(), "")
	look("hose", f.r.Hoses[c.Hose].Stock, f.metres(), " m")
	if c.Filter >= 0 {
		look("filter", f.r.Filters[c.Filter].Stock, 1, "")
	}
	if c.Lamp >= 0 {
		look("lamp unit", f.r.Lamps[c.Lamp].Stock, 1, "")
	}
	return found
}

// box sets the flow on the box beside the flow that arrives.
func (f *Finder) box(d Detail) []finding.Finding {
	label := f.r.Pumps[d.Pump].LabelFlow
	if label == 0 || f.q.Beside {
		return nil
	}
	q, due := d.Duties[Due].Flow.Expected, ""
	if d.Set.Filter >= 0 {
		due = " with the filter due for cleaning"
	}
	return []finding.Finding{{
		Code: "BOX_FLOW_IS_AT_NO_LIFT", Severity: finding.Note, Subject: "pump",
		Sentence: fmt.Sprintf("The box says %s L/h, which is at no lift and without a hose; %s L/h arrive%s, %.0f %% of it.",
			finding.Whole(label.LitresPerHour()), finding.Whole(q.LitresPerHour()), due, 100*float64(q/label)),
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
		verdict, severity := "covers", finding.Note
		if !rule.Carries {
			verdict, severity = "does not cover", finding.Caution
		}
		return []finding.Finding{{
			Code: "LABEL_BESIDE_LOAD", Severity: severity, Subject: "filter",
			Sentence: fmt.Sprintf("The label says ponds up to %s L. The trade takes %.0f %% of that for %s, %s L, which %s this pond; the choice here rests on the ammonia of the fish instead.",
				finding.Whole(item.LabelPond.Litres()), rule.Share.Percent(), rule.Stocking, finding.Whole(rule.Suits.Litres()), verdict),
			Value: finding.Of(f.q.Volume.Litres(), "L"), Limit: finding.Of(rule.Suits.Litres(), "L"), Source: rule.Source,
		}}
	}
	return nil
}

// farFrom is how far the flow may lie from the one a loss was measured at, by that flow, before it is remarked on gravely.
const farFrom = 0.5

// squareLaw says that a loss was measured at another flow than runs.
func squareLaw(subject string, d circuit.Device, q unit.Flow) finding.Finding {
	n := finding.Finding{
		Code: "LOSS_GOES_WITH_SQUARE", Severity: finding.Note, Subject: subject, Source: source.Choice,
		Sentence: fmt.Sprintf("The head lost in the %s is known at %s L/h and taken to go with the square of the flow.",
			subject, finding.Whole(d.At.LitresPerHour())),
		Value: finding.Of(q.LitresPerHour(), "L/h"), Limit: finding.Of(d.At.LitresPerHour(), "L/h"),
		Change: "measure the flow with a bucket once it runs",
	}
	if subject == "filter" {
		n.Sentence += " Foam alone loses head nearer in proportion to the flow."
	}
	if off := float64(q/d.At) - 1; off > farFrom || off < -farFrom {
		n.Severity = finding.Caution
	}
	return n
}

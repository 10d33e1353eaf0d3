package kit

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/greenwater"
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
	Winter      bool                  // whether it was asked what runs in winter
	Broken      []Broken
	Findings    []finding.Finding
}

// A Broken limit is one that a set breaks, and what there is to say of it.
type Broken struct {
	Limit   Limit
	State   State // in which it is broken
	Anyhow  bool  // it does not depend on the state
	Finding finding.Finding
}

// Explain calculates a candidate in full, records each step under the name given, and says what to look at.
func (f *Finder) Explain(t *working.Trail, c Candidate, name string) (Detail, error) {
	d := Detail{Candidate: c, Suppression: f.suppression, Winter: f.q.Winter.runs()}
	if !f.explainCircuit(t, &d, name) {
		d.Cost = Cost{Price: f.price(c.Set), Years: f.q.Years}
		d.Cost.Total = d.Cost.Price
		d.breaks(f.limits(c)...)
		return d, nil
	}
	if err := f.explainFilter(t, &d, name); err != nil {
		return Detail{}, err
	}
	if err := f.explainLamp(t, &d, name); err != nil {
		return Detail{}, err
	}
	t.About(name + ", cost")
	power := [states]unit.Power{Clean: d.Duties[Clean].Power}
	if d.Duties[Cold] != nil {
		power[Cold] = d.Duties[Cold].Power
	}
	d.Cost = f.cost(t, c.Set, power)
	d.breaks(f.limits(c)...)
	d.add(f.edges(d)...)
	d.add(f.powerKnown(d)...)
	d.add(f.lampPrice(c)...)
	d.add(f.stock(c)...)
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

func (d *Detail) breaks(broken ...Broken) {
	for _, b := range broken {
		d.Broken = append(d.Broken, b)
		d.add(b.Finding)
	}
}

// explainCircuit solves the circuit in each state and reports whether it runs in all of them. What there is to say of the
// state that is due comes first, for it is the worse one.
func (f *Finder) explainCircuit(t *working.Trail, d *Detail, name string) bool {
	var found [states][]finding.Finding
	runs := true
	for state := Clean; state < states; state++ {
		if state == Cold && !f.q.Winter.runs() {
			break
		}
		trail := t
		if state == Due && d.Set.Filter < 0 {
			trail = nil // the same again
		}
		trail.About(f.stateOf(d.Set, state, name))
		d.Duties[state], found[state] = f.assessState(trail, d.Set, state)
		runs = runs && (d.Duties[state] != nil || state == Cold)
		if state == Cold {
			found[Cold] = inWinter(found[Cold])
		}
		if d.Duties[state] == nil && len(found[state]) > 0 && !(state == Due && d.Set.Filter < 0) {
			limit := NoDuty
			if state == Cold {
				limit = WinterNoDuty
			}
			d.Broken = append(d.Broken, Broken{Limit: limit, State: state, Finding: found[state][0]})
		}
	}
	d.add(found[Due]...)
	d.add(found[Clean]...)
	d.add(found[Cold]...)
	return runs
}

// stateOf is what the workings of a state are headed by.
func (f *Finder) stateOf(set Set, state State, name string) string {
	switch {
	case state == Cold:
		return name + ", circuit in winter"
	case set.Filter < 0:
		return name + ", circuit"
	}
	return name + ", circuit, filter " + state.String()
}

// assessState solves a set in one state. The duty is nil where it does not run, and a finding then says why.
func (f *Finder) assessState(t *working.Trail, set Set, state State) (*circuit.Duty, []finding.Finding) {
	p := f.pumps[set.Pump]
	if _, outcome := f.solve(p, f.circuit(set, state), state); outcome == circuit.OnRisingCurve {
		return nil, []finding.Finding{{
			Code: "PUMPS_ON_RISING_CURVE", Severity: finding.Stop, Subject: "pump", Source: source.Definition,
			Sentence: "Side by side the two pumps would work where their head rises with flow: one takes the water of the other, and no flow is settled.",
			Change:   "take pumps whose head falls from no flow on, or one stronger pump",
		}}
	}
	return circuit.Assess(t, p, f.q.Tolerance, f.circuit(set, state), f.water(state))
}

// inWinter keeps of what there is to say of a circuit in winter what stops it.
func inWinter(found []finding.Finding) []finding.Finding {
	var kept []finding.Finding
	for _, n := range found {
		if n.Severity == finding.Stop {
			n.Code, n.Sentence = "WINTER_"+n.Code, "In winter: "+n.Sentence
			kept = append(kept, n)
		}
	}
	return kept
}

func (f *Finder) explainFilter(t *working.Trail, d *Detail, name string) error {
	if d.Set.Filter < 0 {
		return nil
	}
	t.About(name + ", filter")
	item := f.r.Filters[d.Set.Filter]
	a, err := filter.Assess(t, f.assessInput(item, d.Duties[Due].Flow.Expected))
	if err != nil {
		return fmt.Errorf("assess filter: %w", err)
	}
	d.Filter = &a
	d.add(a.Findings...)
	d.add(f.label(item)...)
	if !item.Open {
		d.add(squareLaw("filter", item.Clean, d.Duties[Clean].Flow.Expected))
	}
	return nil
}

func (f *Finder) explainLamp(t *working.Trail, d *Detail, name string) error {
	if d.Lamp < 0 {
		return nil
	}
	t.About(name + ", lamp unit, lamps at the end of their life, filter due for cleaning")
	dose, err := uv.DoseAt(t, uv.DoseInput{
		Unit: f.r.Lamps[d.Lamp].Unit, Condition: f.condition(),
		Flow: d.Duties[Due].Flow.Expected, PondVolume: f.q.Volume, HoursPerDay: f.q.RunsDaily,
	})
	if err != nil {
		return fmt.Errorf("dose of lamp unit: %w", err)
	}
	d.Dose = &dose
	d.add(dose.Findings...)
	d.add(greenwater.OnePass(dose.Mean))
	d.add(greenwater.Limits()...)
	d.add(squareLaw("lamp unit", f.r.Lamps[d.Lamp].Loss, d.Duties[Clean].Flow.Expected))
	return nil
}

// Formulas lists the formulas of this package.
func Formulas() []working.Entry { return []working.Entry{&Turnover, &YearlyEnergy, &LampsPerYear} }

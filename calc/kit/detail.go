package kit

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/greenwater"
	"example.com/pondwright/calc/pump"
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

// Explain calculates a candidate in full, records each step under the name given, and says what to look at.
func (f *Finder) Explain(t *working.Trail, c Candidate, name string) (Detail, error) {
	d := Detail{Candidate: c, Suppression: f.suppression}
	if !f.explainCircuit(t, &d, name) {
		d.Cost = Cost{Price: f.price(c.Set), Years: f.q.Years}
		d.add(f.limits(c)...)
		return d, nil
	}
	if err := f.explainFilter(t, &d, name); err != nil {
		return Detail{}, err
	}
	if err := f.explainLamp(t, &d, name); err != nil {
		return Detail{}, err
	}
	t.About(name + ", cost")
	d.Cost = f.cost(t, c.Set, d.Duties[Clean].Power)
	d.add(f.limits(c)...)
	d.add(f.edges(d)...)
	d.add(f.lampPrice(c)...)
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

// explainCircuit solves the circuit in each state and reports whether it runs in all of them. What there is to say of the
// state that is due comes first, for it is the worse one.
func (f *Finder) explainCircuit(t *working.Trail, d *Detail, name string) bool {
	p := pump.AsMeasured(f.r.Pumps[d.Pump].Curve)
	var found [states][]finding.Finding
	runs := true
	for state := Clean; state < states; state++ {
		about := name + ", circuit"
		if d.Set.Filter >= 0 {
			about += ", filter " + state.String()
		}
		trail := t
		if state == Due && d.Set.Filter < 0 {
			trail = nil // the same again
		}
		trail.About(about)
		d.Duties[state], found[state] = circuit.Assess(trail, p, f.q.Tolerance, f.circuit(d.Set, state), f.q.Water)
		runs = runs && d.Duties[state] != nil
	}
	d.add(found[Due]...)
	d.add(found[Clean]...)
	return runs
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

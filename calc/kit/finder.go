package kit

import (
	"fmt"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/water"
)

// A Finder answers one question from one range. It holds what does not depend on the whole set: hoses laid out, filters
// assessed, light worked out. It is not safe for concurrent use.
type Finder struct {
	q           Question
	r           Range
	pumps, weak []pump.Pump         // as their curves say, and at the weak end of their tolerance; all of a set together
	runs, rough []*pipe.Run         // by hose, as it is and with the most friction it may have
	cold, stiff []*pipe.Run         // the same of a winter with a hose of its own
	assessed    []filter.Assessment // by filter
	fields      []uv.Field          // by lamp unit, at the end of the lamps' life
	suppression unit.Fluence
	loop        circuit.Loop // reused from set to set
	run         [1]*pipe.Run
	devices     [2]circuit.Device
}

// NewFinder prepares a question. An error means that an item of the range or the question itself cannot be calculated with.
func NewFinder(q Question, r Range) (*Finder, error) {
	f := &Finder{q: q, r: r}
	f.suppression, _ = uv.SuppressionDaily()
	f.pumps, f.weak = make([]pump.Pump, len(r.Pumps)), make([]pump.Pump, len(r.Pumps))
	for i, item := range r.Pumps {
		p := pump.AsMeasured(item.Curve)
		if q.Beside {
			p = p.Beside(q.pumps())
		}
		f.pumps[i], f.weak[i] = p, q.Tolerance.Low(p)
	}
	if err := f.layHoses(); err != nil {
		return nil, err
	}
	if q.Filter {
		for i, item := range r.Filters {
			a, err := filter.Assess(nil, f.assessInput(item, 0))
			if err != nil {
				return nil, fmt.Errorf("filter %d of the range: %w", i, err)
			}
			f.assessed = append(f.assessed, a)
		}
	}
	if q.Lamp {
		for i, lamp := range r.Lamps {
			field, err := lamp.light(f.condition())
			if err != nil {
				return nil, fmt.Errorf("lamp unit %d of the range: %w", i, err)
			}
			f.fields = append(f.fields, field)
		}
	}
	return f, nil
}

func (l *Lamp) light(c uv.Condition) (uv.Field, error) {
	if l.Light != nil {
		return l.Light(c)
	}
	return uv.FieldAt(nil, l.Unit, c)
}

func (f *Finder) layHoses() error {
	lay := func(s pipe.Spec, runs, rough *[]*pipe.Run) error {
		run, err := pipe.NewRun(s)
		if err != nil {
			return err
		}
		_, edge := run.Edges()
		*runs, *rough = append(*runs, run), append(*rough, edge)
		return nil
	}
	for i, hose := range f.r.Hoses {
		err := lay(f.spec(hose), &f.runs, &f.rough)
		if err == nil && f.q.Winter.moved() {
			err = lay(winterSpec(f.q.Winter, hose), &f.cold, &f.stiff)
		}
		if err != nil {
			return fmt.Errorf("hose %d of the range: %w", i, err)
		}
	}
	return nil
}

// spec is the hose of the question. Pumps side by side each push through a check valve and round the corner of a tee; both are
// counted at the whole flow, though half of it runs through each, which errs low.
func (f *Finder) spec(hose Hose) pipe.Spec {
	fitted := append([]pipe.Fitted{{Kind: pipe.Exit, Count: 1}}, f.q.Fittings...)
	if f.q.Beside {
		fitted = append(fitted, pipe.Fitted{Kind: pipe.CheckValve, Count: 1}, pipe.Fitted{Kind: pipe.TeeBranch, Count: 1})
	}
	return pipe.Spec{Length: f.q.Hose, Bore: hose.Bore, TailBore: hose.TailBore, Wall: hose.Wall, Fittings: fitted}
}

func (f *Finder) assessInput(item Filter, flow unit.Flow) filter.AssessInput {
	return filter.AssessInput{
		Filter: item.Filter, Load: f.q.RunningLoad(), Temperature: f.q.Warmest, PH: f.q.PH, Flow: flow, Margin: f.q.Margin,
	}
}

// condition is the water with the lamps at the end of their life, which is when they must still do.
func (f *Finder) condition() uv.Condition { return uv.Condition{Transmittance: f.q.UV, Age: 1} }

// water is what runs in a state.
func (f *Finder) water(state State) water.Properties {
	if state == Cold {
		return f.q.Winter.Water
	}
	return f.q.Water
}

// circuit lays out the loop of a set in a state. The loop is the Finder's own and holds until the next call.
func (f *Finder) circuit(set Set, state State) *circuit.Loop {
	f.loop.Lift = f.q.Lift
	f.run[0] = f.runs[set.Hose]
	filtered, lit := set.Filter >= 0, set.Lamp >= 0
	if state == Cold {
		throughFilter, throughLamp := f.q.Winter.through()
		filtered, lit = filtered && throughFilter, lit && throughLamp
		if f.q.Winter.moved() {
			f.loop.Lift, f.run[0] = f.q.Winter.Lift, f.cold[set.Hose]
		}
	}
	f.loop.Runs = f.run[:]
	n := 0
	if lit {
		f.devices[n] = f.r.Lamps[set.Lamp].Loss
		n++
	}
	if filtered {
		switch item := &f.r.Filters[set.Filter]; {
		case item.Open:
			f.loop.Lift += unit.Head(item.InletAboveOutlet)
		case state == Due:
			f.devices[n] = item.Due
			n++
		default:
			f.devices[n] = item.Clean
			n++
		}
	}
	f.loop.Devices = f.devices[:n]
	return &f.loop
}

// roughest is the loop of a set in a state with the most friction its hose may have.
func (f *Finder) roughest(set Set, state State) *circuit.Loop {
	loop := f.circuit(set, state)
	f.run[0] = f.rough[set.Hose]
	if state == Cold && f.q.Winter.moved() {
		f.run[0] = f.stiff[set.Hose]
	}
	return loop
}

// solve finds the flow of a pump in a loop. Pumps side by side share it evenly only where their heads fall with flow.
func (f *Finder) solve(p pump.Pump, loop *circuit.Loop, state State) (unit.Flow, circuit.Outcome) {
	q, _, outcome := circuit.Solve(p, loop, f.water(state))
	if outcome == circuit.Meets && f.q.Beside && p.Droops() && q < p.Crest() {
		return 0, circuit.OnRisingCurve
	}
	return q, outcome
}

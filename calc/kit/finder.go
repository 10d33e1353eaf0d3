package kit

import (
	"fmt"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
)

// A Finder answers one question from one range. It holds what does not depend on the whole set: hoses laid out, filters
// assessed, light worked out. It is not safe for concurrent use.
type Finder struct {
	q           Question
	r           Range
	runs        []*pipe.Run         // by hose
	rough       []*pipe.Run         // by hose, with the most friction it may have
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
	for i, hose := range r.Hoses {
		run, err := pipe.NewRun(pipe.Spec{
			Length: q.Hose, Bore: hose.Bore, TailBore: hose.TailBore, Wall: hose.Wall,
			Fittings: append([]pipe.Fitted{{Kind: pipe.Exit, Count: 1}}, q.Fittings...),
		})
		if err != nil {
			return nil, fmt.Errorf("hose %d of the range: %w", i, err)
		}
		_, rough := run.Edges()
		f.runs, f.rough = append(f.runs, run), append(f.rough, rough)
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
			field, err := uv.FieldAt(nil, lamp.Unit, f.condition())
			if err != nil {
				return nil, fmt.Errorf("lamp unit %d of the range: %w", i, err)
			}
			f.fields = append(f.fields, field)
		}
	}
	return f, nil
}

func (f *Finder) assessInput(item Filter, flow unit.Flow) filter.AssessInput {
	return filter.AssessInput{
		Filter: item.Filter, Load: f.q.RunningLoad(), Temperature: f.q.Warmest, PH: f.q.PH, Flow: flow, Margin: f.q.Margin,
	}
}

// condition is the water with the lamps at the end of their life, which is when they must still do.
func (f *Finder) condition() uv.Condition { return uv.Condition{Transmittance: f.q.UV, Age: 1} }

// circuit lays out the loop of a set in a state. The loop is the Finder's own and holds until the next call.
func (f *Finder) circuit(set Set, state State) *circuit.Loop {
	f.loop.Lift = f.q.Lift
	f.run[0] = f.runs[set.Hose]
	f.loop.Runs = f.run[:]
	n := 0
	if set.Lamp >= 0 {
		f.devices[n] = f.r.Lamps[set.Lamp].Loss
		n++
	}
	if set.Filter >= 0 {
		if item := &f.r.Filters[set.Filter]; item.Open {
			f.loop.Lift += unit.Head(item.InletAboveOutlet)
		} else {
			f.devices[n] = [states]circuit.Device{Clean: item.Clean, Due: item.Due}[state]
			n++
		}
	}
	f.loop.Devices = f.devices[:n]
	return &f.loop
}

// judge holds a set against every limit. Unless it is to be thorough it stops at the first that is broken; the flows of a
// set that was not judged to the end may be 0.
func (f *Finder) judge(set Set, thorough bool) (Candidate, slacks) {
	c := Candidate{Set: set}
	s := free()
	s.atMost(OverBudget, f.price(set), f.q.Budget)
	if set.Filter >= 0 && f.q.Load.TAN > 0 {
		s[FilterTooSmall] = f.assessed[set.Filter].Headroom.Float()
	}
	if _, broken := s.broken(); broken && !thorough {
		return c, s
	}
	p := pump.AsMeasured(f.r.Pumps[set.Pump].Curve)
	for state := Clean; state < states; state++ {
		q, _, outcome := circuit.Solve(p, f.circuit(set, state), f.q.Water)
		if outcome != circuit.Meets {
			s[NoDuty] = f.miss(p, outcome)
			return c, s
		}
		c.Flow[state] = q
		if state == Clean {
			f.holdClean(set, q, &s)
			// Less flows when the filter is due, so what is short now is short then.
			s.atLeast(FlowBelowWanted, float64(q), float64(f.q.Wanted.Least))
		}
		if _, broken := s.broken(); broken && !thorough {
			return c, s
		}
	}
	c.Weakest = f.weakest(set, p)
	f.holdDue(set, c, &s)
	power, _ := p.Power(c.Flow[Clean])
	c.Cost = f.cost(nil, set, power)
	tightest, slack := s.tightest()
	c.Tightest, c.Headroom = tightest, unit.Ratio(slack)
	return c, s
}

// holdClean holds the greatest flow against the limits from above.
func (f *Finder) holdClean(set Set, q unit.Flow, s *slacks) {
	s.atMost(FlowAboveWanted, float64(q), float64(f.q.Wanted.Most))
	s.atMost(FastInHose, float64(f.runs[set.Hose].Velocity(q)), float64(circuit.VelocityLimit))
	if set.Filter >= 0 {
		s.atMost(FlowAboveFilter, float64(q), float64(f.r.Filters[set.Filter].MaxFlow))
	}
	if set.Lamp >= 0 {
		s.atMost(FlowAboveLampUnit, float64(q), float64(f.r.Lamps[set.Lamp].MaxFlow))
	}
}

// weakest is the least flow there may be: 0 where the weak pump does not run.
func (f *Finder) weakest(set Set, p pump.Pump) unit.Flow {
	loop := f.circuit(set, Due)
	f.run[0] = f.rough[set.Hose]
	q, _, _ := circuit.Solve(f.q.Tolerance.Low(p), loop, f.q.Water)
	return q
}

// holdDue holds the least flow against the limits from below.
func (f *Finder) holdDue(set Set, c Candidate, s *slacks) {
	s.atLeast(FlowBelowWanted, float64(c.Weakest), float64(f.q.Wanted.Least))
	if set.Lamp < 0 {
		return
	}
	dose, err := uv.DoseFrom(nil, f.fields[set.Lamp], c.Flow[Due], f.q.Volume, f.q.RunsDaily)
	if err != nil {
		s[DoseTooLow] = -1
		return
	}
	s.atLeast(DoseTooLow, float64(dose.Daily), float64(f.suppression))
}

// miss says how far pump and loop are from meeting: a whole part at least, and more the higher the lift is above the pump.
func (f *Finder) miss(p pump.Pump, outcome circuit.Outcome) float64 {
	if outcome != circuit.CannotLift {
		return -1
	}
	shutOff, _ := p.Head(0)
	return float64(shutOff/f.loop.Lift) - 2
}

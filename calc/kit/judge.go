package kit

import (
	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
)

// judge holds a set against every limit. Unless it is to be thorough it stops at the first that is broken; the flows of a
// set that was not judged to the end may be 0.
func (f *Finder) judge(set Set, thorough bool) (Candidate, slacks) {
	c := Candidate{Set: set}
	if f.q.Beside {
		c.Pumps = SideBySide
	}
	s := f.apart(set)
	if _, broken := s.broken(); broken && !thorough {
		return c, s
	}
	p := f.pumps[set.Pump]
	for state := Clean; state <= Due; state++ {
		q, outcome := f.solve(p, f.circuit(set, state), state)
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
	c.Weakest, _ = f.solve(f.weak[set.Pump], f.roughest(set, Due), Due)
	f.holdDue(set, c, &s)
	if _, broken := s.broken(); broken && !thorough {
		return c, s
	}
	if f.q.Winter.runs() && !f.holdCold(&c, &s) {
		return c, s
	}
	f.reckon(&c)
	tightest, slack := s.tightest()
	c.Tightest, c.Headroom = tightest, unit.Ratio(slack)
	return c, s
}

// apart holds against the limits that do not depend on what flows.
func (f *Finder) apart(set Set) slacks {
	s := free()
	if f.q.Stock != AnyStock {
		if n := len(f.outOf(set)); n > 0 {
			s[OutOfStock] = -float64(n)
		}
	}
	if f.q.Filter && set.Filter < 0 {
		s[FilterMissing] = -1
	}
	if f.q.Lamp && set.Lamp < 0 {
		s[LampMissing] = -1
	}
	s.atMost(OverBudget, f.price(set), f.q.Budget)
	if set.Filter >= 0 && f.q.Load.TAN > 0 {
		s[FilterTooSmall] = f.assessed[set.Filter].Headroom.Float()
	}
	return s
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

// holdDue holds the least flow against the limits from below.
func (f *Finder) holdDue(set Set, c Candidate, s *slacks) {
	s.atLeast(FlowBelowWanted, float64(c.Weakest), float64(f.q.Wanted.Least))
	if set.Lamp >= 0 {
		s[DoseTooLow] = f.dose(set.Lamp, c.Flow[Due])
	}
}

// dose is how far the dose that the pond gathers is above what is wanted.
func (f *Finder) dose(lamp int, q unit.Flow) float64 {
	d, err := uv.DoseFrom(nil, f.fields[lamp], q, f.q.Volume, f.q.RunsDaily)
	if err != nil {
		return -1
	}
	return float64(d.Daily)/float64(f.suppression) - 1
}

// holdCold holds the flow in winter against its limits and reports whether there is one.
func (f *Finder) holdCold(c *Candidate, s *slacks) bool {
	p, w := f.pumps[c.Pump], f.q.Winter
	q, outcome := f.solve(p, f.circuit(c.Set, Cold), Cold)
	if outcome != circuit.Meets {
		s[WinterNoDuty] = f.miss(p, outcome)
		return false
	}
	c.Flow[Cold] = q
	if w.Least > 0 {
		weakest, _ := f.solve(f.weak[c.Pump], f.roughest(c.Set, Cold), Cold)
		s.atLeast(WinterBelowWanted, float64(weakest), float64(w.Least))
	}
	s.atMost(WinterAboveWanted, float64(q), float64(w.Most))
	s.atMost(WinterFastInHose, float64(f.runs[c.Hose].Velocity(q)), float64(circuit.VelocityLimit))
	filtered, lit := w.through()
	if filtered && c.Filter >= 0 {
		s.atMost(WinterAboveFilter, float64(q), float64(f.r.Filters[c.Filter].MaxFlow))
	}
	if lit && c.Lamp >= 0 {
		s.atMost(WinterAboveLampUnit, float64(q), float64(f.r.Lamps[c.Lamp].MaxFlow))
	}
	return true
}

// reckon fills in what a set that runs costs.
func (f *Finder) reckon(c *Candidate) {
	var power [states]unit.Power
	power[Clean], _ = f.pumps[c.Pump].Power(c.Flow[Clean])
	if f.q.Winter.runs() {
		power[Cold], _ = f.pumps[c.Pump].Power(c.Flow[Cold])
	}
	c.Cost = f.cost(nil, c.Set, power)
}

// miss says how far pump and loop are from meeting: a whole part at least, and more the higher the lift is above the pump.
func (f *Finder) miss(p pump.Pump, outcome circuit.Outcome) float64 {
	if outcome != circuit.CannotLift {
		return -1
	}
	shutOff, _ := p.Head(0)
	return float64(shutOff/f.loop.Lift) - 2
}

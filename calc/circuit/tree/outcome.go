package tree

import (
	"math"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/root"
)

// Solve finds what flows where. The solution is nil unless the outcome is circuit.Meets.
func (n *Network) Solve(c Conditions) (*Solution, circuit.Outcome) {
	t, outcome := n.settled(c)
	if outcome != circuit.Meets {
		return nil, outcome
	}
	return t.solution(), circuit.Meets
}

func (n *Network) settled(c Conditions) (*settled, circuit.Outcome) { return n.newSolver(c).settled() }

func (s *solver) settled() (*settled, circuit.Outcome) {
	n, q := s.net, s.run()
	if math.IsNaN(q) {
		return nil, circuit.NotCalculable
	}
	if q == 0 {
		return nil, circuit.CannotLift
	}
	if p := n.drooping(); p != nil && q < p.crest {
		var outcome circuit.Outcome
		if q, outcome = s.onRise(p); outcome != circuit.Meets {
			return nil, outcome
		}
	} else if s.cannotStart() {
		return nil, circuit.CannotStart
	}
	t := s.settle(q)
	return t, t.outcome()
}

// drooping is the pump of a circuit that has a single one, between intake and delivery, where its curve droops.
func (n *Network) drooping() *pumpElement {
	var only *pumpElement
	for _, e := range n.trunk.parts {
		if e.joint != nil || e.pump != nil && only != nil {
			return nil
		}
		if e.pump != nil {
			only = e.pump
		}
	}
	if only == nil || !only.Droops() {
		return nil
	}
	return only
}

// onRise looks for a flow that a pump keeps to on the rising part of its curve.
func (s *solver) onRise(p *pumpElement) (float64, circuit.Outcome) {
	s.rise = true
	excess := func(q float64) float64 {
		h, _ := s.total(q)
		return -h
	}
	if !(excess(p.first) > 0) {
		return 0, circuit.CannotLift
	}
	a, b, ok := p.OnRise(excess)
	if !ok {
		return 0, circuit.CannotLift
	}
	q, ok := root.Find(excess, a, b)
	if !ok {
		return 0, circuit.NotCalculable
	}
	return q, circuit.Meets
}

// cannotStart says that water at rest asks for more head than the pumps give at no flow, though less than they would give
// once it ran. What stands in for a drooping curve from its crest down hides that.
func (s *solver) cannotStart() bool {
	still, _ := s.total(0)
	return still+s.shortfall(&s.net.trunk) >= 0
}

// shortfall is by how much the curves of the pumps of a limb droop at no flow. Of several ways the strongest counts.
func (s *solver) shortfall(l *limb) float64 {
	sum := 0.0
	for _, e := range l.parts {
		switch {
		case e.joint != nil:
			strongest := e.joint.limbs[0]
			for _, way := range e.joint.limbs {
				if s.rest[way.index] < s.rest[strongest.index] {
					strongest = way
				}
			}
			sum += s.shortfall(strongest)
		case e.pump != nil:
			if still, ok := e.pump.ShutOff(); ok {
				sum += e.pump.top - still.Metres()
			}
		}
	}
	return sum
}

// outcome says whether each pump works where its curve is known.
func (t *settled) outcome() circuit.Outcome {
	for _, e := range t.net.elements {
		if e.pump == nil {
			continue
		}
		if fault := t.fault(e); fault != circuit.Meets {
			return fault
		}
	}
	return circuit.Meets
}

func (t *settled) fault(e *element) circuit.Outcome {
	switch p, q := e.pump, t.part[e.index]; {
	case q == 0 && e.oneWay && p.first == 0: // held shut by a stronger one
	case q < 0:
		return circuit.PushedBack
	case q < p.first:
		return circuit.BelowCurve
	case q > p.last*(1+1e-15):
		return circuit.BeyondCurve
	case q < p.crest && !t.rise:
		return circuit.OnRisingCurve
	}
	return circuit.Meets
}

package tree

import (
	"math"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/root"
	"example.com/pondwright/calc/unit"
)

// A Spare is the head that one branch of a fork has to spare, which its valve is to take.
type Spare struct {
	Branch string
	Flow   unit.Flow // its share
	Head   unit.Head // 0 for the branch that needs most
}

// Split gives the flow through the pump when the branches of a fork in the delivery share their water as asked, and the
// head that a valve in each is to take on top of what is described. The branch that needs most keeps its valve as it is.
// Shares add up to 1, in the order of the branches. Errors name fork or shares.
func (n *Network) Split(c Conditions, branch string, shares []unit.Ratio) (unit.Flow, []Spare, circuit.Outcome, error) {
	s := n.newSolver(c)
	if err := s.ask(branch, shares); err != nil {
		return 0, nil, 0, err
	}
	t, outcome := s.settled()
	if outcome != circuit.Meets {
		return 0, nil, outcome, nil
	}
	most := math.Inf(-1)
	for _, l := range s.asked.limbs {
		most = max(most, t.potential(l))
	}
	spares := make([]Spare, len(shares))
	for i, l := range s.asked.limbs {
		spares[i] = Spare{l.name, unit.Flow(t.flow[l.index]), unit.Head(most - t.potential(l))}
	}
	return unit.Flow(t.flow[n.trunk.index]), spares, outcome, nil
}

// ask takes over how a fork is to share its water.
func (s *solver) ask(branch string, shares []unit.Ratio) error {
	var errs input.Errors
	for _, l := range s.net.limbs {
		if !l.path && l.name == branch && l.joint != nil && !l.intake {
			s.asked = l.joint
		}
	}
	sum := 0.0
	for _, share := range shares {
		if !(share > 0) {
			errs.Add("shares", "give each branch a share above 0", "a share of %g", share.Float())
		}
		sum += share.Float()
		s.shares = append(s.shares, share.Float())
	}
	switch {
	case s.asked == nil:
		errs.Add("fork", "name a branch of the delivery that forks", "%q does not fork", branch)
	case len(shares) != len(s.asked.limbs):
		errs.Add("shares", "give one share a branch", "%d shares for %d branches", len(shares), len(s.asked.limbs))
	case math.Abs(sum-1) > 1e-9:
		errs.Add("shares", "let the shares add up to 1", "the shares add up to %g", sum)
	}
	if err := errs.Err(); err != nil {
		return err
	}
	s.still()
	return nil
}

// A Surplus is a circuit at a flow that is not its own.
type Surplus struct {
	Pump  unit.Flow // through the pump
	Head  unit.Head // left over there: what would have to be taken on the way of all the water to bring the flow there
	Slope float64   // how all the head taken goes with the flow through the pump, in m per m³/s
}

// At gives what is left over when a branch carries a flow, or the pump where branch is ""; ok is false where no flow
// through the pump that its curve knows brings that about. Whatever is left over is thought of on the way of all the water.
func (n *Network) At(c Conditions, branch string, q unit.Flow) (s Surplus, ok bool) {
	solver := n.newSolver(c)
	pumped := q
	if branch != "" {
		if pumped, ok = solver.pumpedFor(branch, q); !ok {
			return Surplus{}, false
		}
	}
	if p := n.drooping(); p != nil {
		solver.rise = float64(pumped) < p.crest
	}
	t := solver.settle(float64(pumped))
	if t.outcome() != circuit.Meets {
		return Surplus{}, false
	}
	head, slope := solver.total(float64(pumped))
	return Surplus{pumped, unit.Head(-head), slope}, true
}

// pumpedFor is the flow through the pump at which a branch carries a flow, which rises with it.
func (s *solver) pumpedFor(branch string, q unit.Flow) (unit.Flow, bool) {
	var asked *limb
	for _, l := range s.net.limbs {
		if !l.path && l.name == branch {
			asked = l
		}
	}
	if asked == nil {
		return 0, false
	}
	most := 0.0
	for _, e := range s.net.elements {
		if e.pump != nil {
			most += e.pump.last
		}
	}
	pumped, ok := root.Find(func(x float64) float64 { return s.settle(x).flow[asked.index] - float64(q) }, 0, most)
	return unit.Flow(pumped), ok
}

// PowerAt is what the pumps would take from the mains at a flow through the pump that is not the circuit's own; ok is
// false where that of one is not known there.
func (n *Network) PowerAt(c Conditions, q unit.Flow) (power unit.Power, ok bool) {
	t := n.newSolver(c).settle(float64(q))
	return n.Power(t.solution())
}

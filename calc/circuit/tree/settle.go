package tree

import "math"

// A settled network knows the flow of every limb and part.
type settled struct {
	*solver
	flow   []float64 // by limb
	part   []float64 // by element
	loss   []float64 // by element
	slope  []float64 // by element
	joined []float64 // by joint, potential
}

// run finds the flow through the pump. It is 0 where nothing is driven through.
func (s *solver) run() float64 {
	still, _ := s.total(0)
	if !(still < 0) {
		return 0
	}
	q, _ := climb(func(q float64) (float64, float64) {
		h, d := s.total(q)
		return h - still, d
	}, -still, s.grain, 0)
	return q
}

// settle shares out a flow through the pump.
func (s *solver) settle(q float64) *settled {
	n := s.net
	t := &settled{
		solver: s, flow: make([]float64, len(n.limbs)), part: make([]float64, len(n.elements)),
		loss: make([]float64, len(n.elements)), slope: make([]float64, len(n.elements)), joined: make([]float64, len(n.joints)),
	}
	t.limb(&n.intake, q)
	t.limb(&n.trunk, q)
	t.limb(&n.delivery, q)
	return t
}

func (t *settled) limb(l *limb, q float64) {
	t.flow[l.index] = q
	for _, e := range l.parts {
		t.part[e.index] = q
		t.loss[e.index], t.slope[e.index] = t.solver.loss(e, q)
		if e.joint != nil {
			t.joint(e.joint, q)
		}
	}
	switch {
	case l.joint != nil:
		t.joint(l.joint, q)
	case l.box != nil:
		t.limb(l.box, q)
	}
}

// joint shares out a flow at a joint. What the potential found still leaves over, in its last bits, goes to the limbs in
// proportion to their conductance: the last step of Newton's method, in the flows.
func (t *settled) joint(j *joint, q float64) {
	p, _ := t.share(j, q)
	t.joined[j.index] = p
	if j == t.asked {
		for i, l := range j.limbs {
			t.limb(l, t.shares[i]*q)
		}
		return
	}
	left, open := q, 0.0
	flows, conductances := make([]float64, len(j.limbs)), make([]float64, len(j.limbs))
	for i, l := range j.limbs {
		flows[i], conductances[i] = t.solver.flow(l, p)
		left -= flows[i]
		open += conductances[i]
	}
	for i, l := range j.limbs {
		if open > 0 && !math.IsInf(open, 0) {
			flows[i] += left * conductances[i] / open
		}
		if l.oneWay {
			flows[i] = max(flows[i], 0)
		}
		t.limb(l, flows[i])
	}
}

// potential is the potential at the root of a limb, from its end inwards.
func (t *settled) potential(l *limb) float64 {
	p := t.end(l)
	for _, e := range l.parts {
		p += t.loss[e.index]
	}
	return p
}

// end is the potential at the end of a limb.
func (t *settled) end(l *limb) float64 {
	switch {
	case l.joint != nil:
		return t.joined[l.joint.index]
	case l.box != nil:
		return max(l.level, t.potential(l.box))
	}
	return l.level
}

package tree

import "math"

// A nudge is what a change of one input does to heads at flows that stay: the loss of parts and the potential of ends.
type nudge struct {
	loss  map[int]float64 // by element, m
	level map[int]float64 // by limb, m
}

// A response is a change of flow.
type response []float64 // by limb, m³/s

// respond gives the change of every flow for a small change of heads, by the implicit function theorem at the settled
// point: losses are replaced by their tangents, dh = h′(q) dq + nudge, and the circuit so made linear is solved exactly
// from its ends inwards.
//
// At the pump it is dQ/dx = −(∂F/∂x)/(∂F/∂Q), where F is all that the flow through the pump takes.
func (t *settled) respond(by nudge) response {
	change := make(response, len(t.net.limbs))
	r, e := 0.0, 0.0
	roots := [...]*limb{&t.net.intake, &t.net.trunk, &t.net.delivery}
	for _, l := range roots {
		lr, le := t.tangent(l, by)
		r += lr
		e += le
	}
	for _, l := range roots {
		t.spread(l, -e/r, by, change)
	}
	return change
}

// tangent is how the potential at the root of a limb goes with its flow, and how far the nudge moves it at no change of
// flow.
func (t *settled) tangent(l *limb, by nudge) (slope, moved float64) {
	for _, e := range l.parts {
		if e.joint != nil {
			r, m := t.jointTangent(e.joint, by)
			slope += r
			moved += m
			continue
		}
		slope += t.slope[e.index]
		moved += by.loss[e.index]
	}
	switch {
	case l.joint != nil:
		r, m := t.jointTangent(l.joint, by)
		return slope + r, moved + m
	case l.box != nil && t.potential(l.box) > l.level:
		r, m := t.tangent(l.box, by)
		return slope + r, moved + m
	}
	return slope, moved + by.level[l.index]
}

func (t *settled) jointTangent(j *joint, by nudge) (slope, moved float64) {
	conductance, drive := 0.0, 0.0
	for _, l := range j.limbs {
		if t.shut(l) {
			continue
		}
		r, m := t.tangent(l, by)
		c := 1 / math.Max(r, leastSlope)
		conductance += c
		drive += c * m
	}
	if conductance == 0 {
		return 0, 0
	}
	return 1 / conductance, drive / conductance
}

// shut says that a limb carries nothing and would not for a small change.
func (t *settled) shut(l *limb) bool { return l.oneWay && t.flow[l.index] == 0 }

// spread shares a change of flow out over a limb and those that hang on it.
func (t *settled) spread(l *limb, dq float64, by nudge, change response) {
	change[l.index] = dq
	for _, e := range l.parts {
		if e.joint != nil {
			t.spreadJoint(e.joint, dq, by, change)
		}
	}
	switch {
	case l.joint != nil:
		t.spreadJoint(l.joint, dq, by, change)
	case l.box != nil:
		t.spread(l.box, dq, by, change)
	}
}

func (t *settled) spreadJoint(j *joint, dq float64, by nudge, change response) {
	slope, moved := t.jointTangent(j, by)
	dp := slope*dq + moved
	for _, l := range j.limbs {
		if t.shut(l) {
			continue
		}
		r, m := t.tangent(l, by)
		t.spread(l, (dp-m)/math.Max(r, leastSlope), by, change)
	}
}

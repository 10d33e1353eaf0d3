package tree

import (
	"math"

	"example.com/pondwright/calc/water"
)

// A solver is a network in one state. All searches are over one number and bracketed:
//
//   - the flow of a limb for a potential at its root, the loss along it rising with flow;
//   - the potential of a joint for a flow into it, the flows of its limbs rising with potential;
//   - the flow through the pump, where what the two sides and the pump take of it together is 0.
//
// They lie inside one another as the branches do. Each is unique and cannot fail, and each ends within mostSteps.
type solver struct {
	net    *Network
	water  water.Properties
	fouled int
	about  string
	lines  []line    // by element
	rest   []float64 // by limb, potential at no flow
	flows  []near    // by limb, flow for a potential, as last found
	levels []near    // by joint, potential for a flow, as last found
	grain  float64   // m, to within which heads are known
	rise   bool      // a pump works on the rising part of its curve
	asked  *joint    // whose limbs are to share its flow as asked, by valves yet to be set
	shares []float64
	steps  int
	stop   func() bool
	ended  bool // by stop
}

// near is a point of a function near which the next is sought.
type near struct{ x, y, slope float64 }

func (n near) at(x float64) float64 { return n.y + (x-n.x)*n.slope }

func (n *Network) newSolver(c Conditions) *solver {
	s := &solver{
		net: n, water: c.Water, about: c.Subject, stop: c.Stop, lines: make([]line, len(n.elements)), rest: make([]float64, len(n.limbs)),
		flows: make([]near, len(n.limbs)), levels: make([]near, len(n.joints)),
	}
	if c.Due {
		s.fouled = due
	}
	s.grain = 1e-15
	for i, e := range n.elements {
		if e.run != nil {
			s.lines[i] = newLine(e.run, c.Water)
		}
		if e.pump != nil {
			s.grain += 1e-15 * e.pump.top
		}
	}
	s.still()
	return s
}

// still works out the potential of every limb at no flow. What hangs on a limb comes after it.
func (s *solver) still() {
	for i := len(s.rest) - 1; i >= 0; i-- {
		s.rest[i], _ = s.load(s.net.limbs[i], 0)
	}
}

// load is the potential at the root of a limb that a flow asks for, and how it goes with flow. A limb that is one-way is
// never asked for a flow below 0.
func (s *solver) load(l *limb, q float64) (p, slope float64) {
	for _, e := range l.parts {
		h, d := s.loss(e, q)
		p += h
		slope += d
	}
	h, d := s.beyond(l, q)
	return p + h, slope + d
}

// beyond is the potential at the end of a limb.
func (s *solver) beyond(l *limb, q float64) (p, slope float64) {
	switch {
	case l.joint != nil:
		return s.share(l.joint, q)
	case l.box != nil:
		if p, slope = s.load(l.box, q); p > l.level {
			return p, slope
		}
	}
	return l.level, 0
}

// loss is the head a part takes at a flow, and how it goes with flow.
func (s *solver) loss(e *element, q float64) (h, slope float64) {
	if s.steps++; s.stops() {
		return math.NaN(), math.NaN()
	}
	switch {
	case e.pump != nil:
		return e.pump.loss(q, s.rise)
	case e.joint != nil:
		return s.share(e.joint, q)
	}
	x := math.Abs(q)
	switch {
	case e.run == nil:
		k := e.square[s.fouled]
		h, slope = k*x*x, 2*k*x
	case x == 0:
		return 0, s.lines[e.index].creep
	default:
		h, slope = s.lines[e.index].loss(e.run, x, s.water)
	}
	return math.Copysign(h, q), slope
}

// stops asks from time to time whether to go on. All that is found after that is not a number, at which every search ends.
func (s *solver) stops() bool {
	const betweenAsking = 1 << 10
	if !s.ended && s.stop != nil && s.steps%betweenAsking == 0 {
		s.ended = s.stop()
	}
	return s.ended
}

// flow is what a limb carries for a potential at its root, and how it goes with that.
func (s *solver) flow(l *limb, p float64) (q, conductance float64) {
	rest := s.rest[l.index]
	if p == rest || p < rest && l.oneWay {
		return 0, 0
	}
	sense := 1.0
	if p < rest {
		sense = -1
	}
	last := &s.flows[l.index]
	q, slope := climb(func(x float64) (float64, float64) {
		y, d := s.load(l, sense*x)
		return sense * (y - rest), d
	}, sense*(p-rest), s.grain, sense*last.at(p))
	q *= sense
	conductance = 1 / max(slope, leastSlope)
	*last = near{p, q, conductance}
	return q, conductance
}

// leastSlope keeps the conductance of a part that hardly resists finite, in m per m³/s.
const leastSlope = 1e-6

// share is the potential at which a joint takes a flow, and how it goes with flow.
func (s *solver) share(j *joint, q float64) (p, slope float64) {
	if s.ended {
		return math.NaN(), math.NaN()
	}
	if j == s.asked {
		return s.hungriest(q)
	}
	lo, hi := s.bracket(j, q)
	if lo == hi || q == 0 && j.oneWay {
		return lo, 1 / max(s.conductance(j, lo), math.SmallestNonzeroFloat64)
	}
	last := &s.levels[j.index]
	guess := last.at(q)
	if q == 0 {
		guess = lo
	}
	p, conductance := meet(func(p float64) (float64, float64) {
		left, all, c := -q, 0.0, 0.0
		for _, l := range j.limbs {
			q, d := s.flow(l, p)
			left += q
			all += math.Abs(q)
			c += d
		}
		if math.Abs(left) <= closeEnough*all { // shared out when all else is settled
			left = 0
		}
		return left, c
	}, lo, hi, s.grain, guess)
	slope = 1 / max(conductance, leastSlope)
	*last = near{q, p, slope}
	return p, slope
}

// hungriest is the potential at the joint whose shares are asked for: that of the limb that needs most for its share. The
// others have a valve take what they do not need.
func (s *solver) hungriest(q float64) (p, slope float64) {
	p = math.Inf(-1)
	for i, l := range s.asked.limbs {
		if h, d := s.load(l, s.shares[i]*q); h > p {
			p, slope = h, s.shares[i]*d
		}
	}
	return p, slope
}

// bracket gives two potentials between which a joint takes a flow: where each limb takes an equal part of it or less, and
// where each takes as much or more. Limbs that are one-way take no part in a flow that comes back.
func (s *solver) bracket(j *joint, q float64) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	ways := 0
	for _, l := range j.limbs {
		if q >= 0 || !l.oneWay {
			ways++
		}
	}
	for _, l := range j.limbs {
		p := s.rest[l.index]
		if q < 0 {
			hi = max(hi, p)
		}
		if q >= 0 || !l.oneWay {
			p, _ = s.load(l, q/float64(ways))
		}
		lo = min(lo, p)
		if q >= 0 {
			hi = max(hi, p)
		}
	}
	return lo, hi
}

// conductance is how the flow of a joint goes with its potential.
func (s *solver) conductance(j *joint, p float64) float64 {
	sum := 0.0
	for _, l := range j.limbs {
		_, c := s.flow(l, p)
		sum += c
	}
	return sum
}

// total is what the flow through the pump takes altogether, and how that goes with flow. It is 0 where the circuit runs.
func (s *solver) total(q float64) (h, slope float64) {
	for _, l := range [...]*limb{&s.net.intake, &s.net.trunk, &s.net.delivery} {
		p, d := s.load(l, q)
		h += p
		slope += d
	}
	return h, slope
}

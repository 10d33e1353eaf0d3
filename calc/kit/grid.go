package kit

import (
	"math"

	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// steps is how finely the flows are divided that a pump is bracketed in.
const steps = 192

// doubt is the head below which two heads are not told apart: far more than rounding, far less than anything that matters.
const doubt = unit.Head(1e-9)

// A grid is a row of flows, rising, with what hoses lose and pumps give at each. Between two of them lies the flow of a set,
// and that it does is proven by one comparison at each end, without solving.
type grid struct {
	flow   [steps]float64
	square [steps]float64
}

// lay spreads the flows evenly by ratio.
func (g *grid) lay(from, to float64) {
	ratio := math.Log(to / from)
	for i := range g.flow {
		g.flow[i] = from * math.Exp(ratio*float64(i)/(steps-1))
	}
	g.flow[0], g.flow[steps-1] = from, to
	for i, q := range g.flow {
		g.square[i] = q * q
	}
}

// heads are one for each flow of a grid.
type heads [steps]float64

// pumpHeads are what a pump gives. Below the flow its curve falls from, it gives any head, and beyond its last flow none, so
// that a bracket never leaves the part on which head falls. sound is the first flow on that part.
func (g *grid) pumpHeads(p pump.Pump, into *heads) (sound int) {
	crest := float64(p.Crest())
	for i, q := range g.flow {
		switch h, ok := p.Head(unit.Flow(q)); {
		case q < crest:
			into[i] = math.Inf(1)
			sound = i + 1
		case ok:
			into[i] = float64(h)
		default:
			into[i] = math.Inf(-1)
		}
	}
	if !p.Droops() {
		return 0
	}
	return sound
}

// A bracket is two steps of a grid: a flow lies above that of lo, which is −1 where it may be anywhere from no flow on, and below
// that of hi, which is steps where it may be anywhere above.
type bracket struct{ lo, hi int }

// anywhere is the bracket of which nothing is known.
var anywhere = bracket{-1, steps}

// meet brackets where a pump meets hose and law, within a bracket known before.
func (g *grid) meet(p, hose *heads, l law, sound int, within bracket) bracket {
	a, b := within.lo+1, within.hi
	for a < b {
		if mid := int(uint(a+b) >> 1); p[mid]-hose[mid]-l.at(g.square[mid]) > float64(doubt) {
			a = mid + 1
		} else {
			b = mid
		}
	}
	found := bracket{a - 1, a}
	for found.hi < within.hi && !(p[found.hi]-hose[found.hi]-l.at(g.square[found.hi]) < -float64(doubt)) {
		found.hi++
	}
	if found.lo < sound {
		found.lo = -1
	}
	return found
}

// above is the flow that one in the bracket lies above.
func (g *grid) above(b bracket) float64 {
	if b.lo < 0 {
		return 0
	}
	return g.flow[b.lo]
}

// below is the flow that one in the bracket lies below; +∞ beyond the last step.
func (g *grid) below(b bracket) float64 {
	if b.hi >= steps {
		return math.Inf(1)
	}
	return g.flow[b.hi]
}

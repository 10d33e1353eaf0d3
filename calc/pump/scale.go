package pump

import (
	"math"

	"example.com/pondwright/calc/unit"
)

// A Pump is a curve at some scale: the same pump at another speed, or at the edge of what its acceptance tolerance lets
// pass. The zero scale is not valid; use AsMeasured.
type Pump struct {
	*Curve
	flow, head, power float64
	speed             float64 // of the speed the curve was measured at
}

// AsMeasured is the pump as its curve says.
func AsMeasured(c *Curve) Pump { return Pump{Curve: c, flow: 1, head: 1, power: 1, speed: 1} }

// AtSpeed is the pump at n times the speed its curve was measured at.
//
//	Q ~ n,  H ~ n²,  P ~ n³
//
// Small wet-rotor motors leave these laws below some 0.6 n; see Remarks.
// Source: affinity laws.
func (p Pump) AtSpeed(n unit.Ratio) Pump {
	x := n.Float()
	return Pump{Curve: p.Curve, flow: p.flow * x, head: p.head * x * x, power: p.power * x * x * x, speed: p.speed * x}
}

// Range is the first and the last flow the pump is known at.
func (p Pump) Range() (first, last unit.Flow) {
	first, last = p.Curve.Range()
	return first * unit.Flow(p.flow), last * unit.Flow(p.flow)
}

// Head is the head at a flow inside the range; ok is false outside it.
func (p Pump) Head(q unit.Flow) (unit.Head, bool) {
	h, ok := p.Curve.Head(p.onCurve(q))
	return h * unit.Head(p.head), ok
}

// Power is the electrical power at a flow inside the range; ok is false outside it or where power is not known.
func (p Pump) Power(q unit.Flow) (unit.Power, bool) {
	w, ok := p.Curve.Power(p.onCurve(q))
	return w * unit.Power(p.power), ok
}

// Slope is how head goes with flow inside the range, in m per m³/s: below 0 where head falls.
func (p Pump) Slope(q unit.Flow) float64 { return p.head / p.flow * p.slope(p.onCurve(q)) }

// Speed is the speed of the pump by that its curve was measured at.
func (p Pump) Speed() unit.Ratio { return unit.Ratio(p.speed) }

// onCurve takes a flow back to the measured curve. Dividing a bound by the scale it was multiplied with may miss the
// bound by the last bit, which must not count as beyond it.
func (p Pump) onCurve(q unit.Flow) unit.Flow {
	x := q / unit.Flow(p.flow)
	first, last := p.Curve.Range()
	switch slack := 4 * ulp(float64(last)); {
	case x > last && float64(x-last) <= slack:
		return last
	case x < first && float64(first-x) <= slack:
		return first
	}
	return x
}

func ulp(x float64) float64 { return math.Nextafter(x, math.Inf(1)) - x }

// Beside is n pumps of the kind side by side into one pipe: at each head they give n times the flow and take n times the power.
func (p Pump) Beside(n int) Pump {
	x := float64(n)
	return Pump{Curve: p.Curve, flow: p.flow * x, head: p.head, power: p.power * x, speed: p.speed}
}

// Measured gives the measured points at the pump's scale, in order.
func (p Pump) Measured(yield func(Point) bool) {
	for _, point := range p.points {
		if !yield(Point{point.Flow * unit.Flow(p.flow), point.Head * unit.Head(p.head), point.Power * unit.Power(p.power)}) {
			return
		}
	}
}

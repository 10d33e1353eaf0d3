package pump

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Pump is a curve at some scale: the same pump at another speed, or at the edge of what its acceptance tolerance lets
// pass. The zero scale is not valid; use AsMeasured.
type Pump struct {
	*Curve
	flow, head, power float64
}

// AsMeasured is the pump as its curve says.
func AsMeasured(c *Curve) Pump { return Pump{Curve: c, flow: 1, head: 1, power: 1} }

// AtSpeed is the pump at n times the speed its curve was measured at.
//
//	Q ~ n,  H ~ n²,  P ~ n³
//
// Small wet-rotor motors leave these laws below some 0.6 n.
// Source: affinity laws.
func (p Pump) AtSpeed(n unit.Ratio) Pump {
	x := n.Float()
	return Pump{Curve: p.Curve, flow: p.flow * x, head: p.head * x * x, power: p.power * x * x * x}
}

// A Tolerance is how far flow and head of a pump sold may lie from its curve, either way.
type Tolerance struct {
	Flow, Head unit.Ratio
	Source     source.Source
}

// Usual is the tolerance of ISO 9906 for pumps of 1 to 10 kW where no grade is agreed. Below 1 kW the standard leaves it
// to agreement; garden pumps are sold without any, so this is the least to allow for.
func Usual() Tolerance {
	return Tolerance{Flow: unit.Percent(10), Head: unit.Percent(8), Source: source.ISO9906.At("clause 4.4.2")}
}

// Low is the weakest pump the tolerance lets pass.
func (t Tolerance) Low(p Pump) Pump { return p.scaled(1-t.Flow.Float(), 1-t.Head.Float()) }

// High is the strongest pump the tolerance lets pass.
func (t Tolerance) High(p Pump) Pump { return p.scaled(1+t.Flow.Float(), 1+t.Head.Float()) }

func (p Pump) scaled(flow, head float64) Pump {
	p.flow *= flow
	p.head *= head
	return p
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

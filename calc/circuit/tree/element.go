package tree

import (
	"math"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// explainValve records the head lost in a valve.
func explainValve(t *working.Trail, v Valve, q unit.Flow) {
	if v.Kv > 0 {
		pipe.KvLoss.Run(t, pipe.KvLossInput{Flow: q, Kv: v.Kv})
		return
	}
	pipe.MinorLoss.Run(t, pipe.MinorInput{Coefficient: v.K, Velocity: pipe.Velocity.Run(t, pipe.VelocityInput{Flow: q, Bore: v.Bore})})
}

// Formulas lists the formulas of this package.
func Formulas() []working.Entry { return []working.Entry{&Quadrature} }

// set takes over what the solver needs of a part.
func (e *element) set(p Part) {
	switch p := p.(type) {
	case Hose:
		e.name, e.run, e.bore, e.oneWay = p.Name, p.Run, p.Run.Spec().Bore, p.HoldsBack()
	case Device:
		e.name = p.Name
		at := p.At.CubicMetresPerSecond()
		e.square[clean] = p.Clean.Metres() / (at * at)
		e.square[due] = max(p.Clean, p.Due).Metres() / (at * at)
	case Valve:
		e.name, e.bore = p.Name, p.Bore
		k := coefficient(p.K, p.Bore)
		if p.Kv > 0 {
			k = pipe.KvLoss.Eval(pipe.KvLossInput{Flow: unit.CubicMetresPerSecond(1), Kv: p.Kv}).Metres()
		}
		e.square = [2]float64{k, k}
	case Check:
		e.name, e.bore, e.oneWay, e.checked = p.Name, p.Bore, true, true
		k := coefficient(p.K, p.Bore)
		e.square = [2]float64{k, k}
	case Pump:
		e.name, e.oneWay = p.Name, p.Check
		e.pump = newPumpElement(p.Pump)
	}
}

// coefficient turns a loss coefficient on a bore into head by flow squared.
func coefficient(k float64, bore unit.Length) float64 {
	D := bore.Metres()
	area := math.Pi * D * D / 4
	return k / (2 * water.Gravity * area * area)
}

// newPumpElement extends a pump to all flows, so that head always falls with flow and every circuit has one solution:
// almost level between no flow and the crest of its curve, steep beyond either end. A solution there only says on which
// side pump and circuit miss each other, and no number is made of it.
func newPumpElement(p pump.Pump) *pumpElement {
	first, last := p.Range()
	top, end := p.Greatest().Metres(), 0.0
	if h, ok := p.Head(last); ok {
		end = h.Metres()
	}
	e := &pumpElement{
		Pump: p, first: float64(first), last: float64(last), crest: float64(p.Crest()), top: top, end: end,
	}
	e.gentle = 1e-9 * (1 + top) / e.last
	e.steep = 100 * (1 + top) / e.last
	return e
}

// loss is the head the pump takes, which is below 0 where it gives, and how that goes with flow. On the rising part of its
// curve it is the curve's own only where that is asked for.
func (p *pumpElement) loss(q float64, rise bool) (h, slope float64) {
	switch {
	case rise && q >= p.first && q < p.crest:
		head, _ := p.Head(unit.Flow(q))
		return -head.Metres(), -p.Slope(unit.Flow(q))
	case q < 0:
		return -p.top - p.gentle*p.crest + p.steep*q, p.steep
	case q < p.crest:
		return -p.top - p.gentle*(p.crest-q), p.gentle
	case q > p.last:
		return -p.end + p.steep*(q-p.last), p.steep
	}
	head, _ := p.Head(unit.Flow(q))
	return -head.Metres(), max(-p.Slope(unit.Flow(q)), 0)
}

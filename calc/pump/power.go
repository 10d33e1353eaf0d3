package pump

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// PowerInput is the input of HydraulicPower.
type PowerInput struct {
	Density unit.Density `sym:"ρ"`
	Flow    unit.Flow    `sym:"Q"`
	Head    unit.Head    `sym:"H"`
}

// HydraulicPower gives the power that a pump puts into the water.
//
//	P = ρ g Q H    ρ in kg/m³, g = 9.80665 m/s², Q in m³/s, H in m, P in W
//
// Source: definition.
var HydraulicPower = working.Formula[PowerInput, unit.Power]{
	ID: "pump.hydraulic-power", Name: "power put into the water", Symbol: "Pₕ", Equation: "Pₕ = ρ g Q H",
	Source: source.PotentialEnergy,
	Eval: func(in PowerInput) unit.Power {
		return unit.Power(in.Density.KilogramsPerCubicMetre() * water.Gravity * in.Flow.CubicMetresPerSecond() * in.Head.Metres())
	},
}

// EfficiencyInput is the input of Efficiency.
type EfficiencyInput struct {
	Hydraulic  unit.Power `sym:"Pₕ"`
	Electrical unit.Power `sym:"P"`
}

// Efficiency gives the share of the electricity that reaches the water, motor and pump together.
//
//	η = Pₕ/P
//
// Source: definition.
var Efficiency = working.Formula[EfficiencyInput, unit.Ratio]{
	ID: "pump.efficiency", Name: "efficiency from mains to water", Symbol: "η", Equation: "η = Pₕ/P", Source: source.Definition,
	Eval: func(in EfficiencyInput) unit.Ratio {
		return unit.Ratio(in.Hydraulic.Watts() / in.Electrical.Watts())
	},
}

// SegmentInput is the input of CurveHead: one stretch of the curve between two measured points.
type SegmentInput struct {
	Flow      unit.Flow `sym:"Q"`
	FlowA     unit.Flow `sym:"Q₁"`
	FlowB     unit.Flow `sym:"Q₂"`
	HeadA     unit.Head `sym:"H₁"`
	HeadB     unit.Head `sym:"H₂"`
	SlopeA    float64   `sym:"d₁"`
	SlopeB    float64   `sym:"d₂"`
	FlowScale float64   `sym:"k_Q"`
	HeadScale float64   `sym:"k_H"`
}

// CurveHead gives the head of a pump between two points of its curve.
//
//	H = k_H [H₁ (1 + 2u)(1 − u)² + H₂ u² (3 − 2u) + (Q₂ − Q₁) u (1 − u) (d₁ (1 − u) − d₂ u)],  u = (Q/k_Q − Q₁)/(Q₂ − Q₁)
//
// d₁ and d₂ are the slopes, in m per m³/s, that keep the shape of the points; k_Q and k_H scale the curve to another speed
// or to the edge of its tolerance.
// Holds between the two points.
// Source: Fritsch and Butland 1984 for the slopes; Hermite's cubic.
var CurveHead = working.Formula[SegmentInput, unit.Head]{
	ID: "pump.curve-head", Name: "head of the pump from its curve", Symbol: "H",
	Equation: "H = k_H [H₁ (1 + 2u)(1 − u)² + H₂ u² (3 − 2u) + (Q₂ − Q₁) u (1 − u) (d₁ (1 − u) − d₂ u)], u = (Q/k_Q − Q₁)/(Q₂ − Q₁)",
	Source:   source.FritschButland1984,
	Outside: func(in SegmentInput) string {
		if q := float64(in.Flow) / in.FlowScale; q < float64(in.FlowA) || q > float64(in.FlowB) {
			return "flow is not between the two points"
		}
		return ""
	},
	Eval: func(in SegmentInput) unit.Head {
		h1, h2 := in.HeadA.Metres(), in.HeadB.Metres()
		width := float64(in.FlowB - in.FlowA)
		u := (float64(in.Flow)/in.FlowScale - float64(in.FlowA)) / width
		w := 1 - u
		return unit.Head(in.HeadScale * (h1*(1+2*u)*w*w + h2*u*u*(3-2*u) + width*u*w*(in.SlopeA*w-in.SlopeB*u)))
	},
}

// Explain records how the head at a flow inside the range follows from the curve.
func (p Pump) Explain(t *working.Trail, q unit.Flow) {
	x := p.onCurve(q)
	if first, last := p.Curve.Range(); t == nil || x < first || x > last {
		return
	}
	i := 1
	for i < len(p.points)-1 && x > p.points[i].Flow {
		i++
	}
	a, b := p.points[i-1], p.points[i]
	CurveHead.Run(t, SegmentInput{
		Flow: q, FlowA: a.Flow, FlowB: b.Flow, HeadA: a.Head, HeadB: b.Head,
		SlopeA:    p.slope(a.Flow),
		SlopeB:    p.slope(b.Flow),
		FlowScale: p.flow, HeadScale: p.head,
	})
}

// slope is the slope of the measured curve at one of its points, in m per m³/s.
func (p Pump) slope(q unit.Flow) float64 {
	return p.Curve.head.PredictDerivative(q.CubicMetresPerSecond())
}

// Formulas lists the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{&CurveHead, &HydraulicPower, &Efficiency, &NPSHAvailable}
}

// LeastPower is the least electrical power taken at flows from a to b, as far as the pump is known there; constant says that it
// is the same at every flow. It is 0 where power is not known.
func (p Pump) LeastPower(a, b unit.Flow) (least unit.Power, constant bool) {
	first, last := p.Range()
	a, b = min(max(a, first), last), min(max(b, first), last)
	least, known := p.Power(a)
	if !known {
		return 0, true
	}
	if p.points[0].Power == 0 {
		return least, true
	}
	if end, _ := p.Power(b); end < least {
		least = end
	}
	for _, point := range p.points { // between two points it never leaves the range of the two
		if q := point.Flow * unit.Flow(p.flow); q > a && q < b {
			least = min(least, point.Power*unit.Power(p.power))
		}
	}
	return least, false
}

// Package circuit finds what flows where a pump meets the way its water takes.
package circuit

import (
	"math"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/root"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// A Loop is one way without branches: from the pond through a pump, hose and what is built into it, up to where
// the water leaves.
type Loop struct {
	// Lift is from the surface the pump draws from to the height the water leaves at, or to the surface it leaves under.
	// How deep the pump stands does not matter.
	Lift    unit.Head
	Runs    []*pipe.Run // in the order the water takes them
	Devices []Device
}

// A Device is anything built into the loop whose loss was measured at one flow: a filter, a lamp unit.
type Device struct {
	Name string
	At   unit.Flow // the flow it was measured at
	Loss unit.Head // the head lost there
}

// DeviceInput is the input of DeviceLoss.
type DeviceInput struct {
	Flow     unit.Flow `sym:"Q"`
	At       unit.Flow `sym:"Q₀"`
	Measured unit.Head `sym:"h₀"`
}

// DeviceLoss gives the head lost in a device at another flow than it was measured at.
//
//	h = h₀ (Q/Q₀)²
//
// Holds for turbulent flow through ports and baffles; foam alone loses head nearer in proportion to flow, so that below
// Q₀ this errs low and above it high.
// Source: turbulent loss goes with velocity squared.
var DeviceLoss = working.Formula[DeviceInput, unit.Head]{
	ID: "circuit.device-loss", Name: "head lost in a device", Symbol: "h", Equation: "h = h₀ (Q/Q₀)²",
	Source: source.SquareLaw,
	Eval:   func(in DeviceInput) unit.Head { return deviceLoss(in.Flow, in.At, in.Measured) },
}

func deviceLoss(q, at unit.Flow, measured unit.Head) unit.Head {
	ratio := float64(q / at)
	return unit.Head(ratio*ratio) * measured
}

// Edges are the loop with the least and with the most friction that its walls may have.
func (l *Loop) Edges() (least, most *Loop) {
	smooth, rough := *l, *l
	smooth.Runs, rough.Runs = make([]*pipe.Run, len(l.Runs)), make([]*pipe.Run, len(l.Runs))
	for i, r := range l.Runs {
		smooth.Runs[i], rough.Runs[i] = r.Edges()
	}
	return &smooth, &rough
}

// Demand is the head the loop takes at a flow. It rises strictly with flow.
func (l *Loop) Demand(q unit.Flow, w water.Properties) unit.Head {
	h := l.Lift
	for _, r := range l.Runs {
		h += r.Loss(q, w)
	}
	for i := range l.Devices {
		d := &l.Devices[i]
		h += deviceLoss(q, d.At, d.Loss)
	}
	return h
}

// Solve finds the flow at which the pump gives the head that the loop takes. From its crest on the curve of the pump never
// rises, and the demand of the loop rises strictly, so there is one such flow at most. Where the crest is not high enough
// the greatest flow is sought that a drooping curve keeps to on its rising part. Flow and head are 0 unless the outcome is
// Meets.
func Solve(p pump.Pump, l *Loop, w water.Properties) (unit.Flow, unit.Head, Outcome) {
	excess := func(q float64) float64 {
		h, _ := p.Head(unit.Flow(q))
		return float64(h - l.Demand(unit.Flow(q), w))
	}
	first, last := p.Range()
	switch atFirst := excess(float64(first)); {
	case math.IsNaN(atFirst):
		return 0, 0, NotCalculable
	case atFirst <= 0 && first == 0:
		if p.Droops() && l.Lift < p.Greatest() {
			return 0, 0, CannotStart
		}
		return 0, 0, CannotLift
	case atFirst < 0:
		return 0, 0, BelowCurve
	}
	a, b := float64(p.Crest()), float64(last)
	switch {
	case excess(b) > 0:
		return 0, 0, BeyondCurve
	case p.Droops() && excess(a) < 0:
		var ok bool
		if a, b, ok = p.OnRise(excess); !ok {
			return 0, 0, NotCalculable
		}
	}
	q, ok := root.Find(excess, a, b)
	if !ok {
		return 0, 0, NotCalculable
	}
	return unit.Flow(q), l.Demand(unit.Flow(q), w), Meets
}

package level

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// ChangeInput is the input of Change.
type ChangeInput struct {
	Volume unit.Volume `sym:"V"` // above 0 where water comes in
	Area   unit.Area   `sym:"A"`
}

// Change gives how far a level moves, upwards above 0.
//
//	Δh = V/A    A is the mean area of the water between the two levels
//
// Source: balance of mass.
var Change = working.Formula[ChangeInput, unit.Length]{
	ID: "level.change", Name: "change of level", Symbol: "Δh", Equation: "Δh = V/A", Source: source.Balance,
	Eval: func(in ChangeInput) unit.Length { return unit.Metres(in.Volume.CubicMetres() / in.Area.SquareMetres()) },
}

// LayerInput is the input of Layer.
type LayerInput struct {
	Area   unit.Area   `sym:"A"`
	Height unit.Length `sym:"h"`
}

// Layer gives the water in a layer: the film over a lip that a basin holds while the fall runs, or what a siphon draws off.
//
//	V = A h    A is the mean area of the layer
//
// Source: definition.
var Layer = working.Formula[LayerInput, unit.Volume]{
	ID: "level.layer", Name: "water in a layer", Symbol: "V", Equation: "V = A h", Source: source.Definition,
	Eval: func(in LayerInput) unit.Volume { return unit.CubicMetres(in.Area.SquareMetres() * in.Height.Metres()) },
}

// HoseInput is the input of HoseContent.
type HoseInput struct {
	Bore   unit.Length `sym:"D"`
	Length unit.Length `sym:"L"`
}

// HoseContent gives the water in a full hose or pipe.
//
//	V = (π/4) D² L
//
// Source: definition.
var HoseContent = working.Formula[HoseInput, unit.Volume]{
	ID: "level.hose-content", Name: "water in a hose", Symbol: "V", Equation: "V = (π/4) D² L", Source: source.Definition,
	Eval: func(in HoseInput) unit.Volume {
		D := in.Bore.Metres()
		return unit.CubicMetres(math.Pi / 4 * D * D * in.Length.Metres())
	},
}

// InTransitInput is the water on its way while a fall runs.
type InTransitInput struct {
	Stream unit.Volume `sym:"V_s"` // between the banks of streams
	Films  unit.Volume `sym:"V_f"` // over lips, on the basins behind them
	Pools  unit.Volume `sym:"V_p"` // in pools that run empty when the fall stops
	Hoses  unit.Volume `sym:"V_h"` // in hoses that drain back
}

// InTransit gives all the water that is missing in the lowest bay while a fall runs and comes back when it stops.
//
//	V = V_s + V_f + V_p + V_h
//
// Water that stands behind lips below their edges does not move and does not count.
// Source: balance of mass.
var InTransit = working.Formula[InTransitInput, unit.Volume]{
	ID: "level.in-transit", Name: "water in transit", Symbol: "V", Equation: "V = V_s + V_f + V_p + V_h", Source: source.Balance,
	Eval: func(in InTransitInput) unit.Volume { return in.Stream + in.Films + in.Pools + in.Hoses },
}

// OutflowInput is the input of Outflow.
type OutflowInput struct {
	Flow unit.Flow `sym:"Q"`
	Time unit.Time `sym:"t"`
}

// Outflow gives what a flow that does not change takes in a time.
//
//	V = Q t
//
// A leak slackens as the level falls; this is the most it takes.
// Source: definition.
var Outflow = working.Formula[OutflowInput, unit.Volume]{
	ID: "level.outflow", Name: "water lost in a time", Symbol: "V", Equation: "V = Q t", Source: source.Definition,
	Eval: func(in OutflowInput) unit.Volume {
		return unit.CubicMetres(in.Flow.CubicMetresPerSecond() * in.Time.Seconds())
	},
}

// RainInput is the input of Rain.
type RainInput struct {
	Depth     unit.Length `sym:"r"`
	Surface   unit.Area   `sym:"A"`   // of the water
	Catchment unit.Area   `sym:"A_c"` // of what drains into it
	RunOff    unit.Ratio  `sym:"c"`   // share of the rain on the catchment that arrives
}

// Rain gives the water that a rain brings to a bay.
//
//	V = r (A + c A_c)
//
// Source: balance of mass.
var Rain = working.Formula[RainInput, unit.Volume]{
	ID: "level.rain", Name: "water a rain brings", Symbol: "V", Equation: "V = r (A + c A_c)", Source: source.Balance,
	Eval: func(in RainInput) unit.Volume {
		return unit.CubicMetres(in.Depth.Metres() * (in.Surface.SquareMetres() + in.RunOff.Float()*in.Catchment.SquareMetres()))
	},
}

// EmptyingInput is the input of Emptying.
type EmptyingInput struct {
	Volume unit.Volume `sym:"V"`
	Flow   unit.Flow   `sym:"Q"`
}

// Emptying gives the time that a pump takes for a volume.
//
//	t = V/Q
//
// The pump slackens as the level falls; this is the least time.
// Source: definition.
var Emptying = working.Formula[EmptyingInput, unit.Time]{
	ID: "level.emptying", Name: "time to pump away", Symbol: "t", Equation: "t = V/Q", Source: source.Definition,
	Eval: func(in EmptyingInput) unit.Time {
		return unit.Seconds(in.Volume.CubicMetres() / in.Flow.CubicMetresPerSecond())
	},
}

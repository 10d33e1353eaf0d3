package states

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// ContentInput is the input of HoseContent.
type ContentInput struct {
	Length unit.Length `sym:"L"`
	Bore   unit.Length `sym:"D"`
}

// HoseContent gives the water in a full hose.
//
//	V = π D² L/4
//
// Source: volume of a cylinder, by definition.
var HoseContent = working.Formula[ContentInput, unit.Volume]{
	ID: "states.hose-content", Name: "water in a full hose", Symbol: "V", Equation: "V = π D² L/4", Source: source.Definition,
	Eval: func(in ContentInput) unit.Volume {
		D := in.Bore.Metres()
		return unit.CubicMetres(math.Pi * D * D / 4 * in.Length.Metres())
	},
}

// LevelInput is the input of LevelChange.
type LevelInput struct {
	Water   unit.Volume `sym:"V"`
	Surface unit.Area   `sym:"A"`
}

// LevelChange gives how far the level of a pond rises or falls by a volume of water, where its sides are taken as upright.
//
//	Δ = V/A
//
// Source: definition.
var LevelChange = working.Formula[LevelInput, unit.Length]{
	ID: "states.level-change", Name: "change of level", Symbol: "Δ", Equation: "Δ = V/A", Source: source.Definition,
	Eval: func(in LevelInput) unit.Length {
		return unit.Metres(in.Water.CubicMetres() / in.Surface.SquareMetres())
	},
}

// LostInput is the input of WaterPumped.
type LostInput struct {
	Flow unit.Flow `sym:"Q"`
	Time unit.Time `sym:"t"`
}

// WaterPumped gives the water that a flow carries away in a time.
//
//	V = Q t
//
// Source: definition.
var WaterPumped = working.Formula[LostInput, unit.Volume]{
	ID: "states.water-pumped", Name: "water carried away", Symbol: "V", Equation: "V = Q t", Source: source.Definition,
	Eval: func(in LostInput) unit.Volume {
		return unit.CubicMetres(in.Flow.CubicMetresPerSecond() * in.Time.Seconds())
	},
}

// EmptyInput is the input of TimeToEmpty.
type EmptyInput struct {
	Water unit.Volume `sym:"V"`
	Flow  unit.Flow   `sym:"Q"`
}

// TimeToEmpty gives the time a flow takes to carry a volume away.
//
//	t = V/Q
//
// Holds while the flow stays; a pump gives less as the level falls, so that this is the least time.
// Source: definition.
var TimeToEmpty = working.Formula[EmptyInput, unit.Time]{
	ID: "states.time-to-empty", Name: "time until the pond is pumped out", Symbol: "t", Equation: "t = V/Q", Source: source.Definition,
	Eval: func(in EmptyInput) unit.Time {
		return unit.Seconds(in.Water.CubicMetres() / in.Flow.CubicMetresPerSecond())
	},
}

// Formulas lists the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{&HoseContent, &LevelChange, &WaterPumped, &TimeToEmpty}
}

package fall

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// BrinkInput is the input of BrinkDepth.
type BrinkInput struct {
	PerWidth unit.FlowPerWidth `sym:"q"`
}

// BrinkDepth gives how deep the water is at the very edge it falls from.
//
//	d = 0.715 (q²/g)^(1/3)    q in m²/s, d in m
//
// This is about half of what a ruler shows three or four depths upstream. Holds for a level sill with air under the sheet.
// Source: Rouse 1936, from memory.
var BrinkDepth = working.Formula[BrinkInput, unit.Length]{
	ID: "fall.brink-depth", Name: "depth at the brink", Symbol: "d", Equation: "d = 0.715 (q²/g)^(1/3)", Source: source.Rouse1936,
	Eval: func(in BrinkInput) unit.Length {
		q := in.PerWidth.SquareMetresPerSecond()
		return unit.Metres(0.715 * math.Cbrt(q*q/water.Gravity))
	},
}

// ThrowInput is the input of Throw.
type ThrowInput struct {
	Velocity unit.Velocity `sym:"v"` // level, at the brink
	Drop     unit.Length   `sym:"z"`
}

// Throw gives how far from the edge a sheet lands.
//
//	x = v √(2 z/g)
//
// Holds for a sheet that leaves level and does not cling or break up.
// Source: free fall.
var Throw = working.Formula[ThrowInput, unit.Length]{
	ID: "fall.throw", Name: "throw of the sheet", Symbol: "x", Equation: "x = v √(2 z/g)", Source: source.FreeFall,
	Eval: func(in ThrowInput) unit.Length {
		return unit.Metres(in.Velocity.MetresPerSecond() * math.Sqrt(2*in.Drop.Metres()/water.Gravity))
	},
}

// SheetInput is the input of SheetThickness.
type SheetInput struct {
	PerWidth unit.FlowPerWidth `sym:"q"`
	Velocity unit.Velocity     `sym:"v"` // at the brink
	Drop     unit.Length       `sym:"z"`
}

// SheetThickness gives the thickness of a sheet after a fall.
//
//	s = q/√(v² + 2 g z)
//
// Holds as long as the sheet does not break up or take in air.
// Source: free fall and continuity.
var SheetThickness = working.Formula[SheetInput, unit.Length]{
	ID: "fall.sheet-thickness", Name: "thickness of the sheet", Symbol: "s", Equation: "s = q/√(v² + 2 g z)", Source: source.FreeFall,
	Eval: func(in SheetInput) unit.Length {
		v := in.Velocity.MetresPerSecond()
		return unit.Metres(in.PerWidth.SquareMetresPerSecond() / math.Sqrt(v*v+2*water.Gravity*in.Drop.Metres()))
	},
}

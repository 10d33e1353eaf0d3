package stream

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Section is the water across a channel.
type Section struct {
	Area    unit.Area   `sym:"A"`
	Wetted  unit.Length `sym:"P"` // along bed and banks
	Radius  unit.Length `sym:"R"` // hydraulic: A/P
	Surface unit.Length `sym:"T"` // width of the free surface
}

func section(area, wetted, surface float64) Section {
	return Section{unit.SquareMetres(area), unit.Metres(wetted), unit.Metres(area / wetted), unit.Metres(surface)}
}

// TrapezoidInput is water in a channel with a flat bed and even banks.
type TrapezoidInput struct {
	Bed   unit.Length `sym:"b"` // width of the bed
	Side  unit.Ratio  `sym:"z"` // run of a bank by its rise; 0 is upright
	Depth unit.Length `sym:"y"`
}

// Trapezoid gives the section of water in a channel with a flat bed and even banks.
//
//	A = (b + z y) y,  P = b + 2 y √(1 + z²),  R = A/P,  T = b + 2 z y
//
// Source: definition.
var Trapezoid = working.Formula[TrapezoidInput, Section]{
	ID: "stream.trapezoid", Name: "section of a channel", Source: source.Definition,
	Equation: "A = (b + z y) y, P = b + 2 y √(1 + z²), R = A/P, T = b + 2 z y",
	Eval: func(in TrapezoidInput) Section {
		b, z, y := in.Bed.Metres(), in.Side.Float(), in.Depth.Metres()
		return section((b+z*y)*y, b+2*y*math.Sqrt(1+z*z), b+2*z*y)
	},
}

// RoundInput is water in a lying round pipe.
type RoundInput struct {
	Bore  unit.Length `sym:"D"`
	Depth unit.Length `sym:"y"`
}

// RoundSection gives the section of water in a lying round pipe that is not full.
//
//	φ = 2 arccos(1 − 2 y/D),  A = D² (φ − sin φ)/8,  P = D φ/2,  R = A/P,  T = D sin(φ/2)
//
// Holds for 0 < y < D.
// Source: geometry of the circle.
var RoundSection = working.Formula[RoundInput, Section]{
	ID: "stream.round-section", Name: "section of a part-full pipe", Source: source.Definition,
	Equation: "φ = 2 arccos(1 − 2 y/D), A = D² (φ − sin φ)/8, P = D φ/2, R = A/P, T = D sin(φ/2)",
	Eval: func(in RoundInput) Section {
		D := in.Bore.Metres()
		phi := 2 * math.Acos(1-2*float64(in.Depth/in.Bore))
		return section(D*D*(phi-math.Sin(phi))/8, D*phi/2, D*math.Sin(phi/2))
	},
}

package circulation

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry {
	return []working.Entry{&Leg, &ShareOfLength, &MeanWidth}
}

// LegInput is one straight leg of a way, and how long the way was before it.
type LegInput struct {
	Before unit.Length `sym:"d0"`
	X1     unit.Length `sym:"x1"`
	Y1     unit.Length `sym:"y1"`
	X2     unit.Length `sym:"x2"`
	Y2     unit.Length `sym:"y2"`
}

// Leg adds one straight leg to a way through the water (m):
//
//	d = d0 + √((x2 - x1)² + (y2 - y1)²)
//
// Source: by definition (Pythagoras).
var Leg = working.Formula[LegInput, unit.Length]{
	ID: "circulation.leg", Name: "one leg added to the way through the water", Symbol: "d",
	Equation: "d = d0 + √((x2 - x1)² + (y2 - y1)²)", Source: source.Definition,
	Eval: func(in LegInput) unit.Length {
		return in.Before + unit.Metres(math.Hypot((in.X2-in.X1).Metres(), (in.Y2-in.Y1).Metres()))
	},
}

// ShareInput is a way through the water and the pond's length.
type ShareInput struct {
	Way    unit.Length `sym:"d"`
	Length unit.Length `sym:"L"` // the longest of all shortest ways between two places of the bank
}

// ShareOfLength gives how much of the pond's length the water goes:
//
//	s = d / L
//
// Source: by definition.
var ShareOfLength = working.Formula[ShareInput, unit.Ratio]{
	ID: "circulation.share-of-length", Name: "share of the pond's length that the water goes", Symbol: "s",
	Equation: "s = d / L", Source: source.Definition,
	Eval: func(in ShareInput) unit.Ratio { return unit.Ratio(in.Way / in.Length) },
}

// WidthInput is a pond by its area and its length.
type WidthInput struct {
	Area   unit.Area   `sym:"A"`
	Length unit.Length `sym:"L"`
}

// MeanWidth gives the pond's mean width (m):
//
//	w = A / L
//
// Source: by definition.
var MeanWidth = working.Formula[WidthInput, unit.Length]{
	ID: "circulation.mean-width", Name: "mean width of the pond", Symbol: "w",
	Equation: "w = A / L", Source: source.Definition,
	Eval: func(in WidthInput) unit.Length { return unit.Metres(in.Area.SquareMetres() / in.Length.Metres()) },
}

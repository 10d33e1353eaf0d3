package outline

import (
	"math"

	"gonum.org/v1/gonum/mathext"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry {
	return []working.Entry{
		&RectangleSurface, &EllipseSurface, &Traverse, &InsetArea, &Prismoid, &ContourLayer, &EndArea, &LayerSum,
		&SoundedPrism, &LayerPart, &LevelShare, &MeanDepth, &BoxVolume,
	}
}

// SurfaceOutput is area and perimeter of a plan, or of the sides of one so far.
type SurfaceOutput struct {
	Area      unit.Area   `sym:"A"`
	Perimeter unit.Length `sym:"P"`
}

// AxesInput is a rectangle by its sides or an ellipse by its full axes.
type AxesInput struct {
	Length unit.Length `sym:"l"`
	Width  unit.Length `sym:"w"`
}

// RectangleSurface gives area (m²) and perimeter (m) of a rectangle:
//
//	A = l w, P = 2 (l + w)
//
// Source: by definition.
var RectangleSurface = working.Formula[AxesInput, SurfaceOutput]{
	ID: "outline.rectangle-surface", Name: "area and perimeter of a rectangle",
	Equation: "A = l w; P = 2 (l + w)", Source: source.Definition,
	Eval: func(in AxesInput) SurfaceOutput {
		l, w := in.Length.Metres(), in.Width.Metres()
		return SurfaceOutput{Area: unit.SquareMetres(l * w), Perimeter: unit.Metres(2 * (l + w))}
	},
}

// EllipseSurface gives area (m²) and perimeter (m) of an ellipse with the full axes l and w:
//
//	A = π l w / 4, P = 2 a E(1 - b²/a²) with a the longer, b the shorter axis
//
// E(m) is the complete elliptic integral of the second kind; for a circle P = π l.
//
// Source: DLMF §19.30(i) for the perimeter.
var EllipseSurface = working.Formula[AxesInput, SurfaceOutput]{
	ID: "outline.ellipse-surface", Name: "area and perimeter of an ellipse",
	Equation: "A = π l w / 4; P = 2 a E(1 - b²/a²), a the longer of l and w, b the shorter", Source: source.EllipticIntegral,
	Eval: func(in AxesInput) SurfaceOutput {
		a, b := max(in.Length, in.Width).Metres(), min(in.Length, in.Width).Metres()
		return SurfaceOutput{
			Area:      unit.SquareMetres(math.Pi * a * b / 4),
			Perimeter: unit.Metres(2 * a * mathext.CompleteE(1-b*b/(a*a))),
		}
	},
}

// TraverseInput is one side of an outline and what the sides before it came to.
type TraverseInput struct {
	Area      unit.Area   `sym:"A0"`
	Perimeter unit.Length `sym:"P0"`
	X1        unit.Length `sym:"x1"`
	Y1        unit.Length `sym:"y1"`
	X2        unit.Length `sym:"x2"`
	Y2        unit.Length `sym:"y2"`
}

// Traverse adds one side to the area by coordinates (m², negative for an outline given clockwise) and to the
// perimeter (m):
//
//	A = A0 + (x1 y2 - x2 y1) / 2, P = P0 + √((x2 - x1)² + (y2 - y1)²)
//
// Coordinates are from the first point of the outline: on a map grid the products would lose digits.
//
// Source: shoelace formula.
var Traverse = working.Formula[TraverseInput, SurfaceOutput]{
	ID: "outline.traverse", Name: "one side added to area and perimeter",
	Equation: "A = A0 + (x1 y2 - x2 y1) / 2; P = P0 + √((x2 - x1)² + (y2 - y1)²)", Source: source.Shoelace,
	Eval: func(in TraverseInput) SurfaceOutput {
		x1, y1, x2, y2 := in.X1.Metres(), in.Y1.Metres(), in.X2.Metres(), in.Y2.Metres()
		return SurfaceOutput{
			Area:      in.Area + unit.SquareMetres((x1*y2-x2*y1)/2),
			Perimeter: in.Perimeter + unit.Metres(math.Hypot(x2-x1, y2-y1)),
		}
	},
}

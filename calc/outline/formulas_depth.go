package outline

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// InsetInput is an outline and how far to move it inwards.
type InsetInput struct {
	Area      unit.Area   `sym:"A0"`
	Perimeter unit.Length `sym:"P0"`
	Corners   float64     `sym:"T"` // sum of tan(turn/2), turns into the water negative; π for a smooth outline
	Inset     unit.Length `sym:"x"`
}

// InsetArea gives the area (m²) an outline keeps when every side moves inwards by x, mitred at the corners:
//
//	A = A0 - P0 x + T x²
//
// Valid until a side vanishes or the outline splits; the package then goes on from the outline that is left.
//
// Source: Steiner.
var InsetArea = working.Formula[InsetInput, unit.Area]{
	ID: "outline.inset-area", Name: "area left inside a shelf or batter", Symbol: "A",
	Equation: "A = A0 - P0 x + T x²", Source: source.Steiner,
	Eval: func(in InsetInput) unit.Area {
		x := in.Inset.Metres()
		return unit.SquareMetres(max(0, in.Area.SquareMetres()-in.Perimeter.Metres()*x+in.Corners*x*x))
	},
}

// PrismoidInput is a layer of water by its three sections.
type PrismoidInput struct {
	Top    unit.Area   `sym:"A1"`
	Middle unit.Area   `sym:"Am"`
	Bottom unit.Area   `sym:"A2"`
	Height unit.Length `sym:"h"`
}

// Prismoid gives the volume (m³) of a layer from its sections at top, mid height and bottom:
//
//	V = h (A1 + 4 Am + A2) / 6
//
// Exact where the section is a cubic or less in depth, as between two events here. Am is the section at mid height,
// never the mean of A1 and A2.
//
// Source: prismoidal rule.
var Prismoid = working.Formula[PrismoidInput, unit.Volume]{
	ID: "outline.prismoid", Name: "volume of one layer", Symbol: "V",
	Equation: "V = h (A1 + 4 Am + A2) / 6", Source: source.Prismoidal,
	Eval: func(in PrismoidInput) unit.Volume {
		sections := in.Top.SquareMetres() + 4*in.Middle.SquareMetres() + in.Bottom.SquareMetres()
		return unit.CubicMetres(in.Height.Metres() * sections / 6)
	},
}

// ContourInput is a layer of water between two contours.
type ContourInput struct {
	Top    unit.Area   `sym:"A1"`
	Bottom unit.Area   `sym:"A2"`
	Height unit.Length `sym:"h"`
}

// ContourLayer gives the volume (m³) between two level contours as that of the frustum of a cone:
//
//	V = h (A1 + √(A1 A2) + A2) / 3
//
// It is the volume of sides that run straight from one contour to the other and keep their shape. Whatever the sides
// do between the contours, the volume lies between h A2 and h A1.
//
// Source: derived; the prismoidal rule with the mid section (√A1 + √A2)² / 4.
var ContourLayer = working.Formula[ContourInput, unit.Volume]{
	ID: "outline.contour-layer", Name: "volume between two contours", Symbol: "V",
	Equation: "V = h (A1 + √(A1 A2) + A2) / 3", Source: source.Prismoidal,
	Eval: func(in ContourInput) unit.Volume {
		a1, a2 := in.Top.SquareMetres(), in.Bottom.SquareMetres()
		return unit.CubicMetres(in.Height.Metres() * (a1 + math.Sqrt(a1*a2) + a2) / 3)
	},
}

// EndArea gives the volume (m³) between two contours or cross-sections by the mean of their areas:
//
//	V = h (A1 + A2) / 2
//
// Exact where area changes evenly with depth; too much for sides that lean, by a half for a cone. It stands beside
// ContourLayer for whoever checks by hand.
//
// Source: end-area rule.
var EndArea = working.Formula[ContourInput, unit.Volume]{
	ID: "outline.end-area", Name: "volume between two contours by end areas", Symbol: "V",
	Equation: "V = h (A1 + A2) / 2", Source: source.OffsetRules,
	Eval: func(in ContourInput) unit.Volume {
		return unit.CubicMetres(in.Height.Metres() * (in.Top + in.Bottom).SquareMetres() / 2)
	},
}

// LayerSumInput is a layer and what lies above it.
type LayerSumInput struct {
	Above unit.Volume `sym:"V0"`
	Layer unit.Volume `sym:"V1"`
}

// LayerSum gives the volume (m³) down to the foot of a layer:
//
//	V = V0 + V1
//
// Source: by definition.
var LayerSum = working.Formula[LayerSumInput, unit.Volume]{
	ID: "outline.layer-sum", Name: "volume down to the foot of a layer", Symbol: "V",
	Equation: "V = V0 + V1", Source: source.Definition,
	Eval: func(in LayerSumInput) unit.Volume { return in.Above + in.Layer },
}

// MeanDepthInput is a volume under a surface.
type MeanDepthInput struct {
	Volume unit.Volume `sym:"V"`
	Area   unit.Area   `sym:"A"`
}

// MeanDepth gives the mean depth (m) of water:
//
//	z = V / A
//
// Source: by definition.
var MeanDepth = working.Formula[MeanDepthInput, unit.Length]{
	ID: "outline.mean-depth", Name: "mean depth", Symbol: "z",
	Equation: "z = V / A", Source: source.Definition,
	Eval: func(in MeanDepthInput) unit.Length {
		return unit.Metres(in.Volume.CubicMetres() / in.Area.SquareMetres())
	},
}

// BoxInput is the smallest box around the water.
type BoxInput struct {
	Length unit.Length `sym:"l"`
	Width  unit.Length `sym:"w"`
	Depth  unit.Length `sym:"z"`
}

// BoxVolume gives what length by width by greatest depth comes to (m³), the sum most often done on site:
//
//	V = l w z
//
// Source: common practice; it is no estimate of a pond with shelves, sloping sides or a curved edge.
var BoxVolume = working.Formula[BoxInput, unit.Volume]{
	ID: "outline.box-volume", Name: "volume of the box around the pond", Symbol: "V",
	Equation: "V = l w z", Source: source.Practice,
	Eval: func(in BoxInput) unit.Volume {
		return unit.CubicMetres(in.Length.Metres() * in.Width.Metres() * in.Depth.Metres())
	},
}

// PrismInput is the water over one triangle of the floor, by its corners in plan and their depths, and what came before.
type PrismInput struct {
	Above unit.Volume `sym:"V0"`
	X1    unit.Length `sym:"x1"`
	Y1    unit.Length `sym:"y1"`
	Z1    unit.Length `sym:"z1"`
	X2    unit.Length `sym:"x2"`
	Y2    unit.Length `sym:"y2"`
	Z2    unit.Length `sym:"z2"`
	X3    unit.Length `sym:"x3"`
	Y3    unit.Length `sym:"y3"`
	Z3    unit.Length `sym:"z3"`
}

// SoundedPrism adds the water over one triangle to the volume (m³):
//
//	V = V0 + |(x2 - x1)(y3 - y1) - (x3 - x1)(y2 - y1)| / 2 × (z1 + z2 + z3) / 3
//
// Exact for a floor that is plane between three soundings.
//
// Source: derived; volume of a truncated triangular prism.
var SoundedPrism = working.Formula[PrismInput, unit.Volume]{
	ID: "outline.sounded-prism", Name: "water over one triangle added", Symbol: "V",
	Equation: "V = V0 + |(x2 - x1)(y3 - y1) - (x3 - x1)(y2 - y1)| / 2 × (z1 + z2 + z3) / 3", Source: source.Definition,
	Eval: func(in PrismInput) unit.Volume {
		twice := (in.X2-in.X1).Metres()*(in.Y3-in.Y1).Metres() - (in.X3-in.X1).Metres()*(in.Y2-in.Y1).Metres()
		return in.Above + unit.CubicMetres(math.Abs(twice)/2*(in.Z1+in.Z2+in.Z3).Metres()/3)
	},
}

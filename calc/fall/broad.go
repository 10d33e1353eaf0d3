package fall

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// SquareEdge is the coefficient of discharge of a broad sill with a square upstream edge.
//
// Source: ISO 3846, from memory.
const SquareEdge = unit.Ratio(0.864)

// criticalFlow is (2/3)^1.5 √g, flow by width and head^1.5 over a broad sill without losses, in √m/s.
var criticalFlow = 2.0 / 3 * math.Sqrt(2.0/3*water.Gravity)

// BroadSillInput is the input of BroadSill.
type BroadSillInput struct {
	Coefficient unit.Ratio  `sym:"C_d"`
	Head        unit.Length `sym:"H"`
	Width       unit.Length `sym:"b"`
}

// BroadSill gives the flow over a broad level sill.
//
//	Q = C_d (2/3)^1.5 √g b H^1.5    C_d 0.864 for a square edge; RoundedCoefficient for a rounded one
//
// H is read three or four depths upstream; the velocity of approach is left out.
// Holds for H ≥ 60 mm; garden falls run at 8 to 25 mm, where it is right to about a fifth.
// Source: critical flow over a broad crest, from the energy of open-channel flow.
var BroadSill = working.Formula[BroadSillInput, unit.Flow]{
	ID: "fall.broad-sill", Name: "flow over a broad sill", Symbol: "Q", Equation: "Q = C_d (2/3)^1.5 √g b H^1.5",
	Source: source.CriticalFlow, Outside: func(in BroadSillInput) string { return lowOnBroadSill(in.Head) },
	Eval: func(in BroadSillInput) unit.Flow {
		H := in.Head.Metres()
		return unit.CubicMetresPerSecond(in.Coefficient.Float() * criticalFlow * in.Width.Metres() * H * math.Sqrt(H))
	},
}

func lowOnBroadSill(head unit.Length) string {
	if head < unit.Millimetres(60) {
		return "less than 60 mm over the sill: right to about a fifth"
	}
	return ""
}

// BroadInput is water over a broad sill.
type BroadInput struct {
	Breadth unit.Length `sym:"L"` // of the sill along the flow
	Head    unit.Length `sym:"H"`
}

// RoundedCoefficient gives the coefficient of discharge of a broad sill with a rounded upstream edge: the slow layer on the
// stone takes some of the head.
//
//	C_d = (1 − 0.005 L/H)^1.5
//
// It is 0 where the layer is as thick as the water. Holds for H ≥ 60 mm.
// Source: displacement thickness as in ISO 4374, from memory.
var RoundedCoefficient = working.Formula[BroadInput, unit.Ratio]{
	ID: "fall.rounded-coefficient", Name: "coefficient of discharge of a rounded broad sill", Symbol: "C_d",
	Equation: "C_d = (1 − 0.005 L/H)^1.5", Source: source.ISO4374,
	Outside: func(in BroadInput) string { return lowOnBroadSill(in.Head) },
	Eval: func(in BroadInput) unit.Ratio {
		return unit.Ratio(math.Pow(math.Max(0, 1-0.005*float64(in.Breadth/in.Head)), 1.5))
	},
}

// The table of BroadCoefficient: C in √ft/s by head (rows) and breadth (columns) in feet.
var (
	braterKingHeads    = [...]float64{0.2, 0.4, 0.6}
	braterKingBreadths = [...]float64{0.5, 0.75, 1, 1.5, 2, 2.5, 3}
	braterKing         = [...][7]float64{
		{2.80, 2.75, 2.69, 2.62, 2.54, 2.48, 2.44},
		{2.92, 2.80, 2.72, 2.64, 2.61, 2.60, 2.58},
		{3.08, 2.89, 2.75, 2.64, 2.61, 2.60, 2.68},
	}
)

// BroadCoefficient gives the coefficient of discharge of a broad sill as measured.
//
//	C_d = C/((2/3)^1.5 √g)    C from 2.44 to 3.08 √ft/s by head and breadth, straight lines between
//
// Holds for heads of 61 to 183 mm and breadths of 0.15 to 0.91 m; outside, the nearest row or column is taken.
// Source: Brater and King 1976, as printed in EPA/600/R-17/111, table 6-3.
var BroadCoefficient = working.Formula[BroadInput, unit.Ratio]{
	ID: "fall.broad-coefficient", Name: "coefficient of discharge of a broad sill as measured", Symbol: "C_d",
	Equation: "C_d = C(H, L)/((2/3)^1.5 √g)", Source: source.BraterKing1976,
	Outside: func(in BroadInput) string {
		h, l := in.Head.Feet(), in.Breadth.Feet()
		if h < 0.2-1e-9 || h > 0.6+1e-9 || l < 0.5-1e-9 || l > 3+1e-9 {
			return "outside heads of 61 to 183 mm or breadths of 0.15 to 0.91 m"
		}
		return ""
	},
	Eval: func(in BroadInput) unit.Ratio {
		i, u := place(braterKingHeads[:], in.Head.Feet())
		j, v := place(braterKingBreadths[:], in.Breadth.Feet())
		at := func(i, j int) float64 { return braterKing[i][j] }
		c := (1-u)*((1-v)*at(i, j)+v*at(i, j+1)) + u*((1-v)*at(i+1, j)+v*at(i+1, j+1))
		return unit.Ratio(c * math.Sqrt(unit.Feet(1).Metres()) / criticalFlow)
	},
}

// place finds the interval of x in rising marks and how far into it x lies, 0 to 1.
func place(marks []float64, x float64) (int, float64) {
	i := 0
	for i < len(marks)-2 && x > marks[i+1] {
		i++
	}
	return i, min(max((x-marks[i])/(marks[i+1]-marks[i]), 0), 1)
}

package fall

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// ThinPlateCoefficientInput is the input of ThinPlateCoefficient.
type ThinPlateCoefficientInput struct {
	HeadByCrest    unit.Ratio `sym:"h/p"`
	WidthByChannel unit.Ratio `sym:"b/B"`
}

// ThinPlateCoefficient gives the coefficient of discharge of a rectangular thin-plate weir.
//
//	Cₑ = α + α' h/p    α from 0.589 at b/B ≤ 0.2 to 0.602 at 1, α' from −0.0018 to 0.075
//
// Straight lines between the eight rows of the table.
// Holds to h/p of 2.5.
// Source: Kindsvater and Carter 1957 as in ISO 1438, from memory; the EPA storm-water model prints the same within 0.3 %.
var ThinPlateCoefficient = working.Formula[ThinPlateCoefficientInput, float64]{
	ID: "fall.thin-plate-coefficient", Name: "coefficient of discharge of a thin plate", Symbol: "Cₑ",
	Equation: "Cₑ = α(b/B) + α'(b/B) h/p", Source: source.ISO1438,
	Outside: func(in ThinPlateCoefficientInput) string {
		if in.HeadByCrest > 2.5 {
			return "water stands more than 2.5 times as high over the sill as the sill over the bed"
		}
		return ""
	},
	Eval: func(in ThinPlateCoefficientInput) float64 {
		row := kindsvaterCarter(in.WidthByChannel.Float())
		return row.alpha + row.slope*in.HeadByCrest.Float()
	},
}

// contraction is one row of the table: coefficients and the correction to the width in metres, by b/B.
type contraction struct{ ratio, alpha, slope, width float64 }

func kindsvaterCarter(ratio float64) contraction {
	rows := [...]contraction{
		{0.2, 0.589, -0.0018, 0.0024}, {0.4, 0.591, 0.0058, 0.0027}, {0.5, 0.592, 0.0119, 0.00315}, {0.6, 0.593, 0.018, 0.0036},
		{0.7, 0.594, 0.030, 0.0039}, {0.8, 0.596, 0.045, 0.0042}, {0.9, 0.598, 0.064, 0.00165}, {1.0, 0.602, 0.075, -0.0009},
	}
	if ratio <= rows[0].ratio {
		return rows[0]
	}
	for i := 1; i < len(rows); i++ {
		a, b := rows[i-1], rows[i]
		if ratio <= b.ratio {
			w := (ratio - a.ratio) / (b.ratio - a.ratio)
			return contraction{ratio, a.alpha + w*(b.alpha-a.alpha), a.slope + w*(b.slope-a.slope), a.width + w*(b.width-a.width)}
		}
	}
	return rows[len(rows)-1]
}

// ThinPlateInput is water over a thin upright plate with a sharp edge.
type ThinPlateInput struct {
	Head    unit.Length `sym:"h"` // of the water over the edge, three or four heads upstream
	Width   unit.Length `sym:"b"` // of the opening
	Channel unit.Length `sym:"B"` // of the water that comes to it
	Crest   unit.Length `sym:"p"` // of the edge above the bed there
}

// ThinPlate gives the flow over a rectangular thin plate, with or without side contraction.
//
//	Q = Cₑ (2/3) √(2 g) (b + k_b) (h + 0.001 m)^1.5    Cₑ by ThinPlateCoefficient, k_b of −0.9 mm (b = B) to 4.2 mm
//
// Holds for h ≥ 30 mm, b ≥ 150 mm, p ≥ 100 mm, h/p ≤ 2.5, a free sheet with air behind it. Below some 20 mm water clings to
// the edge.
// Source: Kindsvater and Carter 1957 as in ISO 1438, from memory.
var ThinPlate = working.Formula[ThinPlateInput, unit.Flow]{
	ID: "fall.thin-plate", Name: "flow over a thin plate", Symbol: "Q",
	Equation: "Q = (α + α' h/p) (2/3) √(2 g) (b + k_b) (h + 0.001 m)^1.5; α, α', k_b by b/B",
	Source:   source.ISO1438, Outside: outsideThinPlate, Eval: thinPlate,
}

func thinPlate(in ThinPlateInput) unit.Flow {
	row := kindsvaterCarter(float64(in.Width / in.Channel))
	Ce := row.alpha + row.slope*float64(in.Head/in.Crest)
	return weir(Ce, in.Width.Metres()+row.width, in.Head.Metres()+0.001)
}

func outsideThinPlate(in ThinPlateInput) string {
	switch {
	case in.Head < unit.Millimetres(30):
		return "less than 30 mm over the edge"
	case in.Width < unit.Millimetres(150):
		return "opening narrower than 150 mm"
	case in.Crest < unit.Millimetres(100):
		return "edge less than 100 mm over the bed"
	case in.Head > 2.5*in.Crest:
		return "water stands more than 2.5 times as high over the edge as the edge over the bed"
	default:
		return ""
	}
}

// RehbockInput is water over a thin plate as wide as its channel.
type RehbockInput struct {
	Head  unit.Length `sym:"h"`
	Width unit.Length `sym:"b"`
	Crest unit.Length `sym:"p"`
}

// Rehbock gives the flow over a thin plate as wide as its channel by the older formula, to set beside ThinPlate.
//
//	Q = (0.602 + 0.083 h/p) (2/3) √(2 g) b (h + 0.0012 m)^1.5
//
// Holds for 30 mm ≤ h ≤ 750 mm, b ≥ 300 mm, p ≥ 100 mm, h/p ≤ 1.
// Source: Rehbock as in ISO 1438, from memory.
var Rehbock = working.Formula[RehbockInput, unit.Flow]{
	ID: "fall.rehbock", Name: "flow over a thin plate of full width", Symbol: "Q",
	Equation: "Q = (0.602 + 0.083 h/p) (2/3) √(2 g) b (h + 0.0012 m)^1.5", Source: source.Rehbock1929,
	Outside: func(in RehbockInput) string {
		switch {
		case in.Head < unit.Millimetres(30) || in.Head > unit.Millimetres(750):
			return "outside 30 to 750 mm over the edge"
		case in.Width < unit.Millimetres(300):
			return "edge shorter than 300 mm"
		case in.Crest < unit.Millimetres(100) || in.Head > in.Crest:
			return "edge too low over the bed"
		default:
			return ""
		}
	},
	Eval: func(in RehbockInput) unit.Flow {
		return weir(0.602+0.083*float64(in.Head/in.Crest), in.Width.Metres(), in.Head.Metres()+0.0012)
	},
}

// weir is the flow over an edge by its coefficient, effective width and effective head.
func weir(coefficient, width, head float64) unit.Flow {
	return unit.CubicMetresPerSecond(coefficient * 2 / 3 * math.Sqrt(2*water.Gravity) * width * head * math.Sqrt(head))
}

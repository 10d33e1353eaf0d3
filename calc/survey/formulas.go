package survey

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry {
	return []working.Entry{&TwoTapeFix, &TrapezoidStrip, &SimpsonPair, &CurvePoint}
}

// FixInput is a triangle of two tapes over a base line.
type FixInput struct {
	FromA unit.Length `sym:"a"` // tape from the start of the base
	FromB unit.Length `sym:"b"` // tape from its end
	Base  unit.Length `sym:"c"`
}

// FixOutput is where the two tapes meet.
type FixOutput struct {
	Along unit.Length `sym:"x"` // from the start of the base towards its end
	Off   unit.Length `sym:"y"` // square to it
}

// TwoTapeFix gives the place (m) where tapes from both ends of a base line meet, as distance along the base and square
// to it:
//
//	x = (a² - b² + c²) / (2 c), y = √(a² - x²)
//
// Valid where the triangle closes: |a - b| <= c <= a + b.
//
// Source: law of cosines.
var TwoTapeFix = working.Formula[FixInput, FixOutput]{
	ID: "survey.two-tape-fix", Name: "point from two tapes",
	Equation: "x = (a² - b² + c²) / (2 c); y = √(a² - x²)", Source: source.LawOfCosines,
	Outside: func(in FixInput) string {
		if in.FromA+in.FromB < in.Base || in.FromA-in.FromB > in.Base || in.FromB-in.FromA > in.Base {
			return "the triangle does not close"
		}
		return ""
	},
	Eval: func(in FixInput) FixOutput {
		a, b, c := in.FromA.Metres(), in.FromB.Metres(), in.Base.Metres()
		x := ((a-b)*(a+b) + c*c) / (2 * c)
		return FixOutput{Along: unit.Metres(x), Off: unit.Metres(math.Sqrt(max(0, (a-x)*(a+x))))}
	},
}

// StripInput is the water between two offsets.
type StripInput struct {
	First   unit.Length `sym:"y1"`
	Second  unit.Length `sym:"y2"`
	Spacing unit.Length `sym:"h"`
}

// TrapezoidStrip gives the area (m²) between two offsets with a straight bank between them:
//
//	A = h (y1 + y2) / 2
//
// Source: derived.
var TrapezoidStrip = working.Formula[StripInput, unit.Area]{
	ID: "survey.trapezoid-strip", Name: "area between two offsets", Symbol: "A",
	Equation: "A = h (y1 + y2) / 2", Source: source.OffsetRules,
	Eval: func(in StripInput) unit.Area {
		return unit.SquareMetres(in.Spacing.Metres() * (in.First + in.Second).Metres() / 2)
	},
}

// PairInput is the water between three offsets at even spacing.
type PairInput struct {
	First   unit.Length `sym:"y1"`
	Second  unit.Length `sym:"y2"`
	Third   unit.Length `sym:"y3"`
	Spacing unit.Length `sym:"h"`
}

// SimpsonPair gives the area (m²) under a bank that bends through three offsets at even spacing:
//
//	A = h (y1 + 4 y2 + y3) / 3
//
// Exact for a bank that is a cubic or less. Offsets must be odd in number to be taken three by three.
//
// Source: Simpson's rule.
var SimpsonPair = working.Formula[PairInput, unit.Area]{
	ID: "survey.simpson-pair", Name: "area under a bank through three offsets", Symbol: "A",
	Equation: "A = h (y1 + 4 y2 + y3) / 3", Source: source.OffsetRules,
	Eval: func(in PairInput) unit.Area {
		return unit.SquareMetres(in.Spacing.Metres() * (in.First + 4*in.Second + in.Third).Metres() / 3)
	},
}

// CurveInput is four points in order along a bank and how far to go from the second to the third.
type CurveInput struct {
	X0    unit.Length `sym:"x0"`
	Y0    unit.Length `sym:"y0"`
	X1    unit.Length `sym:"x1"`
	Y1    unit.Length `sym:"y1"`
	X2    unit.Length `sym:"x2"`
	Y2    unit.Length `sym:"y2"`
	X3    unit.Length `sym:"x3"`
	Y3    unit.Length `sym:"y3"`
	Share float64     `sym:"u"` // 0 at the second point, 1 at the third
}

// CurveOutput is a place on the bank.
type CurveOutput struct {
	X unit.Length `sym:"x"`
	Y unit.Length `sym:"y"`
}

// CurvePoint gives a place (m) on the smooth curve through four points, between the second and the third. The curve is
// the centripetal Catmull-Rom spline: knots t stand apart by the square root of the distance between points, and
// neighbouring straight lines are blended three times, as
//
//	A1 = p0 + (p1 - p0) (t - t0)/(t1 - t0), ..., B1 = A1 + (A2 - A1) (t - t0)/(t2 - t0), ...,
//	p = B1 + (B2 - B1) (t - t1)/(t2 - t1)
//
// With these knots a span neither loops nor comes to a point. No two neighbouring points may be the same.
//
// Source: Catmull and Rom 1974 with the knots of Yuksel, Schaefer and Keyser.
var CurvePoint = working.Formula[CurveInput, CurveOutput]{
	ID: "survey.curve-point", Name: "point on a smooth bank",
	Equation: "centripetal Catmull-Rom spline through p0 to p3, at share u from p1 to p2", Source: source.CentripetalSpline,
	Eval: func(in CurveInput) CurveOutput {
		x := [4]float64{in.X0.Metres(), in.X1.Metres(), in.X2.Metres(), in.X3.Metres()}
		y := [4]float64{in.Y0.Metres(), in.Y1.Metres(), in.Y2.Metres(), in.Y3.Metres()}
		var knots [4]float64
		for i := range 3 {
			knots[i+1] = knots[i] + math.Sqrt(math.Hypot(x[i+1]-x[i], y[i+1]-y[i]))
		}
		t := knots[1] + in.Share*(knots[2]-knots[1])
		return CurveOutput{X: unit.Metres(blend(x, knots, t)), Y: unit.Metres(blend(y, knots, t))}
	},
}

// blend is the pyramid of Barry and Goldman on one coordinate.
func blend(p, knots [4]float64, t float64) float64 {
	between := func(a, b, ta, tb float64) float64 { return a + (b-a)*(t-ta)/(tb-ta) }
	a1 := between(p[0], p[1], knots[0], knots[1])
	a2 := between(p[1], p[2], knots[1], knots[2])
	a3 := between(p[2], p[3], knots[2], knots[3])
	b1 := between(a1, a2, knots[0], knots[2])
	b2 := between(a2, a3, knots[1], knots[3])
	return between(b1, b2, knots[1], knots[2])
}

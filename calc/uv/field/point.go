package field

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Point is a place in the water of a lamp chamber of any length.
type Point struct {
	Output       unit.Power                 `sym:"P"` // at 254 nm, what enters the water
	ArcLength    unit.Length                `sym:"L"`
	SleeveRadius unit.Length                `sym:"rs"`
	Absorption   unit.AbsorptionCoefficient `sym:"a"`
	Radius       unit.Length                `sym:"r"` // from the axis, at least the sleeve radius
	Height       unit.Length                `sym:"z"` // along the axis from mid-arc
}

// RadialAt gives the fluence rate at a point when all light leaves at right angles to the lamp: none beyond its ends.
//
//	E = P/(2 pi r L) · exp(-a (r - rs)),  |z| <= L/2        P in W, lengths in m, a in 1/m, E in W/m²
//
// Valid for r >= rs. Source: radial model as quoted in IOA/IUVA 2007.
var RadialAt = working.Formula[Point, unit.FluenceRate]{
	ID: "field.radial-at", Name: "fluence rate at a point, radial model",
	Equation: "E = P/(2 pi r L) · exp(-a (r - rs)) beside the arc, else 0", Symbol: "E",
	Source: source.RadialModel, Eval: radialAt,
}

func radialAt(p Point) unit.FluenceRate {
	if math.Abs(p.Height.Metres()) > p.ArcLength.Metres()/2 {
		return 0
	}
	return unit.FluenceRate(p.annulus().radial(p.Radius.Metres()))
}

// LineSourceAt gives the fluence rate at a point by line source integration.
//
//	E = P/(4 pi L r) [F((L/2 + z)/r) + F((L/2 - z)/r)],  F(X) = int_0^atan(X) exp(-b sec u) du,  b = a (r - rs)
//
// P in W, lengths in m, a in 1/m, E in W/m². Valid for r >= rs; the quadrature is good to 1e-9 beside the arc and beyond
// its ends. Source: Jacob & Dranoff 1970; Blatchley 1997 (from memory), re-derived.
var LineSourceAt = working.Formula[Point, unit.FluenceRate]{
	ID: "field.line-source-at", Name: "fluence rate at a point, line source integration",
	Equation: "E = P/(4 pi L r) [F((L/2 + z)/r) + F((L/2 - z)/r)], F(X) = int_0^atan(X) exp(-a (r - rs) sec u) du",
	Symbol:   "E", Source: source.LineSource, Eval: lineSourceAt,
}

func lineSourceAt(p Point) unit.FluenceRate {
	n, r, z := p.annulus(), p.Radius.Metres(), math.Abs(p.Height.Metres())
	b := n.a * (r - n.rs)
	far, near := (z+n.L/2)/r, (z-n.L/2)/r
	var F float64
	if near > 0 { // beyond the arc the difference of two Sievert integrals would lose its digits
		F = sievertBetween(near, far, b)
	} else {
		up, _ := along.sievert(far, b)
		down, _ := along.sievert(-near, b)
		F = up + down
	}
	return unit.FluenceRate(n.P / (4 * math.Pi * n.L * r) * F)
}

func (p Point) annulus() annulus {
	return annulus{
		P: p.Output.Watts(), L: p.ArcLength.Metres(), rs: p.SleeveRadius.Metres(), a: p.Absorption.PerMetre(),
	}
}

// PointSourcesInput is a Point lit by a row of point sources instead of a line.
type PointSourcesInput struct {
	Output       unit.Power                 `sym:"P"`
	ArcLength    unit.Length                `sym:"L"`
	SleeveRadius unit.Length                `sym:"rs"`
	Absorption   unit.AbsorptionCoefficient `sym:"a"`
	Radius       unit.Length                `sym:"r"`
	Height       unit.Length                `sym:"z"`
	Count        int                        `sym:"n"` // sources, each in the middle of its part of the arc
}

// PointSourcesAt gives the fluence rate at a point by multiple point source summation (MPSS), a check on LineSourceAt
// that shares none of its calculus.
//
//	E = sum_i (P/n)/(4 pi rho_i²) · exp(-a rho_i (r - rs)/r),  rho_i² = r² + (z - l_i)²
//
// P in W, lengths in m, a in 1/m, E in W/m². Valid where the sources stand no further apart than half the sleeve radius;
// at a spacing of twice the radius it is 13 % out at the sleeve. Source: Qualls & Johnson 1983 checked the method by
// bioassay in a plain cylinder (abstract).
var PointSourcesAt = working.Formula[PointSourcesInput, unit.FluenceRate]{
	ID: "field.point-sources-at", Name: "fluence rate at a point, point source summation",
	Equation: "E = sum_i (P/n)/(4 pi rho_i²) · exp(-a rho_i (r - rs)/r), rho_i² = r² + (z - l_i)²", Symbol: "E",
	Source: source.PointSources, Outside: pointSourcesOutside, Eval: pointSourcesAt,
}

func pointSourcesAt(in PointSourcesInput) unit.FluenceRate {
	P, L, rs, a := in.Output.Watts(), in.ArcLength.Metres(), in.SleeveRadius.Metres(), in.Absorption.PerMetre()
	r, z, n := in.Radius.Metres(), in.Height.Metres(), float64(in.Count)
	sum := 0.0
	for i := range in.Count {
		l := L * ((float64(i)+0.5)/n - 0.5)
		rho := math.Hypot(r, z-l)
		sum += P / n / (4 * math.Pi * rho * rho) * math.Exp(-a*rho*(r-rs)/r)
	}
	return unit.FluenceRate(sum)
}

func pointSourcesOutside(in PointSourcesInput) string {
	if in.ArcLength.Metres()/float64(in.Count) > in.SleeveRadius.Metres()/2 {
		return "sources further apart than half the sleeve radius"
	}
	return ""
}

package mixing

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// UnmixedDoseInput is a mean dose in a chamber whose water keeps to its own path along the lamp.
type UnmixedDoseInput struct {
	MeanDose      unit.Fluence               `sym:"D"`
	D10           unit.Fluence               `sym:"D10"` // the dose that leaves one in ten
	SleeveRadius  unit.Length                `sym:"rs"`
	ChamberRadius unit.Length                `sym:"R"`
	Absorption    unit.AbsorptionCoefficient `sym:"a"`
	Laminar       bool                       `sym:"laminar"` // else all water runs at one speed
}

// UnmixedDose gives the dose that counts (reduction equivalent dose) when no water crosses the gap: what runs along the
// wall stays in the dark, and little water that gets little light governs.
//
//	RED = -D10 log10 int v 10^(-D e/(D10 v)) dA / A        J/m²
//	e = exp(-a (r - rs))/r over its mean: the light of the radial model
//	v = the laminar velocity over its mean, or 1
//
// Never above D. Neither profile is always the worse: laminar water is slow at the dark wall. The rule of 64 points is
// good to 1e-8 up to D = 20 D10 and a g = 14. Source: first-order kill along each path; velocity of Bird, Stewart &
// Lightfoot, Transport Phenomena (from memory).
var UnmixedDose = working.Formula[UnmixedDoseInput, unit.Fluence]{
	ID: "mixing.unmixed-dose", Name: "dose that counts, no mixing across the gap",
	Equation: "RED = -D10 log10 int v 10^(-D e/(D10 v)) dA / A, e = exp(-a (r - rs))/r over its mean, v laminar or 1", Symbol: "RED",
	Source: source.BirdAnnulus, Eval: unmixedDose,
}

func unmixedDose(in UnmixedDoseInput) unit.Fluence {
	const points = 64
	var r, w, logs [points]float64
	rs, R := in.SleeveRadius.Metres(), in.ChamberRadius.Metres()
	quad.Legendre{}.FixedLocations(r[:], w[:], 0, 1)
	k, least := math.Ln10*float64(in.MeanDose)/float64(in.D10), math.Inf(1)
	for i, x := range r { // crowded at both walls, where laminar water stands still
		r[i] = rs + (R-rs)*x*x*(3-2*x)
		w[i] *= (R - rs) * 6 * x * (1 - x)
		v := 1.0
		if in.Laminar {
			v = laminar(r[i]/R, rs/R)
		}
		logs[i] = k * in.light(r[i]) / v
		w[i] *= 2 * r[i] * v / (R*R - rs*rs)
		least = min(least, logs[i])
	}
	taken := 0.0 // beyond what the worst path takes: nothing underflows, and small doses keep their digits
	for i := range w {
		taken -= w[i] * math.Expm1(least-logs[i])
	}
	return unit.Fluence(float64(in.D10) * (least - math.Log1p(-taken)) / math.Ln10)
}

// light is the fluence rate of the radial model at r over its mean.
func (in UnmixedDoseInput) light(r float64) float64 {
	a, rs, R := in.Absorption.PerMetre(), in.SleeveRadius.Metres(), in.ChamberRadius.Metres()
	path := R - rs
	if a > 0 {
		path = -math.Expm1(-a*path) / a
	}
	return math.Exp(-a*(r-rs)) / r * (R*R - rs*rs) / (2 * path)
}

// laminar is the velocity at x = r/R in an annulus of k = rs/R over its mean.
func laminar(x, k float64) float64 {
	m := (1 - k*k) / -math.Log(k)
	return 2 * (1 - x*x + m*math.Log(x)) / (1 + k*k - m)
}

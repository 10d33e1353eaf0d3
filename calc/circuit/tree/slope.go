package tree

import (
	"math"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// A line is a run of hose in one water: what is needed beside its losses to say how they go with flow. Loss coefficients of
// fittings are a part that goes with 1/Re, a part that goes with the friction factor f, and a constant.
type line struct {
	creep     float64 // m per m³/s, loss by flow in the slowest flow
	linear    float64 // m per m³/s, part of the loss in fittings that goes with flow
	factored  float64 // m/(m³/s)², part that goes with f and its square
	square    float64 // m/(m³/s)², part that goes with its square
	reynolds  float64 // by flow, s/m³
	friction  float64 // loss to the wall by friction factor and flow squared, m/(m³/s)²
	roughness float64 // ε/D
}

func newLine(r *pipe.Run, w water.Properties) line {
	spec := r.Spec()
	D := spec.Bore.Metres()
	area := math.Pi * D * D / 4
	l := line{
		reynolds:  D / (area * w.Viscosity.SquareMetresPerSecond()),
		friction:  spec.Length.Metres() / D / (2 * water.Gravity * area * area),
		roughness: float64(spec.Roughness / spec.Bore),
	}
	// Two laminar flows, where f is 64/Re, and a turbulent one tell the three parts apart.
	q := 100 / l.reynolds
	hose, once := r.Losses(unit.Flow(q), w)
	_, twice := r.Losses(unit.Flow(2*q), w)
	l.square = (twice - 2*once).Metres() / (2 * q * q)
	slow := (4*once - twice).Metres() / (2 * q)
	l.creep = hose.Metres()/q + slow
	q = 1e5 / l.reynolds
	hose, fittings := r.Losses(unit.Flow(q), w)
	laminar, turbulent := 64*q/l.reynolds, hose.Metres()/l.friction
	l.factored = (fittings.Metres() - l.square*q*q - slow*q) / (turbulent - laminar)
	l.linear = slow - 64*l.factored/l.reynolds
	return l
}

// loss is the head lost in a run at a flow above 0, and how it goes with flow.
func (l *line) loss(r *pipe.Run, q float64, w water.Properties) (h, slope float64) {
	hose, fittings := r.Losses(unit.Flow(q), w)
	fq2 := hose.Metres() / l.friction
	withRe, _ := exponents(fq2/(q*q), l.reynolds*q, l.roughness)
	return (hose + fittings).Metres(), (hose.Metres()+l.factored*fq2)/q*(2+withRe) + l.linear + 2*l.square*q
}

// exponents are the exact slopes of a friction factor in double logarithmic scale, d ln f/d ln Re and d ln f/d ln(ε/D),
// for a factor that follows the law of pipe.FrictionFactor, and 0 for one that does not, which is a constant.
//
// From Colebrook's law, with x = 1/√f, s = (ε/D)/3.7 + 2.51 x/Re, t = 2.51 x/(Re s) and β = 2/ln 10:
//
//	d ln f/d ln Re = −2 β t/(x + β t),    d ln f/d ln(ε/D) = 2 β (1 − t)/(x + β t)
func exponents(f, re, roughness float64) (withRe, withRoughness float64) {
	const (
		laminar, turbulent = 2000.0, 4000.0
		start              = 64 / laminar
	)
	switch {
	case re <= laminar:
		if math.Abs(f*re-64) < 1e-6 {
			return -1, 0
		}
		return 0, 0
	case re < turbulent: // a straight line from start to the factor at turbulent
		u := (re - laminar) / (turbulent - laminar)
		end := (f - start*(1-u)) / u
		_, endWithRoughness, ok := colebrookExponents(end, turbulent, roughness)
		if !ok {
			return 0, 0
		}
		return (1 - start/f) * re / (re - laminar), u * end / f * endWithRoughness
	}
	withRe, withRoughness, _ = colebrookExponents(f, re, roughness)
	return withRe, withRoughness
}

func colebrookExponents(f, re, roughness float64) (withRe, withRoughness float64, ok bool) {
	const beta = 2 / math.Ln10
	x := 1 / math.Sqrt(f)
	s := roughness/3.7 + 2.51*x/re
	if math.Abs(x+beta*math.Log(s)) > 1e-6*x {
		return 0, 0, false
	}
	t := 2.51 * x / (re * s)
	return -2 * beta * t / (x + beta*t), 2 * beta * (1 - t) / (x + beta*t), true
}

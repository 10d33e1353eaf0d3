package field

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// RadialAverage gives the fluence rate averaged over the water when all light leaves at right angles to the lamp.
//
//	E = P (1 - exp(-a g)) / (a pi (R² - rs²) L) · min(L, H)/H      g = R - rs; P in W, lengths in m, a in 1/m, E in W/m²
//
// Where arc and chamber differ in length, only the arc inside the chamber counts, and what it gives is spread over the
// whole chamber. Source: integral of the radial model over the annulus.
var RadialAverage = working.Formula[Chamber, unit.FluenceRate]{
	ID: "field.radial-average", Name: "average fluence rate, radial model",
	Equation: "E = P (1 - exp(-a (R - rs))) / (a pi (R² - rs²) L) · min(L, H)/H", Symbol: "E",
	Source: source.RadialModel, Eval: radialAverage,
}

func radialAverage(c Chamber) unit.FluenceRate {
	P, L, H, a := c.Output.Watts(), c.ArcLength.Metres(), c.ChamberLength.Metres(), c.Absorption.PerMetre()
	R, rs := c.ChamberRadius.Metres(), c.SleeveRadius.Metres()
	return unit.FluenceRate(P * absorbedPath(a, R-rs) / (math.Pi * (R*R - rs*rs) * L) * c.litLength() / H)
}

// LineSourceAverage gives the fluence rate averaged over the water when each part of the lamp shines evenly in all
// directions and each ray is absorbed along its own way (line source integration, LSI).
//
//	E = 2/(R² - rs²) int_rs^R r Er dr
//	Er = P/(2 pi L H) [G((L + H)/2r) - G((L - H)/2r)]      G as in sievert, with b = a (r - rs)
//
// Watts, metres and W/m². The quadrature is good to 1e-9 in usual chambers, and to 1e-6 up to a radius ten times that of
// the sleeve and down to a transmittance of 1 %. Source: Jacob & Dranoff 1970; Blatchley 1997 (from memory), re-derived.
var LineSourceAverage = working.Formula[Chamber, unit.FluenceRate]{
	ID: "field.line-source-average", Name: "average fluence rate, line source integration",
	Equation: "E = P/(4 pi L V) · int over water and arc of exp(-a rho (r - rs)/r) / rho²", Symbol: "E",
	Source: source.LineSource, Eval: lineSourceAverage,
}

func lineSourceAverage(c Chamber) unit.FluenceRate {
	n := newAnnulus(c)
	// F starts like b ln b at the sleeve: points crowded there keep the rule exact.
	sum := n.across(n.rs, n.dark, crowdedAtStart, n.lineSource)
	return unit.FluenceRate(2 / (n.R*n.R - n.rs*n.rs) * sum)
}

// CarefulAverage gives the fluence rate averaged over the water when at every point the lesser of the radial and the line
// source model holds (RAD-LSI). It is never above either average.
//
//	E = 1/V int over the water of min(E_radial, E_LSI)
//
// Watts, metres and W/m². The quadrature is good to 1e-7 within the same bounds. Source: Liu et al. 2004 (rule from
// memory).
var CarefulAverage = working.Formula[Chamber, unit.FluenceRate]{
	ID: "field.careful-average", Name: "average fluence rate, pointwise lesser of radial and line source",
	Equation: "E = 1/V · int over the water of min(E_radial, E_LSI)", Symbol: "E",
	Source: source.RadLSI, Eval: carefulAverage,
}

func carefulAverage(c Chamber) unit.FluenceRate {
	n := newAnnulus(c)
	allRadial, noRadial := n.crossing(n.Z), n.crossing(0)
	sum := n.across(n.rs, allRadial, even, func(r float64) float64 { return 2 * n.Z / n.H * n.radial(r) })
	z := n.Z
	sum += n.across(allRadial, noRadial, crowdedAtEnd, func(r float64) (E float64) {
		E, z = n.lesser(r, z)
		return E
	})
	sum += n.across(noRadial, n.dark, crowdedAtStart, n.lineSourceBesideArc)
	return unit.FluenceRate(2 / (n.R*n.R - n.rs*n.rs) * sum)
}

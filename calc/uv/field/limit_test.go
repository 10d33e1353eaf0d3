package field

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/unit"
)

// Light leaves the lamp, and is absorbed, reaches the wall, or leaves at the ends: the first two are never more than was
// given. What reaches the wall is summed here on its own, by a rule of 100 points over the overlap of arc and chamber.
func TestLightIsKeptInEveryChamber(t *testing.T) {
	fine := legendre(100)
	rapid.Check(t, func(t *rapid.T) {
		c := anyChamber(t)
		absorbed := absorbedShare(AbsorbedShareInput{
			Absorption: c.Absorption, FluenceRate: lineSourceAverage(c), Volume: c.Volume(), Output: c.Output,
		}).Float()
		assert.LessOrEqual(t, absorbed+lineSourceWall(c, fine), 1+2e-6, "two quadratures of 1e-6")
	})
}

// lineSourceWall is the share of the light of a line source that crosses the wall beside the chamber:
//
//	1/L · int over arc and chamber of R²/(2 rho³) · exp(-a rho (R - rs)/R) = R²/L · int_0^(L+H)/2 w(u) exp(...)/rho³ du
//
// w(u) is the length of arc and chamber that stand u apart: min(L, H) up to |H - L|/2, falling to 0 from there.
func lineSourceWall(c Chamber, fine rule) (sum float64) {
	R, rs, a := c.ChamberRadius.Metres(), c.SleeveRadius.Metres(), c.Absorption.PerMetre()
	L, H := c.ArcLength.Metres(), c.ChamberLength.Metres()
	knee, end := math.Abs(H-L)/2, (H+L)/2
	for _, part := range [][2]float64{{0, knee}, {knee, end}} {
		from, to := math.Asinh(part[0]/R), math.Asinh(part[1]/R) // u = R sinh v keeps the integrand smooth
		for i, x := range fine.x {
			v := from + (to-from)*x
			u, rho := R*math.Sinh(v), R*math.Cosh(v)
			w := min(min(L, H), end-u)
			sum += fine.w[i] * (to - from) * w * math.Exp(-a*rho*(R-rs)/R) / (rho * rho)
		}
	}
	return sum * R * R / L
}

// The radial model loses nothing at the ends of a chamber as long as the arc: what is not absorbed is what is left at the
// wall, exp(-a g).
func TestRadialLightIsKeptExactly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := anyChamber(t)
		c.ChamberLength = c.ArcLength
		absorbed := absorbedShare(AbsorbedShareInput{
			Absorption: c.Absorption, FluenceRate: radialAverage(c), Volume: c.Volume(), Output: c.Output,
		}).Float()
		wall := math.Exp(-c.Absorption.PerMetre() * (c.ChamberRadius - c.SleeveRadius).Metres())
		assert.InDelta(t, 1, absorbed+wall, 1e-12)
	})
}

// As absorption goes to zero, each average goes to its closed form in clear water: by hand, P/(pi L (R + rs)) for the
// radial model; the line source has its own test.
func TestAveragesOfNearlyClearWater(t *testing.T) {
	c := Chamber{Output: 10, ArcLength: 0.3, ChamberLength: 0.3, SleeveRadius: 0.0125, ChamberRadius: 0.035}
	assert.InEpsilon(t, 10/(math.Pi*0.3*(0.035+0.0125)), float64(radialAverage(c)), 1e-12)
	for _, average := range []func(Chamber) unit.FluenceRate{radialAverage, lineSourceAverage, carefulAverage} {
		clear := average(c)
		for _, a := range []float64{1e-3, 1e-6, 1e-9} {
			nearly := c
			nearly.Absorption = unit.AbsorptionCoefficient(a)
			// A ray of the line source is at most some L/2 · g/rs long in the water: a · 0.3 m is lost at most.
			assert.InEpsilon(t, float64(clear), float64(average(nearly)), a*0.3+1e-9)
			assert.LessOrEqual(t, float64(average(nearly)), float64(clear)*(1+1e-12))
		}
	}
}

// As the gap closes, each average goes to the light on the sleeve itself: P/(2 pi rs L) for the radial model; for the
// line source in clear water P/(4 pi L rs) times the mean over the length of both arc tangents,
// 2 atan(L/rs) - rs/L ln(1 + L²/rs²).
func TestAveragesOfAThinChamber(t *testing.T) {
	const P, L, rs = 10, 0.3, 0.0125
	radial := P / (2 * math.Pi * rs * L)
	line := P / (4 * math.Pi * L * rs) * (2*math.Atan(L/rs) - rs/L*math.Log(1+L*L/(rs*rs)))
	for _, g := range []float64{1e-4, 1e-5, 1e-6} {
		c := Chamber{Output: P, ArcLength: L, ChamberLength: L, SleeveRadius: rs, ChamberRadius: rs + unit.Length(g)}
		assert.InEpsilon(t, radial, float64(radialAverage(c)), g/rs)
		assert.InEpsilon(t, line, float64(lineSourceAverage(c)), 2*g/rs)
	}
}

// Radial and line source agree where all light must end in the water: in a chamber far longer than its arc, of dark water
// so wide that none is left at the wall, the average is P/(a V) by either. The line source still sends 1 - cos(atan(rs/d))
// of its light through the sleeve and out at the ends, some d = 1.5 m off.
func TestModelsAgreeWhereAllLightIsAbsorbed(t *testing.T) {
	c := Chamber{Output: 10, ArcLength: 0.02, ChamberLength: 3, SleeveRadius: 0.0125, ChamberRadius: 0.1, Absorption: 400}
	want := 10 / (400 * c.Volume().CubicMetres())
	assert.InEpsilon(t, want, float64(radialAverage(c)), 1e-12)
	ends := 1 - math.Cos(math.Atan(0.0125/1.5))
	assert.InDelta(t, 1-ends, float64(lineSourceAverage(c))/want, 1e-6)
}

// A lamp without end in clear water: at one place the line source is pi/2 of the radial model. The ends, 1 m off at 5 mm
// from the axis, still take 2/pi · 5e-3 of it.
func TestLightAtALongLamp(t *testing.T) {
	p := Place{Output: 10, Count: 1, ArcLength: 2, SleeveRadius: 0.003, X: 0.005}
	l := lightAt(p)
	assert.InEpsilon(t, math.Pi/2*(1-2/math.Pi*5e-3), float64(l.LineSource/l.Radial), 1e-6)
	assert.Equal(t, l.Radial, l.Careful)
}

package field

import (
	"math"

	"example.com/pondwright/calc/root"
)

// An annulus is a Chamber in plain numbers and the textbook's symbols.
type annulus struct {
	P, L, H, rs, R, a float64
	Z                 float64 // half the length of chamber that has lamp beside it
	dark              float64 // radius beyond which no light is left that counts
}

func newAnnulus(c Chamber) annulus {
	n := annulus{
		P: c.Output.Watts(), L: c.ArcLength.Metres(), H: c.ChamberLength.Metres(),
		rs: c.SleeveRadius.Metres(), R: c.ChamberRadius.Metres(), a: c.Absorption.PerMetre(),
		Z: c.litLength() / 2,
	}
	n.dark = n.R
	if n.a > 0 {
		n.dark = min(n.R, n.rs+opaque/n.a)
	}
	return n
}

// opaque is the optical depth behind which the water is taken as dark: exp(-30) is 1e-13.
const opaque = 30

// A spacing says where the points of a rule stand between start and end: the place of x in 0..1 and its slope.
type spacing func(x float64) (at, slope float64)

func even(x float64) (at, slope float64)           { return x, 1 }
func crowdedAtStart(x float64) (at, slope float64) { return x * x, 2 * x }
func crowdedAtEnd(x float64) (at, slope float64)   { return 1 - (1-x)*(1-x), 2 * (1 - x) }

// crowdedAtBothEnds also takes the square roots with which an angle of crossing circles starts and ends.
func crowdedAtBothEnds(x float64) (at, slope float64) { return x * x * (3 - 2*x), 6 * x * (1 - x) }

// across integrates r E(r) from lo to hi, calling E with r rising.
func (n annulus) across(lo, hi float64, s spacing, E func(r float64) float64) (sum float64) {
	for i, x := range across.x {
		at, slope := s(x)
		r := lo + (hi-lo)*at
		sum += across.w[i] * slope * (hi - lo) * r * E(r)
	}
	return sum
}

// radial is the fluence rate at r beside the arc when light leaves at right angles.
func (n annulus) radial(r float64) float64 {
	return n.P / (2 * math.Pi * r * n.L) * math.Exp(-n.a*(r-n.rs))
}

// lineSource is the mean over the length of the chamber of the line source model at r.
func (n annulus) lineSource(r float64) float64 {
	return n.lineSourceTo(n.H/2, r)
}

// lineSourceBesideArc is the same with the water beyond the ends of the arc counted as dark, as in the radial model.
func (n annulus) lineSourceBesideArc(r float64) float64 {
	return n.lineSourceTo(n.Z, r)
}

// lineSourceTo is the line source model at r summed over |z| < Z and divided by the length of the chamber.
func (n annulus) lineSourceTo(Z, r float64) float64 {
	b := n.a * (r - n.rs)
	_, far := along.sievert((n.L/2+Z)/r, b)
	_, near := along.sievert((n.L/2-Z)/r, b)
	return n.P / (2 * math.Pi * n.L * n.H) * (far - near)
}

// excess is about how far the line source model stands above the radial one at r and z, and its slope in z, both in units
// of P/(4 pi L r).
func (n annulus) excess(r, z float64) (excess, slope float64) {
	b := n.a * (r - n.rs)
	x2, x1 := (n.L/2+z)/r, (n.L/2-z)/r
	F2, _ := rough.sievert(x2, b)
	F1 := F2
	if x1 != x2 {
		F1, _ = rough.sievert(x1, b)
	}
	return F2 + F1 - 2*math.Exp(-b), (emission(x2, b) - emission(x1, b)) / r
}

// emission is the integrand of the Sievert integral: what the piece of lamp at slope x sends.
func emission(x, b float64) float64 {
	s2 := 1 + x*x
	return math.Exp(-b*math.Sqrt(s2)) / s2
}

// lesser is the mean over the length of the chamber of the lesser model at r. The radial model is the lesser in mid-arc,
// up to the height z* where they meet, and the line source beyond it. The integral is stationary in z*: a rough one gives
// a sharp integral.
func (n annulus) lesser(r, start float64) (E, z float64) {
	z = n.meet(r, start)
	return 2*z/n.H*n.radial(r) + n.lineSourceBesideArc(r) - n.lineSourceTo(z, r), z
}

// meet is about the height z* at which the two models meet at r. The excess falls with z ever more steeply, so that Newton's
// steps from a start above z* come down to it without overshooting; z* falls with r, so that the last one is such a start.
func (n annulus) meet(r, start float64) (z float64) {
	const enough = 0.03 // of r, for the last step: what is left is about its square, and the error of the integral the square of that
	z = start
	for range 20 {
		excess, slope := n.excess(r, z)
		if excess >= 0 || z == 0 {
			break
		}
		step := min(z, excess/slope)
		z -= step
		if step < enough*r {
			break
		}
	}
	return z
}

// crossing is the radius where the two models give the same light at height z: nearer the sleeve the radial model is the
// lesser, since rays that slant are absorbed more the longer their way. It is the sleeve or the wall where they do not
// cross in the water.
func (n annulus) crossing(z float64) float64 {
	excess := func(r float64) float64 {
		e, _ := n.excess(r, z)
		return e
	}
	if excess(n.rs) <= 0 {
		return n.rs
	}
	if r, ok := root.Find(excess, n.rs, n.dark); ok {
		return r
	}
	return n.dark
}

package field

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"
)

// A rule is a Gauss–Legendre rule on 0..1, its points rising, even in number.
type rule struct{ x, w []float64 }

var (
	across = legendre(20) // from the sleeve to the wall
	along  = legendre(16) // along the lamp
	rough  = legendre(8)  // along the lamp, where the models meet
)

func legendre(n int) rule {
	r := rule{x: make([]float64, n), w: make([]float64, n)}
	quad.Legendre{}.FixedLocations(r.x, r.w, 0, 1) // falling
	slices.Reverse(r.x)
	slices.Reverse(r.w)
	return r
}

// sievert gives the light of a line source from its foot to the slope X = length/r, and the integral of that over the
// slope:
//
//	F(X) = int_0^X exp(-b s)/s² dx              s = sqrt(1 + x²)     (the Sievert integral, with x = tan u)
//	G(X) = int_0^X F dx = int_0^X (X - x) exp(-b s)/s² dx
//
// F is odd and G even. With x = sinh v both integrands are smooth however long the lamp. The points of the rule lie
// evenly about its middle, so that one exponential serves two of them.
func (l rule) sievert(X, b float64) (F, G float64) {
	if X == 0 {
		return 0, 0
	}
	end := math.Abs(X)
	whole := end + math.Sqrt(1+end*end)
	V := math.Log(whole) // asinh(end)
	for i := range len(l.x) / 2 {
		up := math.Exp(V * l.x[i])
		down := 1 / up
		otherUp, otherDown := whole*down, up/whole
		cosh, otherCosh := (up+down)/2, (otherUp+otherDown)/2
		f, other := l.w[i]*math.Exp(-b*cosh)/cosh, l.w[i]*math.Exp(-b*otherCosh)/otherCosh
		F += f + other
		G += f*(end-(up-down)/2) + other*(end-(otherUp-otherDown)/2)
	}
	return math.Copysign(F*V, X), G * V
}

// sievertBetween gives the light of a line source between two slopes on one side of its foot, int_from^to exp(-b s)/s² dx.
func sievertBetween(from, to, b float64) (F float64) {
	start, end := math.Asinh(from), math.Asinh(to)
	for i, x := range along.x {
		cosh := math.Cosh(start + (end-start)*x)
		F += along.w[i] * math.Exp(-b*cosh) / cosh
	}
	return F * (end - start)
}

package field

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/integrate/quad"
)

// A rule is a Gauss–Legendre rule on 0..1, its points rising.
type rule struct{ x, w []float64 }

var (
	across = legendre(20) // from the sleeve to the wall
	along  = legendre(16) // along the lamp
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
// F is odd and G even. With x = sinh v both integrands are smooth however long the lamp.
func sievert(X, b float64) (F, G float64) {
	if X == 0 {
		return 0, 0
	}
	V := math.Asinh(X)
	for i, x := range along.x {
		e := math.Exp(V * x)
		sinh, cosh := (e-1/e)/2, (e+1/e)/2
		f := along.w[i] * math.Exp(-b*cosh) / cosh
		F += f
		G += f * (X - sinh)
	}
	return F * V, G * V
}

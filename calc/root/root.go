// Package root finds where a continuous function is zero between two bounds of opposite sign.
package root

import "math"

// Steps is the most times Find evaluates its function; Brent's method is never slower than bisection squared, and in
// practice takes eight to twelve.
const Steps = 200

// Find gives x in [a, b] with f(x) = 0 to the last bits of x, by Brent's method: it keeps the bracket of bisection and
// takes secant or inverse quadratic steps inside it. f(a) and f(b) must not have the same sign; ok is false when they do,
// or when f is not a number somewhere.
//
// Source: R. P. Brent, Algorithms for Minimization without Derivatives, Prentice-Hall 1973, ch. 4 (from memory).
func Find(f func(float64) float64, a, b float64) (x float64, ok bool) {
	fa, fb := f(a), f(b)
	if fa == 0 {
		return a, true
	}
	if fb == 0 {
		return b, true
	}
	if !(fa*fb < 0) {
		return 0, false
	}
	c, fc := a, fa
	step := b - a
	before := step
	for range Steps {
		if fb*fc > 0 {
			c, fc = a, fa
			step = b - a
			before = step
		}
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		tolerance := 2 * epsilon * math.Abs(b)
		half := (c - b) / 2
		if math.Abs(half) <= tolerance || fb == 0 {
			return b, true
		}
		step, before = next(a, b, c, fa, fb, fc, half, step, before, tolerance)
		a, fa = b, fb
		if math.Abs(step) > tolerance {
			b += step
		} else {
			b += math.Copysign(tolerance, half)
		}
		fb = f(b)
		if math.IsNaN(fb) {
			return 0, false
		}
	}
	return b, true
}

const epsilon = 2.220446049250313e-16 / 2

// next chooses between interpolation and bisection.
func next(a, b, c, fa, fb, fc, half, step, before, tolerance float64) (float64, float64) {
	if math.Abs(before) < tolerance || math.Abs(fa) <= math.Abs(fb) {
		return half, half
	}
	s := fb / fa
	var p, q float64
	if a == c {
		p = 2 * half * s
		q = 1 - s
	} else {
		q = fa / fc
		r := fb / fc
		p = s * (2*half*q*(q-r) - (b-a)*(r-1))
		q = (q - 1) * (r - 1) * (s - 1)
	}
	if p > 0 {
		q = -q
	} else {
		p = -p
	}
	if 2*p < min(3*half*q-math.Abs(tolerance*q), math.Abs(before*q)) {
		return p / q, step
	}
	return half, half
}

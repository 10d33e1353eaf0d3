package tree

import "math"

const (
	// mostSteps bounds every search for one number: each step halves what is left over or the bracket, and neither can
	// be halved more often than this before it is down to its last bits.
	mostSteps = 160
	// closeEnough is the step, in proportion, below which Newton's method has arrived: the error after it goes with its
	// square.
	closeEnough = 1e-13
)

// A search closes in on the x where a rising function meets a target. Newton's steps are taken while they at least halve
// what is left over; where one does not, or leaves the bracket, the bracket is halved.
type search struct {
	lo, hi float64
	left   float64 // what the last step left over
}

// next takes in what is left over at x, above 0 where x is too small, and chooses between Newton's x and the middle.
func (s *search) next(x, left, newton float64) float64 {
	if left > 0 {
		s.lo = x
	} else {
		s.hi = x
	}
	worse := math.Abs(left) > s.left/2
	s.left = math.Abs(left)
	switch {
	case newton > s.lo && newton < s.hi && !worse:
		return newton
	case math.IsInf(s.hi, 1):
		return 8 * max(s.lo, 1e-12)
	}
	return s.lo + (s.hi-s.lo)/2
}

// climb finds x > 0 where a function that is 0 at 0 and rises from there reaches a target above 0, by Newton's method on
// the square root of the function, which for losses of pipes is nearly a straight line. The function is known to within
// grain. It gives the slope at the last x tried as well.
func climb(f func(float64) (y, slope float64), target, grain, guess float64) (x, slope float64) {
	if x = guess; !(x > 0) || math.IsInf(x, 0) {
		x = 1e-4
	}
	s := search{hi: math.Inf(1), left: math.Inf(1)}
	root := math.Sqrt(target)
	for range mostSteps {
		y, d := f(x)
		slope = d
		if y == target || math.IsNaN(y) {
			return x + (target - y), d
		}
		newton := math.NaN()
		if y > 0 && d > 0 {
			r := math.Sqrt(y)
			newton = x + 2*r*(root-r)/d
		}
		if math.Abs(newton-x) <= closeEnough*x || math.Abs(target-y) <= grain && newton > 0 {
			return newton, d
		}
		next := s.next(x, target-y, newton)
		if math.Abs(next-x) <= closeEnough*x {
			return next, d
		}
		x = next
	}
	return x, slope
}

// meet finds x between two bounds where a rising function is 0, to within grain, by Newton's method.
func meet(f func(float64) (y, slope float64), lo, hi, grain, guess float64) (x, slope float64) {
	if x = guess; !(x >= lo && x <= hi) {
		x = lo + (hi-lo)/2
	}
	s := search{lo: lo, hi: hi, left: math.Inf(1)}
	grain = max(grain, closeEnough*max(math.Abs(lo), math.Abs(hi)))
	for range mostSteps {
		y, d := f(x)
		slope = d
		if y == 0 || math.IsNaN(y) {
			return x + y, d
		}
		newton := x - y/d
		if math.Abs(newton-x) <= grain {
			return newton, d
		}
		next := s.next(x, -y, newton)
		if math.Abs(next-x) <= grain {
			return next, d
		}
		x = next
	}
	return x, slope
}

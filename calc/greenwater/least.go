package greenwater

import "math"

// leastFactor is the least factor at which holds is true, of a holds that stays true once it is. It is 0 where even a
// thousandth holds, and there is none where a thousandfold does not.
func leastFactor(holds func(factor float64) bool) (float64, bool) {
	const least, most = 1e-3, 1e3
	switch {
	case holds(least):
		return 0, true
	case !holds(most):
		return 0, false
	}
	lo, hi := math.Log(least), math.Log(most)
	for range 50 { // to the last bits of a span of 14
		if mid := (lo + hi) / 2; holds(math.Exp(mid)) {
			hi = mid
		} else {
			lo = mid
		}
	}
	return math.Exp(hi), true
}

package drawing

import "math"

// scales are those that a scale rule has.
var scales = []float64{5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2000, 2500, 5000, 10000}

// scaleFor is the largest drawing of so many metres that fits so many millimetres.
func scaleFor(wide, high, roomWide, roomHigh float64) float64 {
	for _, scale := range scales {
		if wide*1000/scale <= roomWide && high*1000/scale <= roomHigh {
			return scale
		}
	}
	return niceAbove(max(wide*1000/roomWide, high*1000/roomHigh))
}

// niceBelow is the greatest of 1, 2 and 5 times a power of ten that is no greater.
func niceBelow(x float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(x)))
	for _, first := range []float64{5, 2, 1} {
		if first*power <= x*(1+1e-9) {
			return first * power
		}
	}
	return power
}

func niceAbove(x float64) float64 {
	least := niceBelow(x)
	for _, more := range []float64{1, 2, 2.5, 5, 10} {
		if least*more >= x*(1-1e-9) {
			return least * more
		}
	}
	return least * 10
}

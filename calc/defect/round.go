package defect

import "math"

// A printed figure is round: it ends after some digits in the unit it was printed in. By that one can tell the unit that a column
// was turned from, and numbers that nobody printed.

// needsUnit says whether a column is anything but round as it stands, so that it is worth asking in which unit it is.
func needsUnit(x []float64, greatest, digit float64) bool {
	step := decade(greatest) / 100 // three figures of the greatest
	return digit < step/2 || digit < step && !steps(x, step/2, 1e-9*greatest)
}

// decade is the greatest power of ten that is not above x.
func decade(x float64) float64 { return math.Pow10(int(math.Floor(math.Log10(x)))) }

// steps says whether all numbers are multiples of a step, within a tolerance.
func steps(x []float64, step, tolerance float64) bool {
	for _, v := range x {
		if m := math.Round(v/step) * step; math.Abs(v-m) > tolerance {
			return false
		}
	}
	return true
}

// roundIn says how much rounder a column is once it is multiplied by a factor than chance would have it, in ln: all its numbers come
// within half a digit of multiples of one step. Numbers that are evenly spaced say no more than their spacing does.
func roundIn(x []float64, factor, digit float64) float64 {
	greatest := 0.0
	for _, v := range x {
		greatest = max(greatest, v)
	}
	tolerance := digit / 2 * factor * 1.01
	greatest *= factor
	base := decade(greatest)
	for _, share := range []float64{0.5, 0.1, 0.05, 0.01, 0.005, 0.001} {
		step := share * base
		if 2*tolerance > 0.6*step {
			return 0
		}
		numbers, round := 0, true
		for _, v := range x {
			if v == 0 {
				continue
			}
			y := v * factor
			if round = math.Abs(y-math.Round(y/step)*step) <= tolerance; !round {
				break
			}
			numbers++
		}
		if !round {
			continue // as nearly every column is: what it would say is worked out for the others only
		}
		speaks, each := 0.0, -math.Log(2*tolerance/step)
		for range numbers {
			speaks += each
		}
		switch {
		case speaks < 0:
			continue
		case evenly(x, digit):
			speaks = each + math.Log(float64(len(x)-1))
		}
		return min(max(speaks-stepsAndUnits, 0), roundSpeaks)
	}
	return 0
}

// stepsAndUnits makes up for asking in many units and on many steps: ln of their number.
const stepsAndUnits = 4

// evenly says whether numbers are evenly spaced, to the digit.
func evenly(x []float64, digit float64) bool {
	spacing := (x[len(x)-1] - x[0]) / float64(len(x)-1)
	for i, v := range x {
		if math.Abs(v-x[0]-spacing*float64(i)) > 1.01*digit {
			return false
		}
	}
	return true
}

// printed is the value of the last digit that the numbers of a column were printed with, or a millionth of the greatest.
func printed(x []float64, greatest float64) float64 {
	digit := decade(greatest)
	for range 6 {
		if steps(x, digit, 1e-9*greatest) {
			return digit
		}
		digit /= 10
	}
	return digit
}

package finding

import (
	"math"
	"strconv"
)

// Figures writes a number for a sentence with up to three figures and never with an exponent: 0.0123, 4.57, 48,100. What
// is too small to be worth a figure is "less than 0.001".
func Figures(x float64) string {
	const least = 0.001
	switch size := math.Abs(x); {
	case x == 0:
		return "0"
	case size < least:
		return "less than 0.001"
	case size < 999.5:
		return strconv.FormatFloat(x, 'g', 3, 64)
	default:
		unit := math.Pow(10, math.Floor(math.Log10(size))-2)
		return Whole(math.Round(x/unit) * unit)
	}
}

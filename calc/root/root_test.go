package root_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/root"
)

// The tolerance is the last bits of the root: Find stops when the bracket is two of them wide.
func TestFindMeetsClosedForms(t *testing.T) {
	for name, test := range map[string]struct {
		f    func(float64) float64
		a, b float64
		want float64
	}{
		"square root of two":    {func(x float64) float64 { return x*x - 2 }, 0, 2, math.Sqrt2},
		"half of pi":            {math.Cos, 0, 3, math.Pi / 2},
		"natural log of ten":    {func(x float64) float64 { return math.Exp(x) - 10 }, 0, 5, math.Ln10},
		"flat cubic":            {func(x float64) float64 { d := x - 1; return d * d * d }, 0, 3, 1},
		"root at left bound":    {func(x float64) float64 { return x }, 0, 1, 0},
		"root at right bound":   {func(x float64) float64 { return x - 1 }, 0, 1, 1},
		"falling from infinity": {func(x float64) float64 { return 1/x - 4 }, 1e-9, 1, 0.25},
	} {
		t.Run(name, func(t *testing.T) {
			got, ok := root.Find(test.f, test.a, test.b)
			assert.True(t, ok)
			if name == "flat cubic" { // a triple root is only known to the cube root of the precision
				assert.InDelta(t, test.want, got, 1e-5)
				return
			}
			assert.InDelta(t, test.want, got, 4e-16*math.Max(1, math.Abs(test.want)))
		})
	}
}

func TestFindRefusesWhatHasNoBracket(t *testing.T) {
	_, ok := root.Find(func(x float64) float64 { return x*x + 1 }, -1, 1)
	assert.False(t, ok)
	_, ok = root.Find(func(float64) float64 { return math.NaN() }, 0, 1)
	assert.False(t, ok)
}

func TestFindStaysBracketedAndBounded(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		k := rapid.Float64Range(1e-6, 1e6).Draw(t, "k")
		n := rapid.Float64Range(0.2, 8).Draw(t, "n")
		c := rapid.Float64Range(1e-6, 1).Draw(t, "c")
		calls := 0
		x, ok := root.Find(func(x float64) float64 { calls++; return k * (math.Pow(x, n) - c) }, 0, 1)
		assert.True(t, ok)
		assert.InEpsilon(t, math.Pow(c, 1/n), x, 1e-12) // the power itself is good to some 1e-15·n/x
		assert.LessOrEqual(t, calls, 120)
	})
}

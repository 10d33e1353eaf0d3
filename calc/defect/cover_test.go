package defect

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// A head is counted on the steps that the definition by logarithms gives, wherever the search for it begins.
func TestCoverageCountsAHeadOnTheStepsOfItsLogarithm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		centimetres := rapid.IntRange(1, 6000).Draw(t, "centimetres")
		head := float64(centimetres) / 100
		if rapid.Bool().Draw(t, "any") {
			head = math.Exp(rapid.Float64Range(-4, 5).Draw(t, "ln head"))
		}
		var counted tallies
		at := counted.coverHead(3, head, rapid.IntRange(0, coverHeads).Draw(t, "from"))
		require.GreaterOrEqual(t, at, 0)
		tenths := 10 * math.Log10(head/coverFirstHead)
		for h := range coverHeads {
			want := int32(0)
			if float64(h) <= math.Floor(tenths) && float64(h) >= math.Ceil(tenths-spareTenths) {
				want = 1
			}
			require.Equal(t, want, counted.cover[3][h], "head %v step %d", head, h)
		}
	})
}

// Passing over by whole shares passes over exactly what the shares themselves would.
func TestLimitsAreThoseOfTheShares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		share := rapid.OneOf(rapid.Float64Range(0, 0.02), rapid.Custom(func(t *rapid.T) float64 {
			return float64(rapid.IntRange(0, 1200).Draw(t, "n")) / kept16
		})).Draw(t, "share")
		n := limit(share)
		require.LessOrEqual(t, float64(n)/kept16, share)
		require.Greater(t, float64(n+1)/kept16, share)
	})
}

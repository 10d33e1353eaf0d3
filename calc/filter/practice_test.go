package filter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// Habits of the trade, no source: half to once an hour for koi, a quarter to half with goldfish.
func TestTurnoverPractice(t *testing.T) {
	low, high, src := filter.TurnoverPractice(filter.KoiPond)
	assert.InDelta(t, 0.5, low.PerHour(), 1e-12)
	assert.InDelta(t, 1, high.PerHour(), 1e-12)
	assert.Equal(t, source.CommonPractice, src.Status)
	low, high, _ = filter.TurnoverPractice(0)
	assert.Zero(t, low)
	assert.Zero(t, high)
}

// A box "up to 6,000 L" on a patio pond of 1,764 L: enough with goldfish, and not with koi.
func TestLabelRules(t *testing.T) {
	rules := filter.LabelRules(unit.Litres(6000), unit.Litres(1764))
	require.Len(t, rules, 3)
	for i, want := range []struct {
		litres  float64
		carries bool
	}{{6000, true}, {3000, true}, {1500, false}} {
		assert.InDelta(t, want.litres, rules[i].Suits.Litres(), 1e-9)
		assert.Equal(t, want.carries, rules[i].Carries, rules[i].Stocking)
		assert.Equal(t, source.CommonPractice, rules[i].Source.Status)
	}
	assert.Empty(t, filter.LabelRules(0, 1))
	assert.Empty(t, filter.LabelRules(unit.Volume(math.NaN()), 1))
}

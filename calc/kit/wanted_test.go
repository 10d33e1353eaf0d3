package kit_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/fall"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/unit"
)

// A 40 cm sill with a full sheet takes 4 800 to 8 000 L/h: common practice, no source, see fall.Sheet.Practice.
func TestFallAloneDecidesTheFlow(t *testing.T) {
	w, found := kit.Flows(nil, kit.Demands{Sheet: fall.Full, Sill: unit.Centimetres(40)})
	assert.Empty(t, found)
	assert.InDelta(t, 4800, w.Least.LitresPerHour(), 1e-9)
	assert.InDelta(t, 8000, w.Most.LitresPerHour(), 1e-9)
	require.Len(t, w.Needs, 1)
	assert.Equal(t, "fall", w.Needs[0].Name)
}

func TestTheGreatestNeedDecides(t *testing.T) {
	w, found := kit.Flows(nil, kit.Demands{
		FallFlow: unit.LitresPerHour(2000), Filter: true, Volume: unit.Litres(5000), Turnover: unit.PerHour(0.5),
		Stocking: filter.GoldfishPond, LeastFlow: unit.LitresPerHour(1200),
	})
	assert.Empty(t, found)
	assert.InDelta(t, 2500, w.Least.LitresPerHour(), 1e-9)
	assert.InDelta(t, 3000, w.Most.LitresPerHour(), 1e-9)
	assert.Len(t, w.Needs, 3)
}

func TestAFilterThatNeedsMoreThanTheFallIsSaid(t *testing.T) {
	w, found := kit.Flows(nil, kit.Demands{
		Sheet: fall.Thin, Sill: unit.Centimetres(20), Filter: true, Volume: unit.Litres(10000), Turnover: unit.PerHour(0.5),
	})
	require.Len(t, found, 1)
	assert.Equal(t, "FALL_CARRIES_MORE", found[0].Code)
	assert.InDelta(t, 5000, w.Least.LitresPerHour(), 1e-9)
	assert.Greater(t, w.Most, w.Least)
}

func TestNothingAskedIsNothingWanted(t *testing.T) {
	w, found := kit.Flows(nil, kit.Demands{Stocking: filter.NoFish})
	assert.Empty(t, found)
	assert.Empty(t, w.Needs)
}

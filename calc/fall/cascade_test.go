package fall_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/fall"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

func stone(width float64) fall.Sill {
	return fall.Sill{Edge: fall.RoundStone, Width: unit.Centimetres(width), Breadth: unit.Millimetres(1)}
}

// Common practice arithmetic, no source: 8,237 L/h over lips of 40, 45 and 50 cm are 206, 183 and 165 L/h a centimetre
// and 22, 21 and 19 mm over a broad crest (1.705 H^1.5; a stone of 1 mm has next to no slow layer).
func TestCascadeAsWorkedByHand(t *testing.T) {
	steps := []fall.Step{
		{Sill: stone(40), Drop: unit.Metres(0.35)}, {Sill: stone(45), Drop: unit.Metres(0.30)}, {Sill: stone(50), Drop: unit.Metres(0.25)},
	}
	trail := new(working.Trail)
	landings, found, err := fall.Cascade(trail, unit.LitresPerHour(8237), steps)
	require.NoError(t, err)
	for i, want := range [][2]float64{{206, 22}, {183, 21}, {165, 19}} {
		assert.InDelta(t, want[0], landings[i].PerWidth.LitresPerHourPerCentimetre(), 0.5)
		assert.InDelta(t, want[1], landings[i].Head.Millimetres(), 0.5)
		assert.Less(t, landings[i].HeadLow, landings[i].Head)
		assert.Less(t, landings[i].Head, landings[i].HeadHigh)
	}
	assert.Equal(t, fall.Heavy, landings[0].Sheet)
	assert.Equal(t, fall.Full, landings[1].Sheet)
	require.Len(t, found, 3)
	for _, f := range found {
		assert.Equal(t, "SILL_OUTSIDE_STANDARD", f.Code)
	}
	require.NotEmpty(t, trail.Steps())
	for _, s := range trail.Steps() {
		assert.True(t, s.Replay())
	}
}

// Common practice, no source: heads of 5 to 40 mm over a broad crest are 22, 61, 113, 148, 174, 243, 319 and 491 L/h a
// centimetre, and 2.4 to 19.1 mm deep at the brink.
func TestFlowByDepthAsWorkedByHand(t *testing.T) {
	for head, want := range map[float64][2]float64{
		5: {22, 2.4}, 10: {61, 4.8}, 15: {113, 7.2}, 18: {148, 8.6}, 20: {174, 9.5}, 25: {243, 11.9}, 30: {319, 14.3}, 40: {491, 19.1},
	} {
		q := fall.BroadSill.Eval(fall.BroadSillInput{Coefficient: 1, Head: unit.Millimetres(head), Width: unit.Centimetres(1)})
		assert.InDelta(t, want[0], q.LitresPerHour(), 0.5, "%g mm", head)
		brink := fall.BrinkDepth.Eval(fall.BrinkInput{PerWidth: unit.LitresPerHourPerCentimetre(q.LitresPerHour())})
		assert.InDelta(t, want[1], brink.Millimetres(), 0.05+1e-9, "%g mm", head)
	}
}

func TestCascadeRemarks(t *testing.T) {
	codes := func(flow float64, s fall.Step) []string {
		_, found, err := fall.Cascade(nil, unit.LitresPerHour(flow), []fall.Step{s})
		require.NoError(t, err)
		var codes []string
		for _, f := range found {
			codes = append(codes, f.Code)
			assert.Equal(t, "step 1", f.Subject)
			assert.NotEmpty(t, f.Sentence+f.Change)
		}
		return codes
	}
	lip := fall.Sill{Edge: fall.ThinEdge, Width: unit.Centimetres(40), Crest: unit.Metres(0.2)}
	assert.Equal(t, []string{"SILL_OUTSIDE_STANDARD", "SHEET_CLINGS"}, codes(2000, fall.Step{Sill: lip, Drop: 0.3}))
	assert.Equal(t, []string{"SHEET_IS_A_WEIR"}, codes(20000, fall.Step{Sill: lip, Drop: 0.3}))
	assert.Equal(t, []string{"SILL_OUTSIDE_STANDARD", "SHEET_MISSES_POOL"}, codes(6000, fall.Step{Sill: lip, Drop: 1, Pool: 0.1}))
	// A thimbleful: the formula has no head for it, and none is shown.
	landings, _, err := fall.Cascade(nil, unit.LitresPerHour(20), []fall.Step{{Sill: lip, Drop: 0.3}})
	require.NoError(t, err)
	assert.Zero(t, landings[0].Head)
	assert.Contains(t, codes(20, fall.Step{Sill: lip, Drop: 0.3}), "SHEET_CLINGS")
}

func TestCascadeNamesEveryFault(t *testing.T) {
	_, _, err := fall.Cascade(nil, unit.Flow(math.NaN()), []fall.Step{
		{Sill: fall.Sill{Edge: fall.ThinEdge, Width: -1, Channel: -1}, Drop: -1, Pool: unit.Length(math.NaN())},
		{Sill: fall.Sill{Width: 1}},
		{Sill: fall.Sill{Edge: fall.SquareStone, Width: 1}},
	})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	var fields []string
	for _, e := range errs {
		fields = append(fields, e.Field)
	}
	assert.Equal(t, []string{
		"flow_l_per_h", "steps[0].width_m", "steps[0].crest_m", "steps[0].drop_m", "steps[0].pool_m", "steps[1].edge", "steps[2].breadth_m",
	}, fields)
	_, _, err = fall.Cascade(nil, 1, nil)
	require.Error(t, err)
	_, _, err = fall.Sill{}.Flow(nil, 0)
	require.Error(t, err)
	_, _, err = fall.Sill{}.Head(nil, 0)
	require.Error(t, err)
}

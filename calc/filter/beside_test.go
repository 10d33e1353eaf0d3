package filter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

func stated() filter.BesideInput {
	return filter.BesideInput{
		Flow: unit.LitresPerHour(20_000), MaxFlow: unit.LitresPerHour(20_000), CleanHead: 0.4, DueHead: 1, Label: unit.Litres(120_000),
		Pond: unit.Litres(30_000), Stocking: filter.KoiPond, Headroom: 0.2,
	}
}

// Half to once an hour is usual with koi, and a label suits a quarter of its litres (common practice): this filter, on
// 30 m³, is well inside all of them.
func TestBesideOfAnOrdinaryFilter(t *testing.T) {
	trail := new(working.Trail)
	b, err := filter.SetBeside(trail, stated())
	require.NoError(t, err)
	assert.Empty(t, b.Findings)
	assert.InDelta(t, 2.0/3, b.Turnover.PerHour(), 1e-12)
	assert.InDelta(t, 0.5, b.TurnoverLeast.PerHour(), 1e-12)
	assert.Equal(t, unit.Head(1), b.DueHead)
	require.Len(t, b.Label, 3)
	assert.True(t, b.Label[2].Carries)
	for _, step := range trail.Steps() {
		assert.True(t, step.Replay())
	}
}

func TestBesideVerdicts(t *testing.T) {
	for code, change := range map[string]func(*filter.BesideInput){
		"FLOW_ABOVE_FILTER":       func(in *filter.BesideInput) { in.MaxFlow = unit.LitresPerHour(19_000) },
		"DUE_HEAD_ASSUMED":        func(in *filter.BesideInput) { in.DueHead = 0 },
		"TURNOVER_BELOW_PRACTICE": func(in *filter.BesideInput) { in.Flow = unit.LitresPerHour(14_000) },
		"TURNOVER_ABOVE_PRACTICE": func(in *filter.BesideInput) { in.Flow, in.MaxFlow = unit.LitresPerHour(31_000), 0 },
		"LABEL_DISAGREES":         func(in *filter.BesideInput) { in.Headroom = -0.1 },
	} {
		in := stated()
		change(&in)
		b, err := filter.SetBeside(nil, in)
		require.NoError(t, err)
		assert.Equal(t, []string{code}, codes(b.Findings))
		assert.NotEmpty(t, b.Findings[0].Change)
	}
	in := stated()
	in.Label = unit.Litres(100_000)
	b, err := filter.SetBeside(nil, in) // the other way round: the label is too careful
	require.NoError(t, err)
	assert.Equal(t, []string{"LABEL_DISAGREES"}, codes(b.Findings))

	in = stated()
	in.DueHead = 0
	b, err = filter.SetBeside(nil, in)
	require.NoError(t, err)
	assert.InDelta(t, 3*0.4, b.DueHead.Metres(), 1e-12)
}

// What is not stated is not spoken of.
func TestBesideOfNothing(t *testing.T) {
	b, err := filter.SetBeside(nil, filter.BesideInput{Flow: 1})
	require.NoError(t, err)
	assert.Equal(t, filter.Beside{}, b)
	_, err = filter.SetBeside(nil, filter.BesideInput{Flow: -1, MaxFlow: -1, Label: -1, Pond: -1, CleanHead: -1, DueHead: -1})
	assert.Equal(t, []string{"flow_l_per_h", "max_flow_l_per_h", "label_pond_l", "pond_volume_l", "clean_loss", "due_loss"}, fields(t, err))
}

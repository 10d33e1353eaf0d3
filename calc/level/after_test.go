package level_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/level"
	"example.com/pondwright/calc/unit"
)

func TestRainSpillsFromBayToBay(t *testing.T) {
	bays := []level.Bay{
		{Name: "upper", Area: 5, Depth: 0.5, SpillsTo: 2, Catchment: 20, RunOff: 0.5},
		{Name: "lower", Area: 20, Depth: 1, Freeboard: 0.05},
	}
	levels, found, err := level.After(nil, bays, level.Rainfall(nil, bays, unit.Millimetres(10)))
	require.NoError(t, err)
	assert.InDelta(t, 150, levels[0].Spilt.Litres(), 1e-9) // 10 mm on 5 m² and half of 20
	assert.InDelta(t, 350, levels[1].Added.Litres(), 1e-9)
	assert.InDelta(t, 17.5, levels[1].Change.Millimetres(), 1e-9)
	assert.Empty(t, found)
}

func TestRemarksSayWhatGoesWrong(t *testing.T) {
	bays := []level.Bay{{Name: "pond", Area: 4, Depth: 0.5, Freeboard: 0.05, Intake: 0.3, Cover: 0.1}}
	for volume, want := range map[unit.Volume]string{
		unit.Litres(-700): "", unit.Litres(-900): "INTAKE_UNCOVERED", unit.Litres(-2100): "BAY_RUNS_DRY",
		unit.Litres(90): "", unit.Litres(110): "FREEBOARD_TIGHT", unit.Litres(210): "BAY_OVERFLOWS",
	} {
		_, found, err := level.After(nil, bays, level.Stop(1, volume))
		require.NoError(t, err)
		if want == "" {
			assert.Empty(t, found)
			continue
		}
		require.Len(t, found, 1, want)
		assert.Equal(t, want, found[0].Code)
		assert.Equal(t, "pond", found[0].Subject)
		assert.GreaterOrEqual(t, found[0].Severity, finding.Caution)
		assert.NotEmpty(t, found[0].Change)
	}
}

// Laws: no water is made or lost, and what goes in and comes out again leaves the level where it was.
func TestWaterIsKept(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		bays := quarry()
		e := level.Event{Name: "any"}
		var moved unit.Volume
		for range rapid.IntRange(1, 4).Draw(t, "moves") {
			m := level.Move{Bay: rapid.IntRange(1, 2).Draw(t, "bay"), Volume: unit.Litres(rapid.Float64Range(-2000, 3000).Draw(t, "litres"))}
			e.Moves = append(e.Moves, m)
			moved += m.Volume
		}
		levels, found, err := level.After(nil, bays, e)
		require.NoError(t, err)
		kept := levels[1].Spilt
		for i, l := range levels {
			kept += bays[i].Volume(l.Change) - bays[i].Volume(0)
		}
		for _, f := range found {
			if f.Code == "BAY_RUNS_DRY" {
				kept -= unit.Litres(f.Value.Number)
			}
		}
		assert.InDelta(t, moved.Litres(), kept.Litres(), 1e-6) // of some 20,000 L, eleven digits
	})
}

func TestAfterNamesEveryFault(t *testing.T) {
	fields := func(err error) []string {
		var errs input.Errors
		require.ErrorAs(t, err, &errs)
		var fields []string
		for _, e := range errs {
			fields = append(fields, e.Field)
			assert.NotEmpty(t, e.Change)
		}
		return fields
	}
	_, _, err := level.After(nil, []level.Bay{{Area: -1, Depth: 0.5, Freeboard: -1, Intake: 1, RunOff: 2, SpillsTo: 1}},
		level.Event{Moves: []level.Move{{Bay: 2}, {Bay: 1, Volume: unit.Volume(math.NaN())}}})
	assert.Equal(t, []string{
		"bays[0].upright.area_m2", "bays[0].freeboard_m", "bays[0].intake_m", "bays[0].run_off_percent", "bays[0].spills_to", "moves[0].bay", "moves[1].volume_l",
	}, fields(err))
	_, _, err = level.After(nil, nil, level.Start(1, 0))
	assert.Equal(t, []string{"bays", "moves[0].bay"}, fields(err))

	upsideDown := []level.Bay{{Area: 1, Depth: 1, Freeboard: 0.1, Volume: func(l unit.Length) unit.Volume { return unit.Volume(-l) }}}
	_, _, err = level.After(nil, upsideDown, level.Start(1, 0.1))
	assert.Equal(t, []string{"bays[0].volume"}, fields(err))
	_, _, err = level.HoseOff(nil, level.Bay{Area: 1, Depth: 1}, 0)
	assert.Equal(t, []string{"bays[0].intake_m", "flow_l_per_h"}, fields(err))
	_, _, err = level.After(nil, quarry(), level.Siphon(nil, quarry(), 3, 2, 0.1))
	assert.Equal(t, []string{"moves[0].bay"}, fields(err))
}

func BenchmarkAfter(b *testing.B) {
	bays := quarry()
	e := level.Stop(2, unit.Litres(233))
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := level.After(nil, bays, e); err != nil {
			b.Fatal(err)
		}
	}
}

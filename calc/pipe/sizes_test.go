package pipe_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

func TestEverySizeMakesARun(t *testing.T) {
	seen := map[string]bool{}
	for _, s := range pipe.Sizes() {
		assert.False(t, seen[s.ID], s.ID)
		seen[s.ID] = true
		assert.NotEmpty(t, s.Name)
		assert.NotEqual(t, source.Source{}, s.Source, s.ID)
		assert.NotEqual(t, source.Source{}, s.RoughnessSource, s.ID)
		for _, one := range []pipe.Size{s, s.Aged()} {
			run, err := pipe.NewRun(one.Spec(unit.Metres(10)))
			require.NoError(t, err, one.ID)
			w := water.At(nil, unit.Celsius(15))
			least, most := run.Edges()
			q := unit.LitresPerHour(4000)
			assert.Less(t, least.Loss(q, w), run.Loss(q, w), one.ID)
			assert.Less(t, run.Loss(q, w), most.Loss(q, w), one.ID)
			got, ok := pipe.SizeByID(one.ID)
			assert.True(t, ok)
			assert.Equal(t, one, got)
		}
	}
	_, ok := pipe.SizeByID("hose-26")
	assert.False(t, ok)
}

// Source: ASTM D1785 as reproduced in a table of schedule 40 pipe in inches: 0.622, 0.824, 1.049, 1.380, 1.610, 2.067,
// 3.068 and 4.026 in. The rows here come from a table in millimetres whose outside diameters are rounded to 0.01 mm, and
// so are its walls: 0.02 mm.
func TestSchedule40BoresInInches(t *testing.T) {
	for id, inches := range map[string]float64{
		"0.5": 0.622, "0.75": 0.824, "1": 1.049, "1.25": 1.380, "1.5": 1.610, "2": 2.067, "3": 3.068, "4": 4.026,
	} {
		s, ok := pipe.SizeByID("schedule-40-" + id + "in")
		require.True(t, ok, id)
		assert.InDelta(t, unit.Inches(inches).Millimetres(), s.Bore.Millimetres(), 0.02+0.0005*25.4, id)
	}
}

// Common practice arithmetic, no source: 7 m of 110 mm drain, bore 103.6 mm, with K 3.5 drops 8, 19, 29 and 49 mm at 5,000,
// 8,000, 10,000 and 13,000 L/h, and at 10,000 L/h the water moves at 0.33 m/s. Wall and temperature are not given; a slimed
// drain at 20 °C meets all four.
func TestDrainDropsAsWorkedByHand(t *testing.T) {
	s, ok := pipe.SizeByID("drain-110x3.2-aged")
	require.True(t, ok)
	assert.InDelta(t, 103.6, s.Bore.Millimetres(), 1e-9)
	spec := s.Spec(unit.Metres(7))
	spec.OtherK = 3.5
	run, err := pipe.NewRun(spec)
	require.NoError(t, err)
	w := water.At(nil, unit.Celsius(20))
	for flow, want := range map[float64]float64{5000: 8, 8000: 19, 10000: 29, 13000: 49} {
		assert.InDelta(t, want, run.Loss(unit.LitresPerHour(flow), w).Metres()*1000, 0.5, "%g L/h", flow)
	}
	assert.InDelta(t, 0.33, run.Velocity(unit.LitresPerHour(10000)).MetresPerSecond(), 0.005)
}

// Reference: fluids.fittings v_lift_valve for TP-410: 75/√ρ for an upright swing check and 45/√ρ for a hinged foot valve.
func TestSlowWaterLeavesACheckValvePartOpen(t *testing.T) {
	w := water.At(nil, unit.Celsius(15))
	run, err := pipe.NewRun(pipe.Spec{
		Length: 5, Bore: unit.Millimetres(40), Wall: pipe.Smooth,
		Fittings: []pipe.Fitted{{Kind: pipe.CheckValve, Count: 1}, {Kind: pipe.FootValve, Count: 1}, {Kind: pipe.Elbow90, Count: 1}},
	})
	require.NoError(t, err)
	at := func(v float64) []string {
		var codes []string
		for _, f := range run.Remarks(unit.Flow(v*0.04*0.04*0.785398), w) {
			codes = append(codes, f.Code+" "+f.Subject)
			assert.NotEmpty(t, f.Change)
			assert.GreaterOrEqual(t, f.Severity, finding.Note)
		}
		return codes
	}
	swing, foot := "CHECK_VALVE_PART_OPEN swing check valve", "CHECK_VALVE_PART_OPEN foot valve, hinged"
	assert.Equal(t, []string{swing, foot}, at(1.0))
	assert.Equal(t, []string{swing}, at(2.0))
	assert.Empty(t, at(2.5))
	assert.Contains(t, at(0.08), "BETWEEN_LAMINAR_AND_TURBULENT hose")
	assert.Empty(t, run.Remarks(0, w))
}

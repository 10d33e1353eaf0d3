package states_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/circuit/states"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

func hose(t require.TestingT, name string, length, bore float64) tree.Hose {
	run, err := pipe.NewRun(pipe.Spec{
		Length: unit.Metres(length), Bore: unit.Millimetres(bore), Wall: pipe.Smooth,
		Fittings: []pipe.Fitted{{Kind: pipe.Bend90, Count: 2}, {Kind: pipe.Exit, Count: 1}},
	})
	require.NoError(t, err)
	return tree.Hose{Name: name, Run: run}
}

func thePump(t require.TestingT, check bool) tree.Pump {
	curve, err := pump.NewCurve([]pump.Point{
		{Flow: 0, Head: 3.4}, {Flow: unit.LitresPerHour(4000), Head: 3.0}, {Flow: unit.LitresPerHour(8000), Head: 2.1},
		{Flow: unit.LitresPerHour(12000), Head: 0},
	}, unit.Watts(95))
	require.NoError(t, err)
	return tree.Pump{Name: "pump", Pump: pump.AsMeasured(curve), Check: check}
}

// pond is a garden pond of 20 m² with a deep intake and a skimmer, a filter, a fall and a return under water.
func pond(t require.TestingT) states.Description {
	return states.Description{
		Circuit: tree.Circuit{
			Intake: tree.Branch{Name: "suction", End: tree.Fork{
				{Name: "deep", Parts: []tree.Part{hose(t, "drain", 3, 60)}, End: tree.Surface{Mouth: 0.9}},
				{Name: "skimmer", Parts: []tree.Part{hose(t, "skimmer hose", 4, 40)}, End: tree.Surface{Mouth: 0.05}},
			}},
			Pump: []tree.Part{thePump(t, false)},
			Delivery: tree.Branch{
				Name: "delivery",
				Parts: []tree.Part{
					tree.Device{Name: "filter", At: unit.LitresPerHour(6000), Clean: 0.3, Due: 1.2}, hose(t, "common hose", 2, 40),
				},
				End: tree.Fork{
					{Name: "fall", Parts: []tree.Part{hose(t, "rising hose", 8, 40)}, End: tree.Outlet{Level: 1.1}},
					{Name: "return", Parts: []tree.Part{hose(t, "low hose", 5, 32)}, End: tree.Surface{Mouth: 0.2}},
				},
			},
		},
		Winter:   &states.Change{Intake: &tree.Branch{Name: "winter suction", Parts: []tree.Part{hose(t, "winter hose", 1, 40)}, End: tree.Surface{Mouth: 0.3}}},
		Flush:    &states.Change{Delivery: &tree.Branch{Name: "drain pipe", Parts: []tree.Part{hose(t, "to the drain", 12, 40)}, End: tree.Outlet{Level: 0.2}}},
		FlushFor: unit.Seconds(180),
		Pond:     states.Pond{Surface: unit.SquareMetres(20), Freeboard: unit.Millimetres(60)},
		Transit:  unit.Litres(80),
		Summer:   water.At(nil, 20), Cold: water.At(nil, 4),
	}
}

func codes(found []finding.Finding) []string {
	var all []string
	for _, f := range found {
		all = append(all, f.Code)
	}
	return all
}

// Arithmetic done by hand beside each check.
func TestAllStatesFromOneDescription(t *testing.T) {
	trail := new(working.Trail)
	s, err := states.All(trail, pond(t))
	require.NoError(t, err)
	for _, running := range []*states.Running{s.Clean, s.Due, s.Winter, &s.Flushing.Running} {
		require.NotNil(t, running.Solution)
		assert.Equal(t, unit.Watts(95), running.Power)
	}
	assert.Less(t, s.Due.Solution.Flow, s.Clean.Solution.Flow, "a filter due for cleaning takes more head")
	_, skimmed := s.Winter.Solution.Branch("skimmer")
	assert.False(t, skimmed, "in winter the pump draws elsewhere")

	// 3 minutes of what the pump gives, over 20 m²
	lost := 180 * s.Flushing.Solution.Flow.LitresPerSecond()
	assert.InEpsilon(t, lost, s.Flushing.Lost.Litres(), 1e-12)
	assert.InEpsilon(t, lost/20, s.Flushing.Drop.Millimetres(), 1e-12)

	// common hose π 0.04²/4 × 2 m and rising hose × 8 m come back; the return ends under the pond's own water
	hoses := math.Pi / 4 * 0.04 * 0.04 * 10 * 1000
	assert.InEpsilon(t, hoses, s.Stopped.Hoses.Litres(), 1e-12)
	assert.InEpsilon(t, (hoses+80)/20, s.Stopped.Rise.Millimetres(), 1e-12)
	assert.Zero(t, s.Stopped.Siphoned)

	// down to the deep intake: 0.9 m × 20 m²
	assert.InEpsilon(t, 18000, s.HoseOff.Lost.Litres(), 1e-12)
	assert.InEpsilon(t, 18000/s.HoseOff.Flow.LitresPerHour()*60, s.HoseOff.Time.Seconds()/60, 1e-12)
	assert.Contains(t, codes(s.HoseOff.Findings), "HOSE_OFF_EMPTIES")
	for _, step := range trail.Steps() {
		assert.True(t, step.Replay())
	}
}

func TestSiphonsAndEdges(t *testing.T) {
	d := pond(t)
	fork := d.Circuit.Delivery.End.(tree.Fork)
	upper := tree.Surface{Level: 1.1, Mouth: 0.15, Area: 2}
	fork[0].End = upper
	s, err := states.All(nil, d)
	require.NoError(t, err)
	assert.InEpsilon(t, 300, s.Stopped.Siphoned.Litres(), 1e-12, "0.15 m of 2 m²")
	assert.Contains(t, codes(s.Stopped.Findings), "SIPHON_EMPTIES_BASIN")

	upper.Vent = true
	fork[0].End = upper
	s, err = states.All(nil, d)
	require.NoError(t, err)
	assert.NotContains(t, codes(s.Stopped.Findings), "SIPHON_EMPTIES_BASIN", "air gets in")

	upper.Vent = false
	fork[0].End = upper
	d.Circuit.Pump = []tree.Part{thePump(t, true)}
	s, err = states.All(nil, d)
	require.NoError(t, err)
	assert.Zero(t, s.Stopped.Siphoned+s.Stopped.Hoses, "a check valve holds it")

	d = pond(t)
	d.Circuit.Delivery.Parts = append(d.Circuit.Delivery.Parts, tree.Check{Name: "check", Bore: unit.Millimetres(40), K: 2})
	s, err = states.All(nil, d)
	require.NoError(t, err)
	common := math.Pi / 4 * 0.04 * 0.04 * 2 * 1000
	assert.InEpsilon(t, common, s.Stopped.Hoses.Litres(), 1e-12, "only what lies before the check valve comes back")

	d = pond(t)
	d.Circuit.Delivery.End.(tree.Fork)[1].End = tree.Outlet{Level: -0.4}
	s, err = states.All(nil, d)
	require.NoError(t, err)
	assert.Contains(t, codes(s.Stopped.Findings), "SIPHON_EMPTIES_POND")

	d = pond(t)
	d.Pond.Freeboard = unit.Millimetres(4)
	s, err = states.All(nil, d)
	require.NoError(t, err)
	assert.Contains(t, codes(s.Stopped.Findings), "RISES_OVER_EDGE", "%.1f mm", s.Stopped.Rise.Millimetres())

	d = pond(t)
	d.Circuit.Intake = tree.Branch{Name: "suction", Parts: []tree.Part{hose(t, "drain", 3, 60)}, End: tree.Surface{}}
	s, err = states.All(nil, d)
	require.NoError(t, err)
	assert.Equal(t, []string{"INTAKE_DEPTH_NOT_GIVEN"}, codes(s.HoseOff.Findings))
	assert.Zero(t, s.HoseOff.Lost, "no number is made up")
}

func TestEveryFaultOfADescriptionIsNamed(t *testing.T) {
	d := pond(t)
	d.Pond.Surface = 0
	d.Cold = water.Properties{}
	d.Flush.Delivery = &tree.Branch{}
	_, err := states.All(nil, d)
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	var fields []string
	for _, e := range errs {
		fields = append(fields, e.Field)
	}
	assert.Equal(t, []string{"flush.delivery.name", "flush.delivery.end", "cold", "pond.surface_m2"}, fields)
}

func BenchmarkSixStates(b *testing.B) {
	d := pond(b)
	b.ReportAllocs()
	for b.Loop() {
		_, _ = states.All(nil, d)
	}
}

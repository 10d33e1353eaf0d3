package calibrate_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/circuit/calibrate"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// 10 L in 6 s are 6000 L/h; half a litre and 0.4 s unsure are 5 % and 6.7 %, together √(25 + 44.4) % = 8.33 %. Arithmetic.
func TestBucketAndStopwatch(t *testing.T) {
	m, err := calibrate.Bucket{Volume: unit.Litres(10), VolumeUnsure: unit.Litres(0.5), Time: 6, TimeUnsure: 0.4}.Flow(nil)
	require.NoError(t, err)
	assert.InDelta(t, 6000, m.Flow.LitresPerHour(), 1e-9)
	assert.InDelta(t, 500, m.Unsure.LitresPerHour(), 1e-9)
	_, err = calibrate.Bucket{Volume: unit.Litres(10), Time: 0, VolumeUnsure: unit.Litres(11)}.Flow(nil)
	assert.ErrorContains(t, err, "volume_unsure_l")
	assert.ErrorContains(t, err, "time_s")
}

// 20 mm over 3 m² in 36 s are 60 L, 6000 L/h. Arithmetic.
func TestLevelThatFalls(t *testing.T) {
	m, err := calibrate.Drop{Fall: unit.Millimetres(20), FallUnsure: unit.Millimetres(1), Area: 3, AreaUnsure: 0.12, Time: 36}.Flow(nil)
	require.NoError(t, err)
	assert.InDelta(t, 6000, m.Flow.LitresPerHour(), 1e-9)
	assert.InDelta(t, 6000*math.Hypot(0.05, 0.04), m.Unsure.LitresPerHour(), 1e-9)
}

// garden is a pump with a filter and one hose; extra is a resistance that nobody knows of, in m at 5000 L/h.
func garden(t *testing.T, extra float64) tree.Circuit {
	curve, err := pump.NewCurve([]pump.Point{
		{Flow: 0, Head: 4.4, Power: 60}, {Flow: unit.LitresPerHour(4000), Head: 4.0, Power: 90}, {Flow: unit.LitresPerHour(8000), Head: 2.9, Power: 115},
		{Flow: unit.LitresPerHour(12000), Head: 1.2, Power: 130}, {Flow: unit.LitresPerHour(14000), Head: 0, Power: 132},
	}, 0)
	require.NoError(t, err)
	run, err := pipe.NewRun(pipe.Spec{Length: 8, Bore: unit.Millimetres(50), Wall: pipe.Smooth, Fittings: []pipe.Fitted{{Kind: pipe.Bend90, Count: 3}}})
	require.NoError(t, err)
	parts := []tree.Part{tree.Device{Name: "filter", At: unit.LitresPerHour(5000), Clean: 0.2, Due: 1.0}, tree.Hose{Name: "hose", Run: run}}
	if extra > 0 {
		parts = append(parts, tree.Device{Name: "kink", At: unit.LitresPerHour(5000), Clean: unit.Head(extra)})
	}
	return tree.Circuit{
		Intake:   tree.Branch{Name: "intake", End: tree.Surface{}},
		Pump:     []tree.Part{tree.Pump{Name: "pump", Pump: pump.AsMeasured(curve)}},
		Delivery: tree.Branch{Name: "fall", Parts: parts, End: tree.Outlet{Level: 0.8}},
	}
}

// question is the circuit as described, with the flow of one that has a resistance in it that nobody described.
func question(t *testing.T, extra, sure float64) calibrate.Question {
	at := tree.Conditions{Water: water.At(nil, 15)}
	n, err := tree.New(garden(t, extra))
	require.NoError(t, err)
	s, _ := n.Solve(at)
	require.NotNil(t, s)
	return calibrate.Question{
		Circuit: garden(t, 0), At: at, Branch: "fall",
		Tolerance: pump.Tolerance{Flow: unit.Percent(1), Head: unit.Percent(1)},
		Sure:      tree.Sureness{Bores: map[string]tree.How{"hose": tree.Taped}, Devices: map[string]tree.How{"filter": tree.Taped}},
		Measured:  calibrate.Measured{Flow: s.Flow, Unsure: s.Flow * unit.Flow(sure)},
	}
}

// The extra head found is that of the hidden resistance at the flow measured, h (Q/5000 L/h)².
func TestExtraHeadIsThatOfTheHiddenResistance(t *testing.T) {
	for _, hidden := range []float64{0.3, 0.9, 3} {
		q := question(t, hidden, 0.01)
		fit, _, err := calibrate.Explain(nil, q)
		require.NoError(t, err)
		require.NotNil(t, fit)
		ratio := q.Measured.Flow.LitresPerHour() / 5000
		assert.InEpsilon(t, hidden*ratio*ratio, fit.Extra.Expected.Metres(), 1e-9)
		assert.InEpsilon(t, 0.8*ratio*ratio, fit.Due.Metres(), 1e-9, "due less clean")
		assert.Less(t, fit.Extra.Low, fit.Extra.Expected)
		assert.Greater(t, fit.Extra.High, fit.Extra.Expected)
	}
}

func TestWhatTheDifferenceMayComeFrom(t *testing.T) {
	for name, test := range map[string]struct {
		hidden, sure float64
		reading      float64 // by the power of the curve at the flow measured; 0 where not read
		more         float64 // measured more than there is
		want         string
	}{
		"nothing":                       {hidden: 0, sure: 0.02, want: "AS_CALCULATED"},
		"within what a bucket can tell": {hidden: 0.2, sure: 0.20, want: "AS_CALCULATED"},
		"filter":                        {hidden: 0.8, sure: 0.02, want: "FILTER_DUE"},
		"filter on its way":             {hidden: 0.5, sure: 0.02, want: "FILTER_FOULING"},
		"kink":                          {hidden: 4, sure: 0.02, want: "HOSE_BLOCKED_OR_KINKED"},
		"kink, power on the curve":      {hidden: 4, sure: 0.02, reading: 1, want: "HOSE_BLOCKED_OR_KINKED"},
		"worn":                          {hidden: 4, sure: 0.02, reading: 1.3, want: "PUMP_WORN"},
		"more than calculated":          {hidden: 0, sure: 0.01, more: 0.3, want: "FLOWS_MORE_THAN_CALCULATED"},
	} {
		t.Run(name, func(t *testing.T) {
			q := question(t, test.hidden, test.sure)
			q.Measured.Flow *= unit.Flow(1 + test.more)
			if test.reading > 0 {
				p := garden(t, 0).Pump[0].(tree.Pump).Pump
				power, ok := p.Power(q.Measured.Flow)
				require.True(t, ok)
				q.Reading = &calibrate.Reading{Power: power * unit.Power(test.reading), Unsure: 2}
			}
			_, found, err := calibrate.Explain(nil, q)
			require.NoError(t, err)
			require.NotEmpty(t, found)
			assert.Equal(t, test.want, found[0].Code, "%v", found[0].Sentence)
		})
	}
}

func TestMeasuredBeyondTheCurve(t *testing.T) {
	q := question(t, 0, 0.01)
	q.Measured.Flow = unit.LitresPerHour(15000)
	fit, found, err := calibrate.Explain(nil, q)
	require.NoError(t, err)
	assert.Nil(t, fit)
	require.Len(t, found, 1)
	assert.Equal(t, "BEYOND_CURVE", found[0].Code)
	q.Measured.Flow = 0
	_, _, err = calibrate.Explain(nil, q)
	assert.ErrorContains(t, err, "measured.flow_l_per_h")
}

package pump_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

func curve(heads ...float64) ([]pump.Point, *pump.Curve, error) {
	points := make([]pump.Point, len(heads))
	for i, h := range heads {
		points[i] = pump.Point{Flow: unit.LitresPerHour(1000 * float64(i)), Head: unit.Head(h)}
	}
	c, err := pump.NewCurve(points, 0)
	return points, c, err
}

func TestWhichCurvesDroop(t *testing.T) {
	for _, test := range []struct {
		heads  []float64
		droops bool
		fault  string
	}{
		{[]float64{7, 7.3, 7.2, 6.4, 4}, true, ""},
		{[]float64{7, 7.3, 7.3, 6.4, 4}, true, ""},
		{[]float64{7, 7, 6.4, 4, 1}, false, ""},
		{[]float64{7, 8.2, 6.4, 4, 1}, false, "curve[1].head_m: head rises from 7 to 8.2 m"}, // by more than 15 %
		{[]float64{7, 7.1, 7.2, 7.3, 4}, false, "curve[1].head_m"},                           // beyond the first half
		{[]float64{7, 6, 6.5, 4, 1}, false, "curve[2].head_m"},                               // after a fall
		{[]float64{7, 7.3, 6, 6.1, 1}, true, "curve[3].head_m"},
	} {
		_, c, err := curve(test.heads...)
		if test.fault != "" {
			assert.ErrorContains(t, err, test.fault)
			continue
		}
		require.NoError(t, err)
		assert.Equal(t, test.droops, c.Droops(), "%v", test.heads)
	}
}

func TestCrestAndShutOffScale(t *testing.T) {
	_, c, err := curve(7, 7.3, 7.2, 6.4, 4)
	require.NoError(t, err)
	p := pump.AsMeasured(c).AtSpeed(0.5)
	assert.InDelta(t, 500, p.Crest().LitresPerHour(), 1e-9)
	assert.InDelta(t, 7.3/4, p.Greatest().Metres(), 1e-12)
	still, ok := p.ShutOff()
	assert.True(t, ok)
	assert.InDelta(t, 7.0/4, still.Metres(), 1e-12)
	assert.Equal(t, unit.Ratio(0.5), p.Speed())
}

// Reference: the slopes that scipy 1.10.1's PchipInterpolator has at the points, ten digits printed.
func TestSlopeMeetsScipy(t *testing.T) {
	curves := referenceCurves(t)
	for _, row := range reftest.Table(t, "hydraulics/pump_curves.csv") {
		p := pump.AsMeasured(curves[row.Text("curve")])
		slope := p.Slope(unit.CubicMetresPerHour(row.Float("Q_m3_h"))) / 3600
		assert.InDelta(t, row.Float("dHdQ_m_per_m3_h"), slope, 1e-8, row.Text("curve"))
	}
}

// Source: ISO 9906:2012, table 8, from memory.
func TestGradesByName(t *testing.T) {
	for name, want := range map[string][2]float64{"1B": {5, 3}, "1E": {5, 3}, "2b": {8, 5}, "3B": {9, 7}, "usual": {10, 8}} {
		g, err := pump.GradeNamed(name)
		require.NoError(t, err)
		assert.InDelta(t, want[0], g.Tolerance.Flow.Percent(), 1e-12)
		assert.InDelta(t, want[1], g.Tolerance.Head.Percent(), 1e-12)
	}
	_, err := pump.GradeNamed("4C")
	assert.ErrorContains(t, err, "grade: there is no acceptance grade")
}

// Reference: python3-iapws 1.5.2 with the U.S. Standard Atmosphere 1976, ten digits printed. Vapour pressure here is that
// of IAPWS SR1-86, which differs from IF97 by up to 1e-4 of at most 0.44 m; the two standard atmospheres differ by 3e-6.
func TestSuctionHeadMeetsIAPWS(t *testing.T) {
	for _, row := range reftest.Table(t, "hydraulics/npsh_suction.csv") {
		w := water.At(nil, unit.Celsius(row.Float("T_C")))
		air := water.AltitudePressure.Eval(water.AltitudeInput{Altitude: unit.Metres(row.Float("altitude_m"))})
		got, _ := pump.Suction{Air: air}.Check(nil, "pump", 0, 0, w)
		assert.InDelta(t, row.Float("NPSHA_at_zero_lift_m"), got.Metres(), 1e-4, "%s m, %s °C", row.Text("altitude_m"), row.Text("T_C"))
		// the lift that leaves 3 m required, half a metre of friction and half a metre to spare
		lift := unit.Metres(row.Float("max_static_lift_example_m"))
		left, _ := pump.Suction{Air: air, Height: lift}.Check(nil, "pump", 0, unit.Head(-0.5), w)
		assert.InDelta(t, 3.5, left.Metres(), 1e-4)
	}
}

func TestSuctionFindings(t *testing.T) {
	required, err := pump.NewRequirement([]pump.RequiredPoint{{Flow: 0, NPSH: 2}, {Flow: unit.LitresPerHour(10000), NPSH: 5}})
	require.NoError(t, err)
	w := water.At(nil, 20)
	for code, s := range map[string]pump.Suction{
		"":                     {Height: 1, Required: required},
		"NPSH_NOT_KNOWN":       {Height: 1},
		"NPSH_MARGIN_THIN":     {Height: 6.35, Required: required}, // 10.11 m at no height less 6.35 m is 3.76 m; 3.5 m required
		"NPSH_TOO_SMALL":       {Height: 7, Required: required},
		"WATER_BOILS_AT_INLET": {Height: 11, Required: required},
		"HIGH_SUCTION_LIFT":    {Height: 3.5, Required: required},
	} {
		_, found := s.Check(nil, "pump", unit.LitresPerHour(5000), 0, w)
		if code == "" {
			assert.Empty(t, found)
			continue
		}
		require.NotEmpty(t, found, code)
		assert.Equal(t, code, found[len(found)-1].Code)
	}
	_, err = pump.NewRequirement([]pump.RequiredPoint{{Flow: 1, NPSH: 2}, {Flow: 1, NPSH: -5}})
	assert.ErrorContains(t, err, "required[1].flow_l_per_h")
	assert.ErrorContains(t, err, "required[1].npsh_m")
}

func TestSlowWetRotor(t *testing.T) {
	_, c, err := curve(3, 2, 0)
	require.NoError(t, err)
	slow := pump.AsMeasured(c).AtSpeed(0.55)
	assert.Len(t, slow.Remarks("pump", unit.LitresPerHour(500), true), 1)
	assert.Empty(t, slow.Remarks("pump", unit.LitresPerHour(500), false))
	assert.Empty(t, pump.AsMeasured(c).AtSpeed(0.7).Remarks("pump", unit.LitresPerHour(500), true))
}

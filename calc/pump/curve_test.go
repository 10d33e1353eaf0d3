package pump_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Reference: scipy 1.10.1 PchipInterpolator on the invented curves of the same table, ten digits printed.
func TestCurveMeetsScipy(t *testing.T) {
	curves := referenceCurves(t)
	for _, row := range reftest.Table(t, "hydraulics/pump_pchip_samples.csv") {
		h, ok := curves[row.Text("curve")].Head(unit.CubicMetresPerHour(row.Float("Q_m3_h")))
		assert.True(t, ok)
		assert.InDelta(t, row.Float("H_pchip_m"), h.Metres(), 1e-8, "%s at %s", row.Text("curve"), row.Text("Q_m3_h"))
	}
}

// Reference: affinity laws applied to the points, then scipy's PchipInterpolator; ten digits printed.
func TestSpeedFollowsTheAffinityLaws(t *testing.T) {
	curves := referenceCurves(t)
	for _, row := range reftest.Table(t, "hydraulics/pump_affinity.csv") {
		p := pump.AsMeasured(curves[row.Text("curve")]).AtSpeed(unit.Ratio(row.Float("speed_ratio")))
		h, ok := p.Head(unit.CubicMetresPerHour(row.Float("Q_m3_h")))
		assert.True(t, ok)
		assert.InDelta(t, row.Float("H_m"), h.Metres(), 1e-8)
	}
}

// Source: Flow of Fluids TP-410, example 7-33, as reworked in the documentation of the python fluids library: 400 US gpm,
// 126 ft and 17.5 hp at 3500 1/min become 194.3 gpm, 29.7 ft and 2.01 hp at 1700 1/min.
func ExamplePump_AtSpeed() {
	curve, _ := pump.NewCurve([]pump.Point{
		{Flow: unit.USGallonsPerMinute(0), Head: unit.Head(140), Power: unit.Watts(5)},
		{Flow: unit.USGallonsPerMinute(400), Head: unit.Head(126), Power: unit.Watts(17.5)},
	}, 0) // heads in feet and powers in horsepower: the laws hold in any unit
	slow := pump.AsMeasured(curve).AtSpeed(1700.0 / 3500)
	_, q := slow.Range()
	h, _ := slow.Head(q)
	p, _ := slow.Power(q)
	fmt.Printf("%.1f gpm, %.1f ft, %.2f hp\n", q.CubicMetresPerSecond()*60/3.785411784e-3, h.Metres(), p.Watts())
	// Output: 194.3 gpm, 29.7 ft, 2.01 hp
}

// Source: Flow of Fluids TP-410, example 7-15, as reworked in the documentation of the python fluids library: 100 US gpm
// against 421 ft at 70 % efficiency take 15.2 hp.
func ExampleHydraulicPower() {
	hydraulic := pump.HydraulicPower.Eval(pump.PowerInput{
		Density: 998.0, Flow: unit.USGallonsPerMinute(100), Head: unit.Head(421 * 0.3048),
	})
	fmt.Printf("%.1f hp\n", hydraulic.Watts()/0.70/745.6998715822702)
	// Output: 15.2 hp
}

func TestNewCurveNamesEveryFault(t *testing.T) {
	_, err := pump.NewCurve([]pump.Point{
		{Flow: 0, Head: 3, Power: 40},
		{Flow: unit.LitresPerHour(1000), Head: 2},
		{Flow: unit.LitresPerHour(900), Head: 2.5},
		{Flow: unit.Flow(math.NaN()), Head: -1},
	}, 0)
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	var fields []string
	for _, e := range errs {
		fields = append(fields, e.Field)
	}
	assert.Equal(t, []string{
		"curve[2].flow_l_per_h", "curve[2].head_m", "curve[3].flow_l_per_h", "curve[3].head_m", "curve",
	}, fields)
	_, err = pump.NewCurve(nil, 0)
	require.Error(t, err)
}

func TestNothingIsKnownBeyondTheCurve(t *testing.T) {
	c := referenceCurves(t)["P2"]
	_, last := c.Range()
	_, ok := c.Head(last * 1.0001)
	assert.False(t, ok)
	_, ok = c.Head(-1)
	assert.False(t, ok)
	_, ok = c.Head(unit.Flow(math.NaN()))
	assert.False(t, ok)
	_, ok = c.Power(last)
	assert.False(t, ok, "power that nobody measured is not known")
}

// Laws: head never rises with flow, stays between the points on either side, passes through the points, and at the edges of
// a tolerance lies below and above; the recorded step gives the head that the curve gives.
func TestCurveKeepsTheShapeOfItsPoints(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		points := drawPoints(t)
		c, err := pump.NewCurve(points, 0)
		require.NoError(t, err)
		for _, p := range points {
			h, ok := c.Head(p.Flow)
			assert.True(t, ok)
			assert.InDelta(t, p.Head.Metres(), h.Metres(), 1e-12*points[0].Head.Metres())
		}
		i := rapid.IntRange(1, len(points)-1).Draw(t, "segment")
		u := rapid.Float64Range(0, 1).Draw(t, "u")
		q := min(points[i-1].Flow+unit.Flow(u)*(points[i].Flow-points[i-1].Flow), points[i].Flow) // the sum may round beyond
		h, ok := c.Head(q)
		require.True(t, ok)
		slack := unit.Head(1e-12) * points[0].Head // the cubic's own rounding
		assert.LessOrEqual(t, h, points[i-1].Head+slack)
		assert.GreaterOrEqual(t, h, points[i].Head-slack)

		trail := new(working.Trail)
		pump.AsMeasured(c).Explain(trail, q)
		require.Len(t, trail.Steps(), 1)
		_, out := trail.Steps()[0].Values()
		assert.InDelta(t, h.Metres(), out[0].Number, 1e-11*points[0].Head.Metres())

		low := pump.Usual().Low(pump.AsMeasured(c))
		if weak, ok := low.Head(q); ok {
			assert.LessOrEqual(t, weak, h+slack)
		}
		strong, ok := pump.Usual().High(pump.AsMeasured(c)).Head(q)
		if ok {
			assert.GreaterOrEqual(t, strong, h-slack)
		}
	})
}

func TestRangeOfAScaledPumpIsKnownToItsEnds(t *testing.T) {
	c := referenceCurves(t)["P3"]
	rapid.Check(t, func(t *rapid.T) {
		p := pump.AsMeasured(c).AtSpeed(unit.Ratio(rapid.Float64Range(0.3, 1.7).Draw(t, "n")))
		first, last := p.Range()
		_, ok := p.Head(first)
		assert.True(t, ok)
		_, ok = p.Head(last)
		assert.True(t, ok)
	})
}

func drawPoints(t *rapid.T) []pump.Point {
	n := rapid.IntRange(2, 12).Draw(t, "n")
	points := make([]pump.Point, n)
	q := rapid.Float64Range(0, 1000).Draw(t, "first")
	h := rapid.Float64Range(1, 20).Draw(t, "shut-off")
	for i := range points {
		points[i] = pump.Point{Flow: unit.LitresPerHour(q), Head: unit.Head(h)}
		q += rapid.Float64Range(1, 5000).Draw(t, "step")
		h *= rapid.Float64Range(0.1, 1).Draw(t, "fall")
	}
	return points
}

func referenceCurves(t *testing.T) map[string]*pump.Curve {
	t.Helper()
	points := map[string][]pump.Point{}
	for _, row := range reftest.Table(t, "hydraulics/pump_curves.csv") {
		name := row.Text("curve")
		points[name] = append(points[name], pump.Point{
			Flow: unit.CubicMetresPerHour(row.Float("Q_m3_h")), Head: unit.Head(row.Float("H_m")),
		})
	}
	curves := map[string]*pump.Curve{}
	for name, p := range points {
		c, err := pump.NewCurve(p, 0)
		require.NoError(t, err, name)
		curves[name] = c
	}
	return curves
}

func BenchmarkHead(b *testing.B) {
	c, err := pump.NewCurve([]pump.Point{
		{Flow: 0, Head: 3}, {Flow: 3e-4, Head: 2.8}, {Flow: 6e-4, Head: 2.2}, {Flow: 9e-4, Head: 1.2}, {Flow: 1.2e-3},
	}, 0)
	require.NoError(b, err)
	b.ReportAllocs()
	for b.Loop() {
		c.Head(7e-4)
	}
}

package level_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/level"
	"example.com/pondwright/calc/stream"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// contours is the water under a level of a bay by the areas at depths: layers are frusta, across which the square root of
// the area goes straight.
func contours(pairs ...[2]float64) func(unit.Length) unit.Volume {
	frustum := func(a, b, h float64) float64 { return h / 3 * (a + b + math.Sqrt(a*b)) }
	return func(level unit.Length) unit.Volume {
		depth, volume := -level.Metres(), 0.0
		for i := len(pairs) - 1; i > 0; i-- {
			top, bottom := pairs[i-1], pairs[i]
			from := max(depth, top[0])
			if from >= bottom[0] {
				continue
			}
			if depth < top[0] || i == 1 && depth < 0 { // whole layer
				from = top[0]
			}
			w := (from - top[0]) / (bottom[0] - top[0])
			root := (1-w)*math.Sqrt(top[1]) + w*math.Sqrt(bottom[1])
			volume += frustum(root*root, bottom[1], bottom[0]-from)
		}
		if depth < 0 {
			volume += pairs[0][1] * -depth
		}
		return unit.CubicMetres(volume)
	}
}

// printedAreas is what a volume to a depth, in litres, may be off because the areas of quarry are printed to two decimals.
func printedAreas(depth float64) float64 { return 0.005 * depth * 1000 }

// quarry is the pond of two bays of the worked answers below.
func quarry() []level.Bay {
	return []level.Bay{
		{
			Name: "upper bay", Area: 5.55, Depth: 0.50, Freeboard: 0.06, SpillsTo: 2,
			Volume: contours([2]float64{0, 5.55}, [2]float64{0.20, 4.55}, [2]float64{0.50, 3.05}),
		},
		{
			Name: "lower bay", Area: 20.64, Depth: 1.20, Freeboard: 0.10, Intake: 1.10,
			Volume: contours([2]float64{0, 20.64}, [2]float64{0.25, 17.75}, [2]float64{0.50, 14.45}, [2]float64{0.90, 10.74}, [2]float64{1.20, 8.67}),
		},
	}
}

// Common practice arithmetic, no source: a pond of two bays holds 16,739 and 2,140 L. Its fall has a film of 22.5 mm over an
// upper bay of 5.55 m² (125 L), 80 mm on two pools of 0.9 by 0.6 m (86 L) and 11 m of 50 mm hose (22 L) on the way: 233 L,
// 11.3 mm of the lower bay, down on start and up on stop. The areas are those at the usual level, as the sum was worked.
func TestStartAndStopAsWorkedByHand(t *testing.T) {
	bays := quarry()
	assert.InDelta(t, 2140, bays[0].Slice(nil, 0.50).Litres(), 0.5+printedAreas(0.50))
	assert.InDelta(t, 16739, bays[1].Slice(nil, 1.20).Litres(), 0.5+printedAreas(1.20))

	trail := new(working.Trail)
	films := level.Layer.Run(trail, level.LayerInput{Area: 5.55, Height: unit.Millimetres(22.5)})
	pools := level.Layer.Run(trail, level.LayerInput{Area: 2 * 0.9 * 0.6, Height: unit.Millimetres(80)})
	hose := level.HoseContent.Run(trail, level.HoseInput{Bore: unit.Millimetres(50), Length: 11})
	assert.InDelta(t, 125, films.Litres(), 0.5)
	assert.InDelta(t, 86, pools.Litres(), 0.5)
	assert.InDelta(t, 22, hose.Litres(), 0.5)
	moving := level.InTransit.Run(trail, level.InTransitInput{Films: films, Pools: pools, Hoses: hose})
	assert.InDelta(t, 233, moving.Litres(), 0.5)

	bays[1].Volume = nil
	started, found, err := level.After(trail, bays, level.Start(2, moving))
	require.NoError(t, err)
	assert.Empty(t, found)
	assert.InDelta(t, -11.3, started[1].Change.Millimetres(), 0.05)
	assert.Zero(t, started[0].Change)
	stopped, _, err := level.After(trail, bays, level.Stop(2, moving))
	require.NoError(t, err)
	assert.InDelta(t, 11.3, stopped[1].Change.Millimetres(), 0.05)
	for _, s := range trail.Steps() {
		assert.True(t, s.Replay())
	}
}

// Common practice arithmetic, no source: a hose that ends 150 mm under the upper level siphons 774 L back, 37.5 mm of the
// lower bay, on top of the 11 mm that come down anyway.
func TestSiphonAsWorkedByHand(t *testing.T) {
	bays := quarry()
	bays[1].Volume, bays[1].Freeboard = nil, unit.Millimetres(45)
	siphon := level.Siphon(nil, bays, 1, 2, unit.Millimetres(150))
	levels, found, err := level.After(nil, bays, siphon)
	require.NoError(t, err)
	assert.InDelta(t, 774, levels[1].Added.Litres(), 0.5+printedAreas(0.15))
	assert.InDelta(t, 37.5, levels[1].Change.Millimetres(), 0.05)
	assert.InDelta(t, -150, levels[0].Change.Millimetres(), 1e-6)
	require.Len(t, found, 1)
	assert.Equal(t, "FREEBOARD_TIGHT", found[0].Code)

	// Together with the water that comes down, 45 mm of freeboard are not enough; over 50 mm are.
	both := level.Together(level.Stop(2, unit.Litres(233)), siphon)
	assert.Equal(t, "fall stops and siphon", both.Name)
	levels, found, err = level.After(nil, bays, both)
	require.NoError(t, err)
	require.Len(t, found, 1)
	assert.Equal(t, "BAY_OVERFLOWS", found[0].Code)
	assert.InDelta(t, 233+774-45*20.64, levels[1].Spilt.Litres(), 1)
}

// Common practice arithmetic, no source: the hose comes off with the pump's intake at 1.1, 0.7 and 0.3 m. 15,840, 11,500 and
// 5,670 L go and 900, 5,230 and 11,070 L stay, each printed to ten litres or, the second, to a hundred; in 1.7, 1.2 and 0.6
// h, which is some 9,300 L/h.
func TestHoseOffAsWorkedByHand(t *testing.T) {
	for _, c := range []struct{ intake, lost, unitOfLost, left, hours float64 }{
		{1.1, 15840, 10, 900, 1.7}, {0.7, 11500, 100, 5230, 1.2}, {0.3, 5670, 10, 11070, 0.6},
	} {
		bay := quarry()[1]
		bay.Intake = unit.Metres(c.intake)
		got, found, err := level.HoseOff(nil, bay, unit.LitresPerHour(9300))
		require.NoError(t, err)
		assert.InDelta(t, c.lost, got.Lost.Litres(), c.unitOfLost/2+printedAreas(c.intake), "%g m", c.intake)
		assert.InDelta(t, c.left, got.Left.Litres(), 5+printedAreas(1.2-c.intake), "%g m", c.intake)
		assert.InDelta(t, c.hours, got.Time.Hours(), 0.05, "%g m", c.intake)
		require.Len(t, found, 1)
		assert.Equal(t, "LEAST_WATER_LEFT", found[0].Code)
		bay.Cover = bay.Intake / 2
		covered, _, err := level.HoseOff(nil, bay, unit.LitresPerHour(9300))
		require.NoError(t, err)
		assert.Greater(t, covered.Left, got.Left)
	}
}

// Common practice arithmetic, no source: 450 L flushed from 18 m² are 25 mm.
func TestFlushAsWorkedByHand(t *testing.T) {
	bays := []level.Bay{{Name: "pond", Area: 18, Depth: 1.6, Freeboard: 0.1}}
	levels, found, err := level.After(nil, bays, level.Flush(1, unit.Litres(450)))
	require.NoError(t, err)
	assert.Empty(t, found)
	assert.InDelta(t, -25, levels[0].Change.Millimetres(), 1e-9)
	leaked, _, err := level.After(nil, bays, level.Leak(nil, 1, unit.LitresPerHour(45), unit.Hours(10)))
	require.NoError(t, err)
	assert.InDelta(t, levels[0].Change.Metres(), leaked[0].Change.Metres(), 1e-15)
}

// Reference: normal depth by scipy on python3-fluids' V_Manning, then sums, ten digits printed.
func TestInTransitMeetsTheTable(t *testing.T) {
	for _, row := range reftest.Table(t, "hydraulics/in_transit_water.csv") {
		n := unit.ManningCoefficient(row.Float("n"))
		reach := stream.Reach{
			Length: unit.Metres(row.Float("stream_L_m")), Bed: unit.Metres(row.Float("b_m")), Side: unit.Ratio(row.Float("z")),
			Slope: unit.Ratio(row.Float("slope")), N: stream.Coefficients{Low: n, Usual: n, High: n},
		}
		run, _, err := reach.Run(nil, unit.CubicMetresPerHour(row.Float("Q_m3_h")))
		require.NoError(t, err)
		moving := level.InTransitInput{
			Stream: run.Held.Usual,
			Films:  level.Layer.Eval(level.LayerInput{Area: unit.SquareMetres(row.Float("basin_area_m2")), Height: unit.Millimetres(row.Float("weir_head_mm"))}),
			Hoses:  level.HoseContent.Eval(level.HoseInput{Bore: unit.Millimetres(row.Float("pipe_D_mm")), Length: unit.Metres(row.Float("pipe_L_m"))}),
		}
		assert.InEpsilon(t, row.Float("V_stream_L"), moving.Stream.Litres(), 1e-9)
		assert.InEpsilon(t, row.Float("V_basin_L"), moving.Films.Litres(), 1e-9)
		assert.InEpsilon(t, row.Float("V_pipe_L"), moving.Hoses.Litres(), 1e-9)
		assert.InEpsilon(t, row.Float("V_total_L"), level.InTransit.Eval(moving).Litres(), 1e-9)
	}
}

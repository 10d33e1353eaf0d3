package drawdown

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

func drop(days, fall float64, on bool, how How) Drop {
	return Drop{
		Time: unit.Days(days), Fall: unit.Millimetres(fall), Reading: unit.Millimetres(0.5), FallsOn: on, How: how,
		Penman: unit.MillimetresPerDay(5), Shallow: unit.MillimetresPerDay(3.7), Bucket: unit.Millimetres(5 * days),
	}
}

func litres(q unit.Flow) float64 { return q.LitresPerDay() }

// By hand: 10 m² lose 30 mm in three days, of which 15 evaporate: 50 L a day are left. The roads 5.0 and 3.7 mm lie 1.3 apart,
// 0.1501 of Penman by an even band, with 15 % of the garden 0.2122; own 15 % over three days 0.0866; together 0.2292 of 50 L a
// day, 11.46, and readings of 0.5 mm on 10 m², 7.07 L in three days, 2.36 a day: 11.70 in all.
func TestOneDropByHand(t *testing.T) {
	var trail working.Trail
	a, err := Explain(&trail, Input{Surface: 10, Drops: []Drop{drop(3, 30, false, ByWeather)}})
	require.NoError(t, err)
	assert.InDelta(t, 50, litres(a.Leak.Expected), 1e-9)
	assert.InDelta(t, 11.70, (litres(a.Leak.High)-50)/2, 0.01)
	assert.InDelta(t, 11.70, litres(a.Smallest)/2, 0.01)
	assert.Equal(t, PondLeaks, a.Verdict)
	assert.Nil(t, a.Stream)
	assert.Nil(t, a.Together)
	one := a.Drops[0]
	assert.InDelta(t, 15, one.Evaporated.Millimetres(), 1e-9)
	assert.InDelta(t, 0.2292*15, one.Width.Millimetres(), 0.001)
	assert.InDelta(t, litres(a.Leak.Low), litres(one.Rest.Low), 1e-9)
	for _, step := range trail.Steps() {
		assert.True(t, step.Replay())
	}
	assert.Len(t, trail.Steps(), 5)
	assert.InDelta(t, 0.2122, Roads.Eval(RoadsInput{Penman: 5, Shallow: 3.7}).Float(), 0.00005)
	assert.Equal(t, WeatherShare, Roads.Eval(RoadsInput{Penman: -1, Shallow: 1}))
}

// By numpy (least squares with the common errors as extra unknowns).
func TestFitAgainstNumpy(t *testing.T) {
	rows := []row{
		{days: 2, rest: 0.11, evaporated: 0.10, common: 0.21, chance: 0.009, on: true},
		{days: 3, rest: 0.08, evaporated: 0.15, common: 0.21, chance: 0.010},
		{days: 1, rest: 0.02, evaporated: 0.06, common: 0.10, chance: 0.012, bucket: true},
		{days: 4, rest: 0.25, evaporated: 0.22, common: 0.20, chance: 0.015, on: true},
	}
	var table [][]float64
	number := map[bool]float64{true: 1}
	for _, r := range rows {
		table = append(table, []float64{r.days, r.rest, r.evaporated, r.common, r.chance, number[r.bucket], number[r.on]})
	}
	in, err := json.Marshal(table)
	require.NoError(t, err)
	var want [4]float64
	require.NoError(t, json.Unmarshal(reftest.Python(t, "drawdown.py", in), &want))
	got := together(rows, true)
	const day = 86400
	for i, v := range []float64{got.leak, got.leakWidth, got.stream, got.streamWidth} {
		assert.InEpsilon(t, want[i], v*day, 1e-9)
	}
}

// What was put in is found again: a pond with a leak and a stream that loses, without errors of reading.
func TestLeakAndStreamAreFoundAgain(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		area, stone := rapid.Float64Range(2, 100).Draw(t, "area"), rapid.Float64Range(0, 5).Draw(t, "stone")
		leak, stream := rapid.Float64Range(0, 300).Draw(t, "leak"), rapid.Float64Range(0, 300).Draw(t, "stream")
		in := Input{Surface: unit.SquareMetres(area), WetStone: unit.SquareMetres(stone)}
		for i := range rapid.IntRange(2, 6).Draw(t, "drops") {
			on := i%2 == 0
			days := float64(rapid.IntRange(1, 10).Draw(t, "days"))
			d := drop(days, 0, on, How(1+i%3))
			d.Rain, d.Filled = unit.Millimetres(rapid.Float64Range(0, 5).Draw(t, "rain")), unit.Litres(rapid.Float64Range(0, 50).Draw(t, "filled"))
			d.Bucket -= d.Rain
			gone := 5*days*area + leak*days
			if on {
				gone += 5*days*stone + stream*days
			}
			d.Fall = unit.Millimetres((gone-d.Filled.Litres())/area) - d.Rain
			in.Drops = append(in.Drops, d)
		}
		if in.Check() != nil {
			return // falls of more than two metres
		}
		a, err := Explain(nil, in)
		require.NoError(t, err)
		assert.InDelta(t, leak, litres(a.Leak.Expected), 1e-6*(1+gonePerDay(in)))
		assert.InDelta(t, stream, litres(a.Stream.Expected), 1e-6*(1+gonePerDay(in)))
		assert.LessOrEqual(t, a.Leak.Low, a.Leak.Expected)
		assert.Nil(t, a.Together)
	})
}

func gonePerDay(in Input) float64 { return 5*in.Surface.SquareMetres() + 600 }

// Ten readings of one kind narrow chance, but never what they have in common; a bucket does.
func TestMoreReadingsDoNotNarrowWhatTheyShare(t *testing.T) {
	width := func(n int, how How) float64 {
		in := Input{Surface: 10}
		for range n {
			in.Drops = append(in.Drops, drop(1, 5, false, how))
		}
		a, err := Explain(nil, in)
		require.NoError(t, err)
		return litres(a.Smallest)
	}
	shared := coverage * Roads.Eval(RoadsInput{Penman: 5, Shallow: 3.7}).Float() * 50
	assert.Less(t, width(10, ByWeather), width(1, ByWeather))
	assert.Greater(t, width(100, ByWeather), shared)
	assert.InEpsilon(t, shared, width(100, ByWeather), 0.05)
	assert.Less(t, width(4, ByBucket), width(100, ByWeather))
	assert.Less(t, width(1, ByWeather), width(1, ByClimate))
}

func TestVerdicts(t *testing.T) {
	verdict := func(drops ...Drop) Answer {
		a, err := Explain(nil, Input{Surface: 10, Drops: drops})
		require.NoError(t, err)
		assert.NotEmpty(t, a.Summary)
		assert.NotEmpty(t, a.Findings)
		return a
	}
	assert.Equal(t, SunAlone, verdict(drop(3, 15, false, ByBucket)).Verdict)
	assert.Equal(t, PondLeaks, verdict(drop(3, 40, false, ByBucket), drop(3, 40, true, ByBucket)).Verdict)
	assert.Equal(t, StreamLoses, verdict(drop(3, 15, false, ByBucket), drop(3, 60, true, ByBucket)).Verdict)
	assert.Equal(t, PondAndStreamLose, verdict(drop(3, 40, false, ByBucket), drop(3, 80, true, ByBucket)).Verdict)
	assert.Equal(t, DoesNotAddUp, verdict(drop(3, -20, false, ByBucket)).Verdict)
	coarse := drop(1, 6, false, ByClimate)
	coarse.Reading = unit.Millimetres(5)
	assert.Equal(t, CannotTell, verdict(coarse).Verdict)
	on := verdict(drop(3, 60, true, ByBucket))
	assert.Equal(t, PondAndStreamLose, on.Verdict)
	assert.NotNil(t, on.Together)
	assert.Nil(t, on.Leak)
	var codes []string
	for _, f := range verdict(drop(1.5, 30, true, ByWeather)).Findings {
		codes = append(codes, f.Code)
	}
	assert.Subset(t, codes, []string{"PART_OF_A_DAY", "NO_BUCKET", "FALLS_NEVER_OFF"})
}

func TestExplainNamesEveryProblem(t *testing.T) {
	bad := drop(0, math.NaN(), false, ByBucket)
	bad.Reading, bad.Rain, bad.Filled, bad.Bucket = 0, -1, -1, 2
	_, err := Explain(nil, Input{Drops: []Drop{bad}})
	for _, field := range []string{"surface_m2", "hours", "drop_mm", "reading_uncertainty_mm", "rain_mm", "filled_l", "bucket_drop_mm"} {
		assert.ErrorContains(t, err, field)
	}
	_, err = Explain(nil, Input{Surface: 5})
	assert.ErrorContains(t, err, "drops")
}

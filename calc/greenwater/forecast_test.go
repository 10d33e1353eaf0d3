package greenwater_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/greenwater"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// The pond of case P01 of practice_check.csv: 4.878653197 mJ/cm² a pass, 12 passes a day.
func pond() greenwater.ForecastInput {
	return greenwater.ForecastInput{
		MeanDose: unit.MillijoulesPerSquareCentimetre(4.878653197), PeakVelocity: 1.51, Flow: unit.CubicMetresPerHour(5),
		HoursPerDay: unit.Hours(24), Volume: unit.CubicMetres(10), Temperature: 20, FullSun: true, Ratio: 10,
	}
}

// By hand, with the Eppley envelope of 2.09327102 a day at 20 °C, and the doses for one in ten that follow from Sakai et
// al. 2007: 600 mJ/cm² took 1.5 powers of ten of Microcystis, hence 400, and 2.3 of Anabaena, hence 260.87.
func TestForecastByHand(t *testing.T) {
	f, err := greenwater.ForecastClearing(nil, pond())
	require.NoError(t, err)
	assert.InDelta(t, 58.54383836, f.Daily.MillijoulesPerSquareCentimetre(), 1e-7)
	assert.InDelta(t, 58.54383836/37, f.OverStop.Float(), 1e-9)
	assert.InDelta(t, 58.54383836/20, f.OverLowest.Float(), 1e-9)

	const top, dose = 2.09327102, 4.878653197
	hopeful := 12 * (1 - math.Pow(10, -dose*2.3/600))
	assert.InDelta(t, hopeful, f.Hopeful.Removal.PerDay(), 1e-9)
	assert.InDelta(t, math.Ln10/(hopeful+0.20-0.20*top), f.Hopeful.Clearing.Time.Days(), 1e-6)

	expected := 12 * (1 - math.Pow(1+math.Ln10*dose/(2*400), -2))
	assert.InDelta(t, expected, f.Expected.Removal.PerDay(), 1e-9)
	assert.False(t, f.Expected.Clearing.Clears)

	careful := 12 * (1 - math.Pow(10, -dose/1.51/400))
	assert.InDelta(t, careful, f.Careful.Removal.PerDay(), 1e-9)
	assert.InDelta(t, 0.30*top, f.Careful.Growth.PerDay(), 1e-8)
	assert.False(t, f.Careful.Clearing.Clears)

	assert.Equal(t, greenwater.Possible, f.Verdict)
	assert.Equal(t, "GREEN_WATER_MAY_CLEAR", f.Findings[0].Code)
	assert.Contains(t, f.Findings[0].Sentence, "read hopefully and not at all read carefully")
}

func TestForecastVerdicts(t *testing.T) {
	strong := pond()
	strong.MeanDose *= 6
	f, err := greenwater.ForecastClearing(nil, strong)
	require.NoError(t, err)
	assert.Equal(t, greenwater.Likely, f.Verdict)
	assert.Equal(t, "GREEN_WATER_LIKELY_CLEARS", f.Findings[0].Code)

	weak := pond()
	weak.MeanDose /= 20
	f, err = greenwater.ForecastClearing(nil, weak)
	require.NoError(t, err)
	assert.Equal(t, greenwater.Unlikely, f.Verdict)
	assert.Equal(t, "GREEN_WATER_UNLIKELY_TO_CLEAR", f.Findings[0].Code)
}

func TestForecastProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := pond()
		in.MeanDose = unit.MillijoulesPerSquareCentimetre(rapid.Float64Range(0.1, 100).Draw(t, "D"))
		in.Flow = unit.CubicMetresPerHour(rapid.Float64Range(0.2, 20).Draw(t, "Q"))
		in.HoursPerDay = unit.Hours(rapid.Float64Range(1, 24).Draw(t, "h"))
		in.Temperature = unit.Celsius(rapid.Float64Range(2, 30).Draw(t, "T"))
		in.FullSun = rapid.Bool().Draw(t, "sun")
		f, err := greenwater.ForecastClearing(nil, in)
		require.NoError(t, err)

		assert.LessOrEqual(t, float64(f.Careful.Pass), float64(f.Expected.Pass))
		assert.LessOrEqual(t, float64(f.Expected.Pass), float64(f.Hopeful.Pass))
		if f.Careful.Clearing.Clears {
			require.True(t, f.Hopeful.Clearing.Clears)
			assert.LessOrEqual(t, float64(f.Hopeful.Clearing.Time), float64(f.Careful.Clearing.Time))
		}

		brighter := in
		brighter.MeanDose *= 1.5
		g, err := greenwater.ForecastClearing(nil, brighter)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, g.Verdict, f.Verdict, "more light is not worse")

		atLeast(t, in, f.Expected)
	})
}

// atLeast puts the least lamp and the least flow back into the question: growth and removal must then balance.
func atLeast(t *rapid.T, in greenwater.ForecastInput, c greenwater.Case) {
	balanced := func(in greenwater.ForecastInput) {
		f, err := greenwater.ForecastClearing(nil, in)
		require.NoError(t, err)
		assert.InEpsilon(t, float64(f.Expected.Growth), float64(f.Expected.Removal+f.Expected.Loss), 1e-9)
	}
	if c.LeastLamp != nil && *c.LeastLamp > 0 {
		dimmer := in
		dimmer.MeanDose *= unit.Fluence(*c.LeastLamp)
		balanced(dimmer)
	}
	if c.LeastFlow != nil && *c.LeastFlow > 0 && c.LeastFlow.LitresPerHour() < 1e6 {
		other := in
		other.Flow = *c.LeastFlow
		other.MeanDose *= unit.Fluence(in.Flow / *c.LeastFlow)
		balanced(other)
	}
}

// At 2 °C in shade growth is below natural loss: no lamp is needed. A lamp far too weak cannot be helped by flow.
func TestLeastLampAtTheEdges(t *testing.T) {
	cold := pond()
	cold.Temperature, cold.FullSun = 2, false
	f, err := greenwater.ForecastClearing(nil, cold)
	require.NoError(t, err)
	require.NotNil(t, f.Hopeful.LeastLamp)
	assert.Zero(t, *f.Hopeful.LeastLamp)

	weak := pond()
	weak.MeanDose /= 100
	f, err = greenwater.ForecastClearing(nil, weak)
	require.NoError(t, err)
	assert.Nil(t, f.Careful.LeastFlow)
	require.NotNil(t, f.Careful.LeastLamp)
	assert.Greater(t, f.Careful.LeastLamp.Float(), 100.0)
}

func TestForecastRefusesNonsenseWhole(t *testing.T) {
	_, err := greenwater.ForecastClearing(nil, greenwater.ForecastInput{Temperature: unit.Celsius(math.NaN()), Ratio: 1})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 7)
}

func TestForecastShowsItsWorkings(t *testing.T) {
	trail := new(working.Trail)
	_, err := greenwater.ForecastClearing(trail, pond())
	require.NoError(t, err)
	require.Len(t, trail.Steps(), 3+3*7)
	for _, s := range trail.Steps() {
		assert.True(t, s.Replay(), s.Entry.Describe().ID)
		assert.Empty(t, s.Outside(), s.Entry.Describe().ID)
	}
}

func BenchmarkForecast(b *testing.B) {
	in := pond()
	b.ReportAllocs()
	for b.Loop() {
		_, _ = greenwater.ForecastClearing(nil, in)
	}
}

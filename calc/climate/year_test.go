package climate_test

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
)

var lengths = [12]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}

// Each month keeps its mean, whatever the months are: sums of 31 numbers round in their last bits.
func TestSmoothKeepsEveryMonth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var means [12]float64
		for i := range means {
			means[i] = rapid.Float64Range(0, 40).Draw(t, "mean")
		}
		days := climate.Smooth(means, 0)
		first := 0
		for i, length := range lengths {
			sum := 0.0
			for _, d := range days[first : first+length] {
				assert.GreaterOrEqual(t, d, 0.0)
				sum += d
			}
			first += length
			assert.InDelta(t, means[i], sum/float64(length), 1e-11)
		}
	})
}

// A year that does not change has days that do not, and a year like a wave comes out as one: daily means of a cosine from its
// own monthly means are met to a hundredth of its height, which is what twelve means can tell of it.
func TestSmoothFollowsAWave(t *testing.T) {
	var flat, wave [12]float64
	sum := func(d float64) float64 { return -365 / (2 * math.Pi) * math.Sin(2*math.Pi*d/365) * 10 }
	first := 0.0
	for i, length := range lengths {
		flat[i] = 7
		wave[i] = (sum(first+float64(length)) - sum(first)) / float64(length)
		first += float64(length)
	}
	for _, d := range climate.Smooth(flat, 0) {
		assert.InDelta(t, 7, d, 1e-12)
	}
	for d, got := range climate.Smooth(wave, -100) {
		assert.InDelta(t, sum(float64(d+1))-sum(float64(d)), got, 0.1)
	}
}

// The same spline by scipy (CubicSpline, periodic, through the sums of the months less the mean).
func TestSmoothAgainstScipy(t *testing.T) {
	means := [12]float64{5.5, 6, 8, 10.5, 13.5, 16.5, 19, 18.5, 15.5, 12.5, 8.5, 6}
	in, err := json.Marshal(means)
	require.NoError(t, err)
	var want []float64
	require.NoError(t, json.Unmarshal(reftest.Python(t, "climate.py", in), &want))
	require.Len(t, want, climate.YearDays)
	for d, got := range climate.Smooth(means, -100) {
		assert.InDelta(t, want[d], got, 1e-9, "day %d", d)
	}
}

func months() climate.Months {
	var m climate.Months
	for i := range m {
		w := math.Cos(2 * math.Pi * float64(i-6) / 12)
		m[i] = climate.Month{
			Least: unit.Celsius(7 + 7*w), Most: unit.Celsius(14 + 9*w), Vapour: unit.Kilopascals(1.0 + 0.4*w), Wind: 2,
			Sunshine: unit.Hours(4 + 3*w), Rain: unit.Millimetres(50 + float64(i)),
		}
	}
	return m
}

// Nothing is lost between months and days.
func TestDaysKeepTheMonths(t *testing.T) {
	m := months()
	for falls := range 4 {
		if falls > 0 {
			for i := range m {
				m[i].RainDays = new(9 * falls)
			}
		}
		require.NoError(t, m.Check())
		var rain, sunshine, vapour [12]float64
		wet := 0
		for d, day := range m.Days() {
			require.NoError(t, day.Check())
			assert.Equal(t, d+1, day.Date)
			i := climate.MonthOf(day.Date)
			rain[i] += day.Rain.Millimetres()
			sunshine[i] += day.Sunshine.Hours() / float64(lengths[i])
			vapour[i] += day.Vapour.Kilopascals() / float64(lengths[i])
			if day.Rain > 0 {
				wet++
			}
		}
		for i := range m {
			assert.InDelta(t, m[i].Rain.Millimetres(), rain[i], 1e-11)
			assert.InDelta(t, m[i].Sunshine.Hours(), sunshine[i], 1e-11)
			assert.InDelta(t, m[i].Vapour.Kilopascals(), vapour[i], 1e-11)
		}
		if falls > 0 {
			assert.Equal(t, 12*9*falls, wet)
		}
	}
}

func TestMonthsAndDaysNameEveryProblem(t *testing.T) {
	m := months()
	m[2].Most, m[2].Vapour = m[2].Least-1, unit.Kilopascals(9)
	m[4].RainDays = new(0)
	m[11].Rain = -1
	err := m.Check()
	for _, field := range []string{"months[2].air_max_c", "months[2].vapour_pressure_kpa", "months[4].rain_days", "months[11].rain_mm"} {
		assert.ErrorContains(t, err, field)
	}
	err = climate.Site{Latitude: unit.Degrees(80), Altitude: 1e5, Shade: 2}.Check()
	for _, field := range []string{"latitude_deg", "altitude_m", "wind_height_m", "shade_percent"} {
		assert.ErrorContains(t, err, field)
	}
}

// More wind never dries less while the air can take up more, and shade never dries more.
func TestPenmanObeysWindAndShade(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		least := rapid.Float64Range(-5, 25).Draw(t, "least")
		site := climate.Site{Latitude: unit.Degrees(rapid.Float64Range(-60, 60).Draw(t, "latitude")), WindHeight: 2, WindShare: 1, Shade: unit.Ratio(rapid.Float64Range(0, 0.9).Draw(t, "shade"))}
		day := climate.Day{
			Date: rapid.IntRange(1, 365).Draw(t, "date"), Least: unit.Celsius(least), Most: unit.Celsius(least + rapid.Float64Range(0, 15).Draw(t, "swing")),
			Wind: unit.MetresPerSecond(rapid.Float64Range(0, 8).Draw(t, "wind")), Sunshine: unit.Hours(rapid.Float64Range(0, 12).Draw(t, "sun")),
		}
		day.Vapour = climate.VapourFromHumidity.Eval(climate.HumidityInput{Least: day.Least, Most: day.Most, Humidity: unit.Ratio(rapid.Float64Range(0.1, 0.99).Draw(t, "damp"))})
		calm := site.Under(nil, day)
		// Where more is lost to the sky than the sun gives, air can only make up for it while it is warmer: Penman's water then
		// stands colder than the air, and wind brings it nearer.
		windy := day
		windy.Wind += unit.MetresPerSecond(rapid.Float64Range(0, 5).Draw(t, "more"))
		drying := float64(calm.Saturation - day.Vapour)
		require.Positive(t, drying)
		assert.GreaterOrEqual(t, float64(site.Under(nil, windy).Penman), float64(calm.Penman)-1e-18)
		site.Shade += 0.05
		assert.LessOrEqual(t, site.Under(nil, day).Penman, calm.Penman)
	})
}

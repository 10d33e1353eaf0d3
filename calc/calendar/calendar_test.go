package calendar_test

import (
	"math"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/interp"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/calendar"
	"example.com/pondwright/calc/unit"
)

// everything is a pond with all there can be.
var everything = calendar.Owner{Fish: true, Filter: true, Lamp: true, Pump: true, Fall: true, WinterRoute: true}

func celsius(ts ...float64) []unit.Temperature {
	made := make([]unit.Temperature, len(ts))
	for i, t := range ts {
		made[i] = unit.Celsius(t)
	}
	return made
}

// middle is the middle of a month of 2027 by the calendar of the standard library, as a day of the year that begins at 0.5 on the noon of
// 1 January.
func middle(month int) float64 {
	first := time.Date(2027, time.Month(month), 1, 0, 0, 0, 0, time.UTC)
	half := first.AddDate(0, 1, 0).Sub(first) / 2
	return first.Add(half).Sub(time.Date(2026, time.December, 31, 12, 0, 0, 0, time.UTC)).Hours() / 24
}

// On the day an entry names the water, by gonum's linear interpolation between the middles of the months, is within half a day's change
// of the temperature, and it goes the way the entry says.
func TestDaysAgainstGonum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		water := make([]float64, 12)
		mean, swing := rapid.Float64Range(4, 16).Draw(t, "mean"), rapid.Float64Range(2, 12).Draw(t, "swing")
		for m := range water {
			water[m] = mean - swing*math.Cos(2*math.Pi*(float64(m)-0.7)/12)
		}
		var xs, ys []float64
		for m := -1; m <= 12; m++ {
			xs, ys = append(xs, middle(m+1)), append(ys, water[(m+12)%12])
		}
		var line interp.PiecewiseLinear
		require.NoError(t, line.Fit(xs, ys))
		for _, e := range calendar.Year(nil, calendar.Jobs(everything), celsius(water...)) {
			if e.Day == 0 {
				continue
			}
			require.GreaterOrEqual(t, e.Day, 1)
			require.LessOrEqual(t, e.Day, 365)
			at := float64(e.Day)
			slack := 1.2 * max(math.Abs(line.Predict(at+1)-line.Predict(at)), math.Abs(line.Predict(at)-line.Predict(at-1)), 0.02)
			assert.InDelta(t, e.At.Celsius(), line.Predict(at+0.5), slack, "%s on day %d", e.ID, e.Day)
			assert.Equal(t, e.Warming, line.Predict(at+1) > line.Predict(at-1), e.ID)
		}
	})
}

// A year that goes from 2 to 22 °C, as in the middle of Europe: feeding begins in April and stops in November, as the trade has it (common
// practice, no source).
func TestAnOrdinaryYear(t *testing.T) {
	month := map[string]time.Month{}
	for _, e := range calendar.Year(nil, calendar.Jobs(everything), celsius(2, 3, 6, 10, 15, 20, 22, 21, 17, 12, 7, 4)) {
		if e.Day > 0 {
			month[e.ID] = time.Date(2027, 1, e.Day, 0, 0, 0, 0, time.UTC).Month()
		}
	}
	assert.Equal(t, time.April, month["feed_begins"])
	assert.Equal(t, time.November, month["feed_stops"])
	assert.Equal(t, time.March, month["pump_back"])
	assert.Equal(t, time.November, month["pump_winter"])
	assert.Equal(t, time.October, month["net_on"])
}

func TestWaterThatNeverGetsThereIsNotDated(t *testing.T) {
	for _, e := range calendar.Year(nil, calendar.Jobs(everything), celsius(12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12, 12)) {
		assert.Zero(t, e.Day, e.ID)
	}
	for _, e := range calendar.Year(nil, calendar.Jobs(everything), nil) {
		assert.Zero(t, e.Day, e.ID)
		assert.NotEmpty(t, e.Sentence, e.ID)
	}
}

func TestOnlyWhatThereIsIsLookedAfter(t *testing.T) {
	for _, j := range calendar.Jobs(calendar.Owner{}) {
		assert.Contains(t, []string{"plants_out", "top_ups", "net_on"}, j.ID)
	}
}

package balance_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/balance"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/ode"
	"example.com/pondwright/calc/unit"
)

// tenDigits is half a unit of the last digit of a table printed to ten significant digits, at its widest.
const tenDigits = 5e-10

// Worked elsewhere (Python) as mass balances, the weekly one by going from week to week.
func TestNitrateAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/nitrate_water_change.csv") {
		load, tap := unit.GramsPerDay(row.Float("N_load_g_per_day")), unit.MilligramsPerLitre(row.Float("tap_NO3N_mg_per_L"))
		trickled := balance.Nitrate.Eval(balance.NitrateInput{
			Load: load, Tap: tap, Change: unit.CubicMetresPerHour(row.Float("q_m3_per_day") / 24),
		})
		assert.InEpsilon(t, row.Float("steady_continuous_mg_per_L"), trickled.MilligramsPerLitre(), tenDigits)
		weekly := balance.NitrateWeekly.Eval(balance.WeeklyInput{
			Load: load, Tap: tap, Pond: unit.CubicMetres(row.Float("pond_m3")),
			Share: unit.Ratio(row.Float("weekly_change_fraction")), Every: unit.Days(7),
		})
		assert.InEpsilon(t, row.Float("weekly_after_change_steady_mg_per_L"), weekly.After.MilligramsPerLitre(), tenDigits)
		assert.InEpsilon(t, float64(trickled), float64(weekly.Before), 2*tenDigits) // the same: each carries off P at that strength
	}
}

// 7.14 g of alkalinity a gram of nitrogen is printed everywhere (7.145 rounded down).
func TestAlkalinityUseIsStoichiometry(t *testing.T) {
	got := balance.AlkalinityUse.Eval(balance.AlkalinityInput{TAN: unit.GramsPerDay(1)}).GramsPerDay()
	assert.InDelta(t, 7.14, got, 0.01)
	for _, row := range reftest.Table(t, "filtration/nitrification_stoichiometry.csv") {
		if row.Text("quantity") == "alkalinity_no_synthesis_gCaCO3_per_gN" {
			assert.InEpsilon(t, row.Float("computed"), got, tenDigits)
		}
	}
}

// The closed form against the integrator run until it rests: two roads, one answer, below and above the ammonia at which
// the media are full.
func TestAmmoniaAgainstIntegration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := balance.AmmoniaInput{
			Load:     unit.GramsPerDay(rapid.Float64Range(0, 20).Draw(t, "load")),
			Capacity: unit.GramsPerDay(rapid.Float64Range(1, 20).Draw(t, "capacity")),
			Stated:   unit.MilligramsPerLitre(1),
			Flow:     unit.LitresPerHour(rapid.Float64Range(500, 20_000).Draw(t, "flow")),
			Change:   unit.LitresPerHour(rapid.Float64Range(50, 500).Draw(t, "change")),
			Tap:      unit.MilligramsPerLitre(rapid.Float64Range(0, 1).Draw(t, "tap")),
		}
		// g/day and mg/L in a pond of 10 m³; the media see what leaves the filter, S - R/Q.
		P, R, Q, q := in.Load.GramsPerDay(), in.Capacity.GramsPerDay(), in.Flow.LitresPerDay()/1000, in.Change.LitresPerDay()/1000
		settle := func(_ float64, y, dy []float64) {
			media := y[0] / (1 + R/Q)
			took := R * media
			if media > 1 {
				took = R
			}
			dy[0] = (P + q*(in.Tap.MilligramsPerLitre()-y[0]) - took) / 10
		}
		y := []float64{0}
		require.NoError(t, ode.Solve(settle, y, 0, 400, ode.Tolerance{Relative: 1e-9, Absolute: 1e-11}, nil))
		// The slowest water change, a pond in 8 days, leaves e^-48 of the way after 400.
		assert.InDelta(t, y[0], balance.Ammonia.Eval(in).MilligramsPerLitre(), 1e-7*(1+y[0]))
	})
}

// In the words of the trade: to hold 0.1 mg/L while removing 5 g a day, the filter must see 50,000 L a day, were it to
// remove all. With media without end the formula must come to that.
func TestAmmoniaWithMediaWithoutEndIsFlowAlone(t *testing.T) {
	S := balance.Ammonia.Eval(balance.AmmoniaInput{
		Load: unit.GramsPerDay(5), Capacity: unit.GramsPerDay(1e9), Stated: unit.MilligramsPerLitre(1),
		Flow: unit.LitresPerHour(50_000.0 / 24),
	})
	assert.InDelta(t, 0.1, S.MilligramsPerLitre(), 1e-6)
}

func TestAlkalinityDays(t *testing.T) {
	in := balance.AlkalinityDaysInput{
		Now: unit.MilligramsPerLitre(120), Least: unit.MilligramsPerLitre(50), Tap: unit.MilligramsPerLitre(100),
		Use: unit.GramsPerDay(50), Pond: 10,
	}
	days := func() float64 { return balance.AlkalinityDays.Eval(in).Days() }
	assert.InDelta(t, 70*10/50.0, days(), 1e-9) // a straight line without water change

	in.Change = unit.CubicMetresPerHour(0.2 / 24)
	q, rest := 0.2, 100-50/0.2 // by the closed form of the decay to where it rests
	assert.InDelta(t, 10/q*math.Log((120-rest)/(50-rest)), days(), 1e-9)

	in.Change = unit.CubicMetresPerHour(2.0 / 24) // rests at 75 mg/L, above the least
	assert.Negative(t, days())
	in.Change, in.Use = 0, 0
	assert.Negative(t, days())
	in.Now = in.Least
	assert.Zero(t, days())
}

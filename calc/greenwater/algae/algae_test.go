package algae_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/greenwater/algae"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
)

// Eppley 1972 and Bissinger et al. 2008 evaluated elsewhere, printed to 10 digits.
func TestEnvelopesAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/algal_growth_temperature.csv") {
		in := algae.GrowthInput{Temperature: unit.Celsius(row.Float("water_temperature_C"))}
		assert.InEpsilon(t, row.Float("eppley_mu_per_d"), algae.Envelope.Run(nil, in).PerDay(), 1e-9)
		assert.InEpsilon(t, row.Float("bissinger_mu_per_d"), algae.EnvelopeBissinger.Run(nil, in).PerDay(), 1e-9)
		assert.Empty(t, algae.Envelope.Outside(in))
	}
	assert.NotEmpty(t, algae.Envelope.Outside(algae.GrowthInput{Temperature: 45}))
}

// Kremer & Nixon 1978, abstract: 0.851 · 1.066^T doublings a day, whose 20 °C value is 3.02. Eppley 1972 (from memory):
// as growth 0.59 exp(0.0633 T) a day, to the digits printed.
func TestEnvelopeAsPublished(t *testing.T) {
	at := func(T float64) float64 {
		return algae.Envelope.Run(nil, algae.GrowthInput{Temperature: unit.Celsius(T)}).PerDay()
	}
	assert.InDelta(t, 3.02, at(20)/math.Ln2, 0.005)
	assert.InDelta(t, 0.59, at(0), 0.005)
	assert.InDelta(t, 0.0633, math.Log(at(21)/at(20)), 0.00005)
}

// Bissinger et al. 2008, abstract: Q10 is 1.88.
func TestBissingerQ10(t *testing.T) {
	at := func(T float64) float64 {
		return float64(algae.EnvelopeBissinger.Run(nil, algae.GrowthInput{Temperature: unit.Celsius(T)}))
	}
	assert.InDelta(t, 1.88, at(25)/at(15), 0.005)
}

// Martinez et al. 1999, abstract: Scenedesmus obliquus grew at 0.047 an hour at 30 °C, below the envelope.
func TestEnvelopeLiesAboveAMeasuredGreenAlga(t *testing.T) {
	measured := unit.PerHour(0.047)
	top := algae.Envelope.Run(nil, algae.GrowthInput{Temperature: 30})
	assert.InDelta(t, 0.29, float64(measured/top), 0.005)
}

// Closed forms, printed to 10 digits.
func TestBalanceAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/green_water_balance.csv") {
		V := unit.CubicMetres(row.Float("pond_volume_m3"))
		passes := unit.Ratio(row.Float("uv_flow_m3_per_h") * 24 / row.Float("pond_volume_m3"))
		share := unit.Ratio(row.Float("eta_one_pass_kill"))
		k := algae.Removal.Run(nil, algae.RemovalInput{Share: share, Passes: passes})
		// The table prints eta to 10 digits; one row is a third of a tenth.
		assert.InDelta(t, row.Float("uv_loss_rate_per_d"), k.PerDay(), 1e-9, row.Text("case"))

		in := algae.ClearingInput{
			Growth: unit.PerDay(row.Float("mu_per_d")), Loss: unit.PerDay(row.Float("d_per_d")), Removal: k,
			Ratio: unit.Ratio(row.Float("X0_over_Xtarget")),
		}
		got := algae.Clearing.Run(nil, in)
		switch row.Text("verdict") {
		case "clears":
			require.True(t, got.Clears, row.Text("case"))
			assert.InEpsilon(t, row.Float("days_to_target"), got.Time.Days(), 1e-9, row.Text("case"))
		case "grows":
			assert.Equal(t, algae.ClearingTime{}, got, row.Text("case"))
		}
		least := algae.LeastFlow.Run(nil, algae.LeastFlowInput{Growth: in.Growth, Loss: in.Loss, Share: share, Volume: V})
		assert.InDelta(t, row.Float("minimum_flow_to_hold_m3_per_h"), least.CubicMetresPerHour(), 2e-8, row.Text("case"))
	}
}

// By hand: 12 passes a day of which each takes a tenth, growth 0.5 and loss 0.1 a day leave -0.8 a day; ten times clearer
// after ln 10/0.8 days.
func TestClearingByHand(t *testing.T) {
	k := algae.Removal.Run(nil, algae.RemovalInput{Share: 0.1, Passes: 12})
	got := algae.Clearing.Run(nil, algae.ClearingInput{Growth: unit.PerDay(0.5), Loss: unit.PerDay(0.1), Removal: k, Ratio: 10})
	assert.InDelta(t, 2.302585092994046/0.8, got.Time.Days(), 1e-12)
}

// Closed form checked with a fourth-order Runge–Kutta run, printed to 10 digits.
func TestLimitedGrowthAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "uv/green_water_logistic.csv") {
		in := algae.LimitedInput{
			Growth: unit.PerDay(row.Float("mu_per_d")), Loss: unit.PerDay(row.Float("d_per_d")),
			Removal:  unit.PerDay(row.Float("uv_loss_rate_per_d")),
			Start:    unit.KilogramsPerCubicMetre(row.Float("X0_ug_chl_per_L") * 1e-6),
			Capacity: unit.KilogramsPerCubicMetre(row.Float("K_ug_chl_per_L") * 1e-6),
			Time:     unit.Days(row.Float("time_d")),
		}
		got := algae.Limited.Run(nil, in).KilogramsPerCubicMetre() * 1e6
		assert.InEpsilon(t, row.Float("X_ug_chl_per_L"), got, 1e-9, row.Text("case"))

		in.Time = unit.Days(1000)
		steady := row.Float("steady_state_X_ug_chl_per_L")
		if row.Text("case") == "G05" { // growth and loss in balance: it falls as 1/t
			steady = 0.5
		}
		assert.InDelta(t, steady, algae.Limited.Run(nil, in).KilogramsPerCubicMetre()*1e6, 0.01, row.Text("case"))
	}
}

// Without a limit in sight, limited growth is the growth that Clearing solves.
func TestLimitedGrowthOfFewAlgae(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := algae.ClearingInput{
			Growth: unit.PerDay(rapid.Float64Range(0, 1).Draw(t, "mu")), Loss: unit.PerDay(rapid.Float64Range(0, 0.3).Draw(t, "d")),
			Removal: unit.PerDay(rapid.Float64Range(0, 3).Draw(t, "k")), Ratio: unit.Ratio(rapid.Float64Range(1.1, 100).Draw(t, "X0/X")),
		}
		got := algae.Clearing.Run(nil, in)
		assert.Equal(t, in.Removal+in.Loss > in.Growth, got.Clears)
		if !got.Clears {
			return
		}
		left := algae.Limited.Run(nil, algae.LimitedInput{
			Growth: in.Growth, Loss: in.Loss, Removal: in.Removal, Start: 1, Capacity: 1e12, Time: got.Time,
		})
		if got.Time.Days() < 1e4 { // beyond, the shade of even few algae adds up
			assert.InEpsilon(t, 1/in.Ratio.Float(), float64(left), 1e-6)
		}
	})
}

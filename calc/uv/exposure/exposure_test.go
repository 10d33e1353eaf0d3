package exposure_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/exposure"
)

// Keitz formula and its identity with a Lambert line (IOA/IUVA 2007, p. 1396), that line summed by scipy.integrate.quad,
// printed to 10 digits.
func TestIrradianceIsThatOfALambertLine(t *testing.T) {
	limit, _ := exposure.Limit()
	for _, row := range reftest.Table(t, "uv/keitz_air.csv") {
		in := exposure.BareLampInput{
			Output: unit.Watts(row.Float("P254_W")), ArcLength: unit.Metres(row.Float("arc_length_m")),
			Distance: unit.Metres(row.Float("distance_m")),
		}
		E := exposure.Irradiance.Run(nil, in)
		assert.InEpsilon(t, row.Float("E_lambert_line_quadrature_uW_per_cm2"), 100*E.WattsPerSquareMetre(), 1e-9)
		got := exposure.TimeToLimit.Run(nil, exposure.TimeInput{Irradiance: E, Limit: limit})
		assert.InEpsilon(t, row.Float("time_to_60_J_per_m2_s"), got.Seconds(), 1e-8)
		near := row.Float("distance_m") < 2*row.Float("arc_length_m")
		assert.Equal(t, near, exposure.Irradiance.Outside(in) != "")
	}
}

// ACGIH table of permissible times (from memory), in effective irradiance, of which that at 254 nm is twice. The table
// rounds: 1764.7 s to 30 min.
func TestTimesAgainstTheTableOfLimits(t *testing.T) {
	published := map[string]float64{
		"8 h": 28800, "4 h": 14400, "2 h": 7200, "1 h": 3600, "30 min": 1800, "15 min": 900, "10 min": 600, "5 min": 300,
		"1 min": 60, "30 s": 30, "10 s": 10, "1 s": 1,
	}
	limit, _ := exposure.Limit()
	for _, row := range reftest.Table(t, "uv/uv_exposure_limits.csv") {
		in := exposure.TimeInput{Irradiance: unit.FluenceRate(row.Float("irradiance_at_254nm_uW_per_cm2") / 100), Limit: limit}
		got := exposure.TimeToLimit.Run(nil, in).Seconds()
		assert.InEpsilon(t, row.Float("computed_time_s"), got, 1e-9)
		want := published[row.Text("published_time_rounded")]
		assert.InEpsilon(t, want, got, 0.05, "irradiance in the table has two digits, 0.1 stands for 0.104")
		assert.Empty(t, exposure.TimeToLimit.Outside(in))
	}
	assert.NotEmpty(t, exposure.TimeToLimit.Outside(exposure.TimeInput{Irradiance: 0.001, Limit: limit}))
}

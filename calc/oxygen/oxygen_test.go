package oxygen_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/ode"
	"example.com/pondwright/calc/oxygen"
	"example.com/pondwright/calc/unit"
)

// tenDigits is half a unit of the last digit of a table printed to ten significant digits, at its widest. The tables of
// this file were computed elsewhere (Python) from the equations, which are from memory: they check that the equations
// were written down right. No published worked answer for a weir was found.
const tenDigits = 5e-10

func TestWeirRatioAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/oxygen_weir_uk_cases.csv") {
		r := oxygen.WeirRatio.Eval(oxygen.WeirInput{
			Drop: unit.Metres(row.Float("drop_m")), Water: row.Float("a"), Fall: row.Float("b"), Temperature: unit.Celsius(row.Float("temp_C")),
		})
		assert.InEpsilon(t, row.Float("deficit_ratio_r"), r.Float(), tenDigits)
	}
}

// An independent anchor: the two roads, one of which knows only how clean the water is and the other only sheet and pool,
// are from different laboratories and must agree on the order of things. For 1 m they give 0.48 and 0.28: within two.
func TestTwoRoadsToAFallAgreeWithinTwo(t *testing.T) {
	uk := oxygen.WeirRatio.Eval(oxygen.WeirInput{Drop: 1, Water: oxygen.CleanWater, Fall: oxygen.SharpLip, Temperature: 20})
	sheet := oxygen.SheetRatio.Eval(oxygen.SheetInput{Drop: 1, Sheet: unit.LitresPerHourPerCentimetre(360), Pool: 0.6, Temperature: 20})
	high, low := 1-1/uk.Float(), 1-1/sheet.Float()
	assert.Greater(t, high, low)
	assert.Less(t, high, 2*low)
}

// The table took gravity as 9.81: its critical depth is 1.1e-4 smaller. The critical depth makes up at most 0.21 of x here,
// and ln r goes with x to a power of 1.31 at most: 1.1e-4 x 0.21 x 1.31 = 3.1e-5, and E differs by no more than ln r.
func TestSheetRatioAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/oxygen_weir_nakasone_cases.csv") {
		efficiency := func(celsius float64) float64 {
			r := oxygen.SheetRatio.Eval(oxygen.SheetInput{
				Drop: unit.Metres(row.Float("drop_m")), Sheet: unit.FlowPerWidth(row.Float("q_m3_per_h_per_m") / 3600),
				Pool: unit.Metres(row.Float("tailwater_depth_m")), Temperature: unit.Celsius(celsius),
			})
			return 1 - 1/r.Float()
		}
		assert.InEpsilon(t, row.Float("E20"), efficiency(20), 3.1e-5)
		assert.InEpsilon(t, row.Float("E_10C"), efficiency(10), 3.1e-5)
		assert.InEpsilon(t, row.Float("E_25C"), efficiency(25), 3.1e-5)
	}
}

func TestCascadeAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/oxygen_cascade_steps.csv") {
		n := int(row.Float("steps"))
		r := oxygen.WeirRatio.Eval(oxygen.WeirInput{
			Drop:  unit.Metres(row.Float("total_drop_m") / float64(n)),
			Water: row.Float("a"), Fall: row.Float("b"), Temperature: unit.Celsius(row.Float("temp_C")),
		})
		assert.InEpsilon(t, row.Float("r_step"), r.Float(), tenDigits)
		e := oxygen.CascadeEfficiency.Eval(oxygen.CascadeInput{Ratio: r, Falls: n})
		assert.InEpsilon(t, row.Float("efficiency_total"), e.Float(), tenDigits)
	}
}

func TestFallSupplyAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/oxygen_waterfall_supply.csv") {
		saturation := unit.MilligramsPerLitre(row.Float("do_sat_mg_per_L"))
		got := oxygen.FallSupply.Eval(oxygen.SupplyInput{
			Flow:       unit.CubicMetresPerHour(row.Float("flow_m3_per_h")),
			Efficiency: unit.Ratio(1 - 1/row.Float("r")),
			Saturation: saturation,
			Pond:       unit.Concentration(row.Float("upstream_fraction_of_sat") * float64(saturation)),
		})
		assert.InEpsilon(t, row.Float("oxygen_g_per_h"), got.GramsPerDay()/24, 1e-8) // r is printed to ten digits, 1 - 1/r good to nine
	}
}

func TestSurfaceTransferAgainstTable(t *testing.T) {
	perDay := func(v unit.Velocity) float64 { return v.MetresPerSecond() * 86400 }
	for _, row := range reftest.Table(t, "filtration/oxygen_wind_reaeration.csv") {
		in := oxygen.SurfaceInput{Wind: unit.MetresPerSecond(row.Float("wind_10m_m_per_s")), Temperature: unit.Celsius(row.Float("temp_C"))}
		assert.InEpsilon(t, row.Float("kO2_crusius_m_per_d"), perDay(oxygen.CalmTransfer.Eval(in)), tenDigits)
		assert.InEpsilon(t, row.Float("kO2_cole_caraco_m_per_d"), perDay(oxygen.LakeTransfer.Eval(in)), tenDigits)
	}
}

// The Schmidt number is stated to 30 °C and its cubic passes nothing at 40; warmer water must not run away.
func TestSurfaceTransferHoldsBeyondItsRange(t *testing.T) {
	at := func(celsius float64) unit.Velocity {
		return oxygen.CalmTransfer.Eval(oxygen.SurfaceInput{Temperature: unit.Celsius(celsius)})
	}
	assert.Equal(t, at(30), at(39.9))
	assert.Greater(t, at(30), at(29))
}

// Two moles of oxygen turn a mole of ammonia to nitrate: 63.996/14.007 = 4.569, printed as 4.57 everywhere.
func TestFilterDemandIsStoichiometry(t *testing.T) {
	got := oxygen.FilterDemand.Eval(oxygen.FilterDemandInput{TAN: unit.GramsPerDay(1)})
	assert.InDelta(t, 63.996/14.007, got.GramsPerDay(), 0.005)
}

func night(row reftest.Row) oxygen.DawnInput {
	V := unit.CubicMetres(row.Float("pond_m3"))
	perHour := row.Float("fish_demand_mg_per_L_h") + row.Float("other_demand_mg_per_L_h")
	return oxygen.DawnInput{
		Start:      unit.MilligramsPerLitre(row.Float("do_start_mg_per_L")),
		Saturation: unit.MilligramsPerLitre(row.Float("do_sat_mg_per_L")),
		Demand:     unit.GramsPerDay(24 * perHour * V.CubicMetres()),
		Pond:       V, Surface: unit.SquareMetres(row.Float("surface_m2")),
		Transfer: unit.MetresPerSecond(row.Float("kL_m_per_d") / 86400),
		Night:    unit.Hours(row.Float("night_h")),
	}
}

func TestDawnAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/oxygen_night_minimum.csv") {
		got := oxygen.Dawn.Eval(night(row))
		assert.InEpsilon(t, row.Float("do_end_of_night_mg_per_L"), got.MilligramsPerLitre(), 2e-9) // three printed values go in
	}
}

// The closed form against the integrator, with a fall running: two roads, one answer.
func TestDawnAgainstIntegration(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := oxygen.DawnInput{
			Start: unit.MilligramsPerLitre(8), Saturation: unit.MilligramsPerLitre(8.3),
			Demand: unit.GramsPerDay(rapid.Float64Range(0, 100).Draw(t, "demand")),
			Pond:   10, Surface: 10, Transfer: unit.MetresPerSecond(0.5 / 86400),
			FallFlow:   unit.LitresPerHour(rapid.Float64Range(0, 20_000).Draw(t, "flow")),
			Efficiency: unit.Ratio(rapid.Float64Range(0, 0.7).Draw(t, "efficiency")),
			Night:      unit.Hours(9),
		}
		supply := float64(in.Transfer)*10 + float64(in.FallFlow)*float64(in.Efficiency)
		y := []float64{float64(in.Start)}
		breathe := func(_ float64, y, dy []float64) {
			dy[0] = (supply*(float64(in.Saturation)-y[0]) - float64(in.Demand)) / 10
		}
		require.NoError(t, ode.Solve(breathe, y, 0, in.Night.Seconds(), ode.Tolerance{Relative: 1e-10, Absolute: 1e-12}, nil))
		assert.InDelta(t, max(0, y[0]), float64(oxygen.Dawn.Eval(in)), 1e-10)
	})
}

func TestDawnWithoutAirIsAStraightLine(t *testing.T) {
	in := oxygen.DawnInput{Start: unit.MilligramsPerLitre(8), Saturation: unit.MilligramsPerLitre(8), Demand: unit.GramsPerDay(96), Pond: 10, Night: unit.Hours(10)}
	assert.InDelta(t, 8-96.0/10/24*10, oxygen.Dawn.Eval(in).MilligramsPerLitre(), 1e-12)
	in.Demand *= 10
	assert.Zero(t, oxygen.Dawn.Eval(in))
}

func TestMoreAirIsNeverLessOxygen(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := oxygen.NightInput{
			Pond: 10, Surface: 10, Temperature: unit.Celsius(rapid.Float64Range(0, 40).Draw(t, "celsius")), Night: unit.Hours(9),
			Fish:   unit.GramsPerDay(rapid.Float64Range(0, 500).Draw(t, "fish")),
			Falls:  oxygen.Falls{Flow: unit.LitresPerHour(rapid.Float64Range(0, 20_000).Draw(t, "flow")), Low: 0.2, High: 0.4},
			AirLow: unit.LitresPerHour(rapid.Float64Range(0, 2000).Draw(t, "air")), AirHigh: unit.LitresPerHour(2000),
		}
		n, err := oxygen.AtDawn(nil, in)
		require.NoError(t, err)
		const lastBits = 1 + 1e-12 // where a fall is next to nothing, both sides differ by rounding alone
		assert.LessOrEqual(t, n.PowerOff, n.PumpOff*lastBits)
		assert.LessOrEqual(t, n.PumpOff, n.Low*lastBits)
		assert.LessOrEqual(t, n.Low, n.High*lastBits)
		assert.LessOrEqual(t, n.High, n.Saturation*lastBits)
		in.Fish *= 2
		more, err := oxygen.AtDawn(nil, in)
		require.NoError(t, err)
		assert.LessOrEqual(t, more.Low, n.Low*lastBits)
		assert.False(t, math.IsNaN(float64(n.High)))
	})
}

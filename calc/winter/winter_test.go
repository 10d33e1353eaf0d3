package winter_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/winter"
)

// tenDigits is half a unit of the last digit of a table printed to ten significant digits, at its widest.
const tenDigits = 5e-10

// Worked elsewhere (Python) from Stefan's law. Handbooks print its constant as about 3.5 cm for a degree day (from memory).
func TestIceAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/commissioning_ice_stefan.csv") {
		h := winter.IceThickness.Eval(winter.IceInput{FreezingDays: row.Float("freezing_degree_days_C_day"), Cover: row.Float("coefficient_c")})
		assert.InEpsilon(t, row.Float("ice_thickness_mm"), h.Millimetres(), tenDigits)
	}
	one := winter.IceThickness.Eval(winter.IceInput{FreezingDays: 1, Cover: winter.BareIce})
	assert.InDelta(t, 3.5, one.Centimetres(), 0.05)
}

func TestCoolingAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/commissioning_winter_mixing.csv") {
		f, err := winter.Hold(nil, winter.Input{
			Pond: unit.CubicMetres(row.Float("pond_m3")), Surface: unit.SquareMetres(row.Float("surface_m2")), Depth: 1.5,
			Loss: unit.HeatWattsPerSquareMetre(row.Float("heat_loss_W_per_m2")),
		})
		require.NoError(t, err)
		assert.InEpsilon(t, row.Float("days_top_layer_4_to_0C"), f.TopCold.Days(), tenDigits)
		assert.InEpsilon(t, row.Float("days_whole_pond_4_to_0C"), f.AllCold.Days(), tenDigits)
		assert.Empty(t, f.Findings)
	}
}

// Water is densest at 3.98 °C by every handbook, printed to two decimals: the density of package water must turn there.
func TestWaterIsDensestNearFourDegrees(t *testing.T) {
	at := func(celsius float64) float64 {
		return water.Density.Eval(water.AtTemperature{Temperature: unit.Celsius(celsius)}).KilogramsPerCubicMetre()
	}
	densest := winter.DensestWater.Celsius()
	assert.Equal(t, 3.98, densest)
	for _, off := range []float64{0.02, 0.5, 3.9} {
		assert.Greater(t, at(densest), at(densest-off))
		assert.Greater(t, at(densest), at(densest+off))
	}
	assert.InDelta(t, 999.975, at(densest), 0.0005)
}

// Worked elsewhere (Python): what a fall of 5 m³/h carries off for each degree.
func TestFallHeatAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/commissioning_winter_mixing.csv") {
		got := winter.FallHeat.Eval(winter.FallHeatInput{Flow: unit.CubicMetresPerHour(5), Drop: 1})
		assert.InEpsilon(t, row.Float("waterfall_5_m3_h_W_per_K"), got.Watts(), tenDigits)
	}
}

// Feeding practically stops below about 8 °C (FAO, common carp), and long cold leaves 18 % of nitrification at 1 °C (Hoang
// et al. 2014, abstract).
func TestCalendar(t *testing.T) {
	koi := []stock.Group{{Species: stock.Koi, Count: 5, Length: unit.Centimetres(40), GrownLength: unit.Centimetres(60)}}
	months, found, err := winter.Calendar(nil, koi, 0.35, []unit.Temperature{0.5, 1, 8, 8.5, 20})
	require.NoError(t, err)
	assert.Equal(t, []string{"KOI_MAY_BE_HEAVIER", "FILTER_RATE_HELD", "FEEDING_STOPS"}, codes(found))
	assert.Equal(t, 3.0, found[2].Value.Number)
	for i, m := range months {
		assert.Equal(t, i >= 3, m.Feed > 0)
	}
	assert.InEpsilon(t, 0.18, months[0].FilterRate.Float(), 1e-12)
	assert.InEpsilon(t, 1, months[4].FilterRate.Float(), 1e-12)
	_, _, err = winter.Calendar(nil, []stock.Group{{}}, 0.35, []unit.Temperature{4})
	assert.ErrorContains(t, err, "groups[0].count")
}

func TestAHardFrostOnAKoiPond(t *testing.T) {
	in := winter.Input{Pond: 10, Surface: 8, Depth: 1.3, Stocking: filter.KoiPond, FreezingDays: 60, Loss: 80, DeepPump: true}
	f, err := winter.Hold(nil, in)
	require.NoError(t, err)
	assert.InDelta(t, 1.3-0.274, f.Refuge.Metres(), 0.0005) // 274 mm by the table
	assert.Equal(t, []string{"ICE", "REFUGE_SHALLOW", "DEEP_WATER_STIRRED"}, codes(f.Findings))
	in.Flow, in.FallFlow = unit.LitresPerHour(8000), unit.LitresPerHour(5000)
	f, err = winter.Hold(nil, in)
	require.NoError(t, err)
	assert.Equal(t, []string{"ICE", "REFUGE_SHALLOW", "DEEP_WATER_STIRRED", "FALL_COOLS_POND", "WINTER_FLOW"}, codes(f.Findings))
	assert.InDelta(t, 2000, f.FlowLeast.LitresPerHour(), 1e-9)
	in.Stocking, in.Flow, in.FallFlow = filter.NoFish, 0, 0
	f, err = winter.Hold(nil, in)
	require.NoError(t, err)
	assert.Equal(t, []string{"ICE"}, codes(f.Findings))
}

func TestStillDeepWaterIsNeverColdSooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f, err := winter.Hold(nil, winter.Input{
			Pond: unit.Litres(rapid.Float64Range(10, 1e6).Draw(t, "litres")), Surface: unit.SquareMetres(rapid.Float64Range(0.05, 1000).Draw(t, "surface")),
			Depth: 1, FreezingDays: rapid.Float64Range(0, 3000).Draw(t, "days"), Loss: 80,
		})
		require.NoError(t, err)
		assert.LessOrEqual(t, f.TopCold, f.AllCold)
		assert.LessOrEqual(t, f.Ice, f.IceMost)
		assert.GreaterOrEqual(t, f.Refuge, unit.Length(0))
	})
}

func TestHoldNamesEveryProblem(t *testing.T) {
	_, err := winter.Hold(nil, winter.Input{FreezingDays: -1})
	var problems input.Errors
	require.ErrorAs(t, err, &problems)
	var list []string
	for _, p := range problems {
		list = append(list, p.Field)
	}
	assert.Equal(t, []string{"pond_volume_l", "surface_m2", "depth_m", "freezing_degree_days", "heat_loss_w_per_m2"}, list)
}

func codes(findings []finding.Finding) []string {
	var list []string
	for _, f := range findings {
		list = append(list, f.Code)
	}
	return list
}

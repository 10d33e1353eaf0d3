package ripening_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// scenario is a row of the reference runs as input.
func scenario(t *testing.T, row reftest.Row) ripening.Input {
	mg := func(column string) unit.Concentration { return unit.MilligramsPerLitre(row.Float(column)) }
	in := ripening.Input{
		Pond:        unit.CubicMetres(row.Float("pond_m3")),
		Temperature: unit.Celsius(row.Float("temp_C")),
		PH:          row.Float("pH"),
		Oxygen:      mg("DO_mg_per_L"),
		Exchange:    unit.PerDay(row.Float("exchange_per_day")),
		TapTAN:      mg("S1in_mg_per_L"),
		TapNitrate:  mg("NO3N_in_mg_per_L"),
		Start: ripening.State{
			TAN: mg("TAN0_mg_per_L"), Nitrite: mg("NO2N0_mg_per_L"), Nitrate: mg("NO3N0_mg_per_L"),
			AmmoniaOxidisers: mg("XA0_gVSS_per_m3"), NitriteOxidisers: mg("XB0_gVSS_per_m3"),
		},
		Room:  mg("Xmax_gVSS_per_m3_0_is_none"),
		Until: unit.Days(60),
	}
	day, grams, ok := strings.Cut(row.Text("TAN_load_g_per_day_from_day"), ":")
	require.True(t, ok)
	require.Equal(t, "0", day)
	load, err := strconv.ParseFloat(grams, 64)
	require.NoError(t, err)
	in.Load = []ripening.LoadStep{{TAN: unit.GramsPerDay(load)}}
	if row.Text("param_set") != "epa" { // other constants: Blackburne et al. 2007, abstract
		in.Kinetics = ripening.Kinetics{
			GrowthA: unit.PerDay(row.Float("muA_per_day")), HalfA: mg("KA_mg_per_L"), YieldA: unit.Ratio(row.Float("YA_gVSS_per_gN")),
			DecayA: unit.PerDay(row.Float("bA_per_day")), OxygenA: mg("KOA_mg_per_L"),
			GrowthB: unit.PerDay(row.Float("muB_per_day")), HalfB: mg("KB_mg_per_L"), YieldB: unit.Ratio(row.Float("YB_gVSS_per_gN")),
			DecayB: unit.PerDay(row.Float("bB_per_day")), OxygenB: mg("KOB_mg_per_L"),
		}
	}
	return in
}

func scenarios(t *testing.T) map[string]ripening.Input {
	list := make(map[string]ripening.Input)
	for _, row := range reftest.Table(t, "filtration/maturation_inputs.csv") {
		list[row.Text("run")] = scenario(t, row)
	}
	return list
}

// The reference runs were made with scipy 1.10 (solve_ivp, Radau at 1e-10), which agrees with its DOP853 to 2e-9. Each
// day of each run is held to 1e-6 mg/L; the table prints ten digits.
func TestRunAgainstScipyDayByDay(t *testing.T) {
	runs := make(map[string]ripening.Result)
	for name, in := range scenarios(t) {
		r, err := ripening.Run(nil, in)
		require.NoError(t, err)
		require.Len(t, r.Days, 61)
		runs[name] = r
	}
	for _, row := range reftest.Table(t, "filtration/maturation_series.csv") {
		run, ok := runs[row.Text("run")]
		require.True(t, ok, row.Text("run"))
		day := int(row.Float("day"))
		got := run.Days[day]
		for column, c := range map[string]unit.Concentration{
			"TAN_mgN_per_L": got.TAN, "NO2N_mg_per_L": got.Nitrite, "NO3N_mg_per_L": got.Nitrate,
			"XA_gVSS_per_m3": got.AmmoniaOxidisers, "XB_gVSS_per_m3": got.NitriteOxidisers,
		} {
			assert.InDelta(t, row.Float(column), c.MilligramsPerLitre(), 1e-6, "%s, day %d, %s", row.Text("run"), day, column)
		}
	}
}

// Peaks and the day of ripeness were read off 20,001 points over 60 days, so days are good to 0.003. Near its top a curve
// of these is flat: half a grid step misses no more than 1e-6 mg/L.
func TestPeaksAgainstScipy(t *testing.T) {
	all := scenarios(t)
	const grid = 60.0 / 20_000
	for _, row := range reftest.Table(t, "filtration/maturation_summary.csv") {
		r, err := ripening.Run(nil, all[row.Text("run")])
		require.NoError(t, err)
		assert.InDelta(t, row.Float("peak_TAN_mgN_per_L"), r.TAN.Value.MilligramsPerLitre(), 1e-6)
		assert.InDelta(t, row.Float("peak_TAN_day"), r.TAN.At.Days(), grid)
		assert.InDelta(t, row.Float("peak_NO2N_mg_per_L"), r.Nitrite.Value.MilligramsPerLitre(), 1e-6)
		assert.InDelta(t, row.Float("peak_NO2N_day"), r.Nitrite.At.Days(), grid)
		require.True(t, r.Ripe)
		assert.InDelta(t, row.Float("mature_day"), r.RipeAt.Days(), grid)
	}
}

// The growth constants as computed elsewhere (Python) beside each scenario, to ten digits.
func TestKineticsAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/maturation_inputs.csv") {
		if row.Text("param_set") != "epa" {
			continue
		}
		k := ripening.NitrifierKinetics.Eval(ripening.KineticsInput{Temperature: unit.Celsius(row.Float("temp_C"))})
		assert.InEpsilon(t, row.Float("muA_per_day"), k.GrowthA.PerDay(), 5e-10)
		assert.InEpsilon(t, row.Float("KA_mg_per_L"), k.HalfA.MilligramsPerLitre(), 5e-10)
		assert.InEpsilon(t, row.Float("bA_per_day"), k.DecayA.PerDay(), 5e-10)
		assert.InEpsilon(t, row.Float("muB_per_day"), k.GrowthB.PerDay(), 5e-10)
		assert.InEpsilon(t, row.Float("KB_mg_per_L"), k.HalfB.MilligramsPerLitre(), 5e-10)
	}
	assert.InDelta(t, 0.8334, ripening.PHFactor.Eval(ripening.PHFactorInput{PH: 7.0}).Float(), 1e-9) // 1 - 0.833 x 0.2
	assert.Equal(t, unit.Ratio(1), ripening.PHFactor.Eval(ripening.PHFactorInput{PH: 8}))
}

// Two roads, one answer: ten years of the run against the closed form of the model at rest. What is left of the way there
// dies off with the slowest rate, the change of water, e^-73 by then.
func TestRunComesToRestWhereTheClosedFormSays(t *testing.T) {
	in := scenarios(t)["C_22C_seeded_waterchange"]
	in.TapTAN = unit.MilligramsPerLitre(0.1)
	in.Until = unit.Days(3650)
	r, err := ripening.Run(nil, in)
	require.NoError(t, err)
	rest, ok, err := ripening.Rest(nil, in)
	require.NoError(t, err)
	require.True(t, ok)
	assert.InEpsilon(t, rest.TAN.MilligramsPerLitre(), r.End.TAN.MilligramsPerLitre(), 1e-6)
	assert.InEpsilon(t, rest.Nitrite.MilligramsPerLitre(), r.End.Nitrite.MilligramsPerLitre(), 1e-6)
	assert.InEpsilon(t, rest.Nitrate.MilligramsPerLitre(), r.End.Nitrate.MilligramsPerLitre(), 1e-6)
	assert.InDelta(t, 0, r.Balance.Float(), 1e-9)
}

func TestThereIsNoRestWithoutWaterChangeOrFood(t *testing.T) {
	in := scenarios(t)["A_22C_unseeded"]
	_, ok, err := ripening.Rest(nil, in)
	require.NoError(t, err)
	assert.False(t, ok)
	in.Exchange, in.Load = unit.PerDay(0.1), []ripening.LoadStep{{}}
	_, ok, err = ripening.Rest(nil, in)
	require.NoError(t, err)
	assert.False(t, ok)
}

// A Runge–Kutta step keeps linear invariants: nitrogen closes to rounding over a year, with load steps and water changes.
func TestNitrogenCloses(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := ripening.Input{
			Pond: 10, Temperature: unit.Celsius(rapid.Float64Range(5, 30).Draw(t, "celsius")),
			PH: 7.5, Oxygen: unit.MilligramsPerLitre(8), Until: unit.Days(365),
			Exchange: unit.PerDay(rapid.Float64Range(0, 0.2).Draw(t, "exchange")),
			TapTAN:   unit.MilligramsPerLitre(0.2), TapNitrate: unit.MilligramsPerLitre(5),
			Load: []ripening.LoadStep{
				{TAN: unit.GramsPerDay(rapid.Float64Range(0, 10).Draw(t, "first"))},
				{From: unit.Days(30), TAN: unit.GramsPerDay(rapid.Float64Range(0, 10).Draw(t, "second"))},
			},
			Start: ripening.SeededFilter(),
		}
		r, err := ripening.Run(nil, in)
		require.NoError(t, err)
		assert.InDelta(t, 0, r.Balance.Float(), 1e-9)
		assert.Len(t, r.Days, 366)
		assert.GreaterOrEqual(t, r.TAN.Value, r.End.TAN)
		assert.GreaterOrEqual(t, r.Nitrite.Value, r.End.Nitrite)
	})
}

func TestColderAndUnseededFiltersTakeLonger(t *testing.T) {
	in := scenarios(t)["A_22C_unseeded"]
	new22, err := ripening.Run(nil, in)
	require.NoError(t, err)
	in.Start = ripening.SeededFilter()
	seeded, err := ripening.Run(nil, in)
	require.NoError(t, err)
	in.Start, in.Temperature = ripening.NewFilter(), 12
	cold, err := ripening.Run(nil, in)
	require.NoError(t, err)
	assert.Less(t, seeded.RipeAt, new22.RipeAt)
	assert.Less(t, new22.RipeAt, cold.RipeAt)
}

func TestRunWarnsOfPeaks(t *testing.T) {
	in := scenarios(t)["B_15C_unseeded"]
	in.PH = 8.2
	trail := new(working.Trail)
	r, err := ripening.Run(trail, in)
	require.NoError(t, err)
	assert.Equal(t, []string{"RIPENING_IS_A_SPAN", "MEDIA_ROOM_ASSUMED", "AMMONIA_PEAK_HARMFUL", "NITRITE_PEAK_HARMFUL"}, codes(r.Findings))
	for _, step := range trail.Steps() {
		assert.True(t, step.Replay())
	}
	in.Until, in.Temperature = unit.Days(10), 5
	r, err = ripening.Run(nil, in)
	require.NoError(t, err)
	assert.False(t, r.Ripe)
	assert.Contains(t, codes(r.Findings), "FILTER_NOT_RIPE")
	assert.Contains(t, codes(r.Findings), "RIPENING_OUTSIDE_RANGE")
}

func TestRunNamesEveryProblem(t *testing.T) {
	_, err := ripening.Run(nil, ripening.Input{
		Temperature: unit.Celsius(math.NaN()), Start: ripening.State{TAN: -1}, Kinetics: ripening.Kinetics{GrowthA: 1},
		Load: []ripening.LoadStep{{From: 1}, {TAN: -1}},
	})
	var problems input.Errors
	require.ErrorAs(t, err, &problems)
	var list []string
	for _, p := range problems {
		list = append(list, p.Field)
	}
	for _, field := range []string{"pond_volume_l", "water_temperature_c", "ph", "days", "start.tan_mg_per_l", "kinetics.half_a_mg_per_l", "load", "load[1].tan_g_per_day", "load[1].from_day"} {
		assert.Contains(t, list, field)
	}
}

func codes(findings []finding.Finding) []string {
	var list []string
	for _, f := range findings {
		list = append(list, f.Code)
	}
	return list
}

// Sixty days unseeded at 22 °C; the aim is under a millisecond.
func BenchmarkSixtyDays(b *testing.B) {
	in := ripening.Input{
		Pond: 10, Temperature: 22, PH: 7.6, Oxygen: unit.MilligramsPerLitre(7), Start: ripening.NewFilter(),
		Load: []ripening.LoadStep{{TAN: unit.GramsPerDay(3)}}, Until: unit.Days(60),
	}
	b.ReportAllocs()
	for b.Loop() {
		_, _ = ripening.Run(nil, in)
	}
}

func BenchmarkRest(b *testing.B) {
	in := ripening.Input{
		Pond: 10, Temperature: 22, PH: 7.6, Oxygen: unit.MilligramsPerLitre(7), Exchange: unit.PerDay(0.02),
		Load: []ripening.LoadStep{{TAN: unit.GramsPerDay(3)}}, Until: unit.Days(60),
	}
	b.ReportAllocs()
	for b.Loop() {
		_, _, _ = ripening.Rest(nil, in)
	}
}

// A year whose water does not change is the run without one, but for steps that end with each day; and a filter that starts in
// falling water takes longer than in rising water of the same mean.
func TestWaterThatChangesFromDayToDay(t *testing.T) {
	in := scenarios(t)["A_22C_unseeded"]
	steady, err := ripening.Run(nil, in)
	require.NoError(t, err)
	for range 60 {
		in.Year = append(in.Year, in.Temperature)
	}
	daily, err := ripening.Run(nil, in)
	require.NoError(t, err)
	require.True(t, daily.Ripe)
	assert.InDelta(t, steady.RipeAt.Days(), daily.RipeAt.Days(), 1e-5) // each run is good to 1e-9 a step
	assert.InDelta(t, steady.TAN.Value.MilligramsPerLitre(), daily.TAN.Value.MilligramsPerLitre(), 1e-6)
	assert.InDelta(t, 0, daily.Balance.Float(), 1e-9)

	ripe := func(first, each float64) float64 {
		for i := range in.Year {
			in.Year[i] = unit.Celsius(first + each*float64(i))
		}
		r, err := ripening.Run(nil, in)
		require.NoError(t, err)
		require.True(t, r.Ripe)
		return r.RipeAt.Days()
	}
	assert.Greater(t, ripe(12, 0.1), steady.RipeAt.Days())
	assert.Greater(t, ripe(12, 0), ripe(12, 0.1))
	in.Year[3] = 50
	_, err = ripening.Run(nil, in)
	assert.ErrorContains(t, err, "year[3]")
}

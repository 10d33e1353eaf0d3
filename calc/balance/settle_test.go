package balance_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/balance"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

func koiPond() balance.Input {
	return balance.Input{
		Pond:        unit.Litres(30_000),
		Filter:      filter.Filter{Medium: filter.MovingCarrier, Surface: unit.SquareMetres(150)},
		Load:        unit.GramsPerDay(14.1),
		Temperature: 20, PH: 7.5, Oxygen: unit.MilligramsPerLitre(8), Flow: unit.LitresPerHour(10_000), WeeklyChange: 0.1,
		Alkalinity: unit.MilligramsPerLitre(150), TapAlkalinity: unit.MilligramsPerLitre(200), TapNitrate: unit.MilligramsPerLitre(5),
	}
}

// By hand: capacity 47.4 g a day, filled at 1 + 47.4/240 = 1.198 mg/L; change 0.4286 m³ a day; ammonia
// 14.1/(47.4/1.198 + 0.4286) = 0.352 mg/L. Nitrate rises by 14.1 x 7/30 = 3.29 mg/L a week and settles at
// 5 + 9 x 3.29 = 34.6 after each change. Alkalinity is used at 14.1 x 7.145 = 100.7 g a day
// and would come to rest at 200 - 235 = -35: 70 days x ln(185/85) = 54.4 until it is down to 50.
func TestSettleAKoiPond(t *testing.T) {
	trail := new(working.Trail)
	w, err := balance.Settle(trail, koiPond())
	require.NoError(t, err)
	assert.True(t, w.Rests)
	assert.InDelta(t, 0.352, w.TAN.MilligramsPerLitre(), 0.0005)
	assert.InDelta(t, 0.352*0.01236, w.Unionised.MilligramsPerLitre(), 0.00001)
	// μ = 10^(0.0255·20 − 0.492) · 8/9 = 0.926, K = 10^(0.063·20 − 1.149) = 1.291: I = 1.291 · 0.05/0.876.
	require.NotNil(t, w.Nitrite)
	assert.InDelta(t, 0.0737, w.Nitrite.MilligramsPerLitre(), 0.0001)
	assert.InDelta(t, 5+14.1/0.42857, w.NitrateTrickled.MilligramsPerLitre(), 0.001)
	assert.InDelta(t, 34.6, w.Nitrate.After.MilligramsPerLitre(), 0.05)
	assert.InDelta(t, 14.1*7.145, w.AlkalinityUse.GramsPerDay(), 0.01)
	assert.InDelta(t, 54.4, w.AlkalinityLasts.Days(), 0.1)
	assert.Equal(t, []string{"ALKALINITY_RUNS_LOW"}, codes(w.Findings))
	for _, step := range trail.Steps() {
		assert.True(t, step.Replay())
	}
}

func TestSettleVerdicts(t *testing.T) {
	in := koiPond()
	in.Filter.Surface, in.WeeklyChange, in.Alkalinity = 20, 0, unit.MilligramsPerLitre(30)
	w, err := balance.Settle(nil, in)
	require.NoError(t, err)
	assert.False(t, w.Rests)
	assert.Zero(t, w.TAN)
	assert.Equal(t, []string{"AMMONIA_RISES", "NITRATE_RISES", "ALKALINITY_RUNS_LOW"}, codes(w.Findings))

	in = koiPond()
	in.PH, in.WeeklyChange, in.Alkalinity = 8.5, 0.05, unit.MilligramsPerLitre(400)
	w, err = balance.Settle(nil, in)
	require.NoError(t, err)
	assert.Equal(t, []string{"AMMONIA_SETTLES_HIGH", "NITRATE_SETTLES_HIGH"}, codes(w.Findings))
	assert.Equal(t, finding.Stop, w.Findings[0].Severity)
	assert.Greater(t, w.TANHigh, w.TAN)
}

func TestSettleNamesEveryProblem(t *testing.T) {
	_, err := balance.Settle(nil, balance.Input{Temperature: 99, Load: unit.MassRate(math.NaN()), WeeklyChange: 1e-9})
	var problems input.Errors
	require.ErrorAs(t, err, &problems)
	var list []string
	for _, p := range problems {
		list = append(list, p.Field)
	}
	assert.Equal(t, []string{"pond_volume_l", "tan_load_g_per_day", "ph", "flow_l_per_h", "weekly_change_percent", "medium", "surface_m2", "water_temperature_c"}, list)
}

// Two roads, one answer: the ripening model run for ten years under the load of the koi pond, its water trickled, against
// the pond at rest. Nitrite must meet; and what the model holds of nitrogen in all must be what the load and the change of
// water make of it. After ten years e^-52 of the way is left.
func TestRipeningComesToRestWhereSettleSays(t *testing.T) {
	in := koiPond()
	w, err := balance.Settle(nil, in)
	require.NoError(t, err)
	r, err := ripening.Run(nil, ripening.Input{
		Pond: in.Pond, Temperature: in.Temperature, PH: in.PH, Oxygen: in.Oxygen, TapNitrate: in.TapNitrate,
		Exchange: unit.PerDay(in.WeeklyChange.Float() / 7), Start: ripening.SeededFilter(), Until: unit.Days(3650),
		Load: []ripening.LoadStep{{TAN: in.Load}},
	})
	require.NoError(t, err)
	assert.InEpsilon(t, w.Nitrite.MilligramsPerLitre(), r.End.Nitrite.MilligramsPerLitre(), 1e-6)
	all := r.End.TAN + r.End.Nitrite + r.End.Nitrate
	assert.InEpsilon(t, w.NitrateTrickled.MilligramsPerLitre(), all.MilligramsPerLitre(), 1e-6)
}

func TestNitriteVerdicts(t *testing.T) {
	for code, change := range map[string]func(*balance.Input){
		"NITRITE_SETTLES_HIGH": func(in *balance.Input) { in.Oxygen = unit.MilligramsPerLitre(0.3) },
		"NITRITE_RISES":        func(in *balance.Input) { in.PH = 6 },
		"NITRITE_NOT_KNOWN":    func(in *balance.Input) { in.Temperature = 5 },
	} {
		in := koiPond()
		change(&in)
		w, err := balance.Settle(nil, in)
		require.NoError(t, err)
		assert.Contains(t, codes(w.Findings), code)
		assert.Equal(t, code == "NITRITE_SETTLES_HIGH", w.Nitrite != nil)
	}
}

// Each limit names its source, and what does not settle has no value.
func TestWhatIsHeldAgainstLimits(t *testing.T) {
	in := koiPond()
	in.Filter.Surface, in.WeeklyChange = 20, 0
	w, err := balance.Settle(nil, in)
	require.NoError(t, err)
	require.Len(t, w.Held, 6)
	for i, h := range w.Held {
		assert.NotEmpty(t, h.Source.Key, h.Name)
		assert.Positive(t, h.Limit.Number, h.Name)
		assert.Equal(t, i == 5, h.Least, h.Name) // alkalinity alone must not be less
		assert.Equal(t, i == 2 || i == 3 || i == 5, h.Value != nil, h.Name)
	}
}

func TestMoreFishNeverCleanTheWater(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := koiPond()
		in.Load = unit.GramsPerDay(rapid.Float64Range(0, 200).Draw(t, "load"))
		in.WeeklyChange = unit.Ratio(rapid.Float64Range(0.001, 1).Draw(t, "change"))
		in.Temperature = unit.Celsius(rapid.Float64Range(0, 40).Draw(t, "celsius"))
		few, err := balance.Settle(nil, in)
		require.NoError(t, err)
		in.Load *= 1.5
		many, err := balance.Settle(nil, in)
		require.NoError(t, err)
		assert.LessOrEqual(t, few.TAN, many.TAN)
		assert.LessOrEqual(t, few.TAN, few.TANHigh)
		assert.LessOrEqual(t, few.Nitrate.Before, many.Nitrate.Before)
		assert.False(t, math.IsNaN(float64(many.TANHigh)) || math.IsInf(float64(many.TANHigh), 0))
	})
}

func codes(findings []finding.Finding) []string {
	var list []string
	for _, f := range findings {
		list = append(list, f.Code)
	}
	return list
}

func BenchmarkSettle(b *testing.B) {
	in := koiPond()
	b.ReportAllocs()
	for b.Loop() {
		_, _ = balance.Settle(nil, in)
	}
}

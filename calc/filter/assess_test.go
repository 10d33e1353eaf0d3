package filter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/unit"
)

func koiPond() filter.AssessInput {
	return filter.AssessInput{
		Filter:      filter.Filter{Medium: filter.MovingCarrier, Surface: unit.SquareMetres(150)},
		Load:        unit.GramsPerDay(14.1),
		Temperature: 20, PH: 7.5,
		Flow:   unit.LitresPerHour(10_000),
		Margin: 0.25,
	}
}

// 150 m² at the geometric mean of 0.2 and 0.5 g/m² a day is 47.4 g; wanted are 14.1 g and a quarter, 17.6 g. At pH 7.5
// the un-ionised limit of 0.02 mg/L is met at 1.62 mg/L of total ammonia (grid of Emerson et al. 1975), so the cap of
// 1 mg/L holds and the least flow is 14.1 m³ a day.
func TestAssessAKoiPond(t *testing.T) {
	a, err := filter.Assess(nil, koiPond())
	require.NoError(t, err)
	assert.InDelta(t, 47.4, a.Capacity.Expected.GramsPerDay(), 0.05)
	assert.InDelta(t, 17.6, a.CapacityWanted.GramsPerDay(), 0.05)
	assert.InDelta(t, 47.43/17.625-1, a.Headroom.Float(), 0.001)
	assert.Equal(t, 1.0, a.TANLimit.MilligramsPerLitre())
	assert.InDelta(t, 14_100/24.0, a.LeastFlow.LitresPerHour(), 1e-6)
	assert.InDelta(t, 0.0124, a.UnionisedShare.Float(), 0.00005)
	assert.Empty(t, a.Findings)
}

// Mass balance in the words of the trade: to hold 0.1 mg/L while 5 g a day are taken out, the filter must see 50,000 L a
// day.
func TestLeastFlowByMassBalance(t *testing.T) {
	q := filter.LeastFlow.Eval(filter.LeastFlowInput{Load: unit.GramsPerDay(5), Limit: unit.MilligramsPerLitre(0.1)})
	assert.InEpsilon(t, 50_000, q.LitresPerDay(), 1e-12)
}

func TestAssessWithoutLoad(t *testing.T) {
	in := koiPond()
	in.Load, in.Flow = 0, 0
	a, err := filter.Assess(nil, in)
	require.NoError(t, err)
	assert.Zero(t, a.Headroom)
	assert.Zero(t, a.LeastFlow)
	assert.Zero(t, a.CapacityWanted)
	assert.Empty(t, a.Findings)
}

func TestVerdicts(t *testing.T) {
	cases := map[string]struct {
		change   func(*filter.AssessInput)
		severity finding.Severity
	}{
		"FILTER_BELOW_LOAD":     {func(in *filter.AssessInput) { in.Filter.Surface = 40 }, finding.Stop},
		"FILTER_BELOW_MARGIN":   {func(in *filter.AssessInput) { in.Filter.Surface, in.Margin = 80, 1 }, finding.Caution},
		"FILTER_RATE_UNCERTAIN": {func(in *filter.AssessInput) { in.Filter.Surface = 65 }, finding.Caution},
		"FILTER_FLOW_NOT_GIVEN": {func(in *filter.AssessInput) { in.Flow = 0 }, finding.Note},
		"FILTER_FLOW_TOO_SMALL": {func(in *filter.AssessInput) { in.Flow = unit.LitresPerHour(500) }, finding.Stop},
		"FILTER_WATER_ACID":     {func(in *filter.AssessInput) { in.PH = 6.8 }, finding.Caution},
		"FILTER_COLD":           {func(in *filter.AssessInput) { in.Temperature, in.Load = 6, 0 }, finding.Note},
		"FILTER_WATER_TOO_WARM": {func(in *filter.AssessInput) { in.Temperature = 32 }, finding.Caution},
	}
	for code, c := range cases {
		t.Run(code, func(t *testing.T) {
			in := koiPond()
			c.change(&in)
			a, err := filter.Assess(nil, in)
			require.NoError(t, err)
			require.Equal(t, []string{code}, codes(a.Findings))
			assert.Equal(t, c.severity, a.Findings[0].Severity)
			assert.NotEmpty(t, a.Findings[0].Change)
		})
	}
}

// Fresh mortar: at pH 9.5 and 20 °C more than half of the ammonia is un-ionised, and a filter that carries the fish at
// pH 7.5 no longer can at the ammonia that is allowed.
func TestAlkalineWaterTurnsAFilterTooSmall(t *testing.T) {
	in := koiPond()
	in.PH = 9.5
	a, err := filter.Assess(nil, in)
	require.NoError(t, err)
	assert.Equal(t, []string{"FILTER_BELOW_LOAD", "FILTER_FLOW_TOO_SMALL", "PH_OUTSIDE_FISH_WATER"}, codes(a.Findings))
	assert.Greater(t, a.UnionisedShare.Float(), 0.5)
}

func TestAssessNamesEveryProblem(t *testing.T) {
	_, err := filter.Assess(nil, filter.AssessInput{
		Load: -1, Temperature: 99, PH: math.NaN(), Flow: -1, Margin: -1, TANLimit: 1e-9,
	})
	assert.Equal(t, []string{
		"medium", "surface_m2", "water_temperature_c", "tan_load_g_per_day", "ph", "flow_l_per_h", "margin", "tan_mg_per_l",
	}, fields(t, err))
}

func TestAssessIsFinite(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		a, err := filter.Assess(nil, filter.AssessInput{
			Filter:      filter.Filter{Medium: filter.Medium(rapid.IntRange(1, 6).Draw(t, "medium")), MediaVolume: unit.Litres(rapid.Float64Range(0.1, 1000).Draw(t, "litres"))},
			Load:        unit.GramsPerDay(rapid.Float64Range(0, 1e6).Draw(t, "load")),
			Temperature: unit.Celsius(rapid.Float64Range(0, 40).Draw(t, "celsius")),
			PH:          rapid.Float64Range(5, 11).Draw(t, "pH"),
			Margin:      unit.Ratio(rapid.Float64Range(0, 10).Draw(t, "margin")),
		})
		require.NoError(t, err)
		for _, v := range []float64{float64(a.Capacity.Low), float64(a.Capacity.High), float64(a.Headroom), float64(a.LeastFlow), float64(a.TANLimit)} {
			assert.False(t, math.IsNaN(v) || math.IsInf(v, 0))
		}
	})
}

func BenchmarkAssess(b *testing.B) {
	in := koiPond()
	b.ReportAllocs()
	for b.Loop() {
		_, _ = filter.Assess(nil, in)
	}
}

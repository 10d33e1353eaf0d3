package solids_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/solids"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
)

// tenDigits is half a unit of the last digit of a table printed to ten significant digits, at its widest.
const tenDigits = 5e-10

// Worked elsewhere (Python, root by scipy) from Kozeny–Carman and a mass balance.
func TestIntervalAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/foam_clogging_interval.csv") {
		clean := unit.Ratio(row.Float("clean_porosity"))
		full := solids.Full.Eval(solids.FullInput{Clean: clean, Ratio: unit.Ratio(row.Float("allowed_headloss_ratio"))})
		assert.InEpsilon(t, row.Float("porosity_at_limit"), full.Float(), tenDigits)
		got := solids.Interval.Eval(solids.IntervalInput{
			Clean: clean, Full: full, Volume: unit.Litres(row.Float("media_volume_L")),
			Deposit: unit.Density(row.Float("deposit_dry_density_kg_per_m3")),
			Solids:  unit.GramsPerDay(row.Float("TSS_load_g_per_day")), Capture: unit.Ratio(row.Float("capture_fraction")), Uneven: 1,
		})
		assert.InEpsilon(t, row.Float("interval_days"), got.Days(), 1e-8) // clean less full loses a digit
	}
}

func TestFlushWaterAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/backwash_water.csv") {
		q := solids.FlushWater.Eval(solids.FlushInput{
			Each: unit.Litres(row.Float("backwash_L_each")), Every: unit.Days(7 / row.Float("backwashes_per_week")),
		})
		assert.InEpsilon(t, row.Float("water_L_per_day"), q.LitresPerDay(), tenDigits)
		assert.InEpsilon(t, row.Float("weekly_change_pct"), 100*7*q.LitresPerDay()/1000/row.Float("pond_m3"), tenDigits)
	}
}

func TestFullTurnsHeadRatioRound(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		clean := unit.Ratio(rapid.Float64Range(0.3, 0.99).Draw(t, "clean"))
		ratio := unit.Ratio(rapid.Float64Range(1.1, 100).Draw(t, "ratio"))
		full := solids.Full.Eval(solids.FullInput{Clean: clean, Ratio: ratio})
		assert.Less(t, full, clean)
		back := solids.HeadRatio.Eval(solids.HeadRatioInput{Clean: clean, Fouled: full})
		assert.InEpsilon(t, ratio.Float(), back.Float(), 1e-11) // the root to the last bits, magnified by the slope
	})
}

func goldfishPond() solids.Input {
	return solids.Input{
		Medium: filter.Foam, Volume: unit.Litres(80), HeadRatio: 3, Flush: unit.Litres(40), Pond: unit.Litres(4000), Protein: 0.35,
		Fish:   []stock.Group{{Species: stock.Goldfish, Count: 20, Length: unit.Centimetres(12), GrownLength: unit.Centimetres(20)}},
		Months: [12]unit.Temperature{4, 4, 7, 11, 15, 19, 21, 21, 17, 12, 8, 5},
	}
}

func TestAYearOfCleaning(t *testing.T) {
	y, err := solids.OverYear(nil, goldfishPond())
	require.NoError(t, err)
	january, july := y.Months[0], y.Months[6]
	assert.Zero(t, january.Solids)
	assert.Equal(t, 365.0, january.Expected.Days())
	assert.Positive(t, july.Solids)
	// By hand: 20 goldfish of 129.4 g at 21 °C eat 36.9 g and leave 9.23 g; at three times the head ε = 0.9497, so 80 L hold
	// 0.0203 x 80 x 30.6 = 49.8 g, of which a third is usable and 45 % of the solids stay.
	assert.InDelta(t, 9.23, july.Solids.GramsPerDay(), 0.005)
	assert.InDelta(t, 49.8/(3*0.45*9.23), july.Expected.Days(), 0.02)
	assert.InEpsilon(t, 20.4/(4*0.6)/(30.6/(3*0.45)), float64(july.Early/july.Expected), 1e-12)
	assert.InEpsilon(t, 40.8/(2*0.3)/(30.6/(3*0.45)), float64(july.Late/july.Expected), 1e-12)
	assert.Equal(t, []string{"OPEN_SHARE_ASSUMED", "CLEAN_IN_POND_WATER", "FLUSHES_CHANGE_WATER", "CLEANING_TOO_OFTEN"}, codes(y.Findings))
	assert.InDelta(t, 40*july.Flushes/31*7/4000, july.WeeklyShare.Float(), 1e-12)

	var flushes float64
	for _, m := range y.Months {
		flushes += m.Flushes
	}
	assert.InDelta(t, flushes, y.Flushes, 1e-12)
	assert.InDelta(t, 40*flushes, y.Water.Litres(), 1e-9)
	assert.InDelta(t, y.Water.Litres()/4000, y.Share.Float(), 1e-12)
}

func TestMoreFoamNeverNeedsMoreCleaning(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := goldfishPond()
		in.Volume = unit.Litres(rapid.Float64Range(1, 500).Draw(t, "foam"))
		in.Fish[0].Count = rapid.IntRange(1, 100).Draw(t, "count")
		less, err := solids.OverYear(nil, in)
		require.NoError(t, err)
		in.Volume *= 2
		more, err := solids.OverYear(nil, in)
		require.NoError(t, err)
		assert.LessOrEqual(t, more.Flushes, less.Flushes)
	})
}

// Grains packed at random leave 36 to 40 % open (handbooks, from memory). What tumbles or trickles holds no dirt.
func TestBedsOfOtherMedia(t *testing.T) {
	in := goldfishPond()
	in.Medium, in.Clean = filter.FloatingBead, 0.4
	given, err := solids.OverYear(nil, in)
	require.NoError(t, err)
	in.Clean = 0
	beads, err := solids.OverYear(nil, in)
	require.NoError(t, err)
	assert.Equal(t, given.Months, beads.Months)
	assert.Equal(t, 40.0, beads.Findings[0].Value.Number)
	for _, m := range []filter.Medium{filter.MovingCarrier, filter.Trickling, 0} {
		in.Medium = m
		_, err := solids.OverYear(nil, in)
		assert.ErrorContains(t, err, "filter.medium")
	}
}

func TestCleaningTooOften(t *testing.T) {
	in := goldfishPond()
	in.Volume, in.Clean, in.HeadRatio, in.Flush = unit.Litres(2), 0.95, 0, 0
	y, err := solids.OverYear(nil, in)
	require.NoError(t, err)
	assert.Equal(t, []string{"DUE_HEAD_ASSUMED", "CLEAN_IN_POND_WATER", "FLUSH_WATER_NOT_KNOWN", "CLEANING_TOO_OFTEN"}, codes(y.Findings))
	assert.Zero(t, y.Water)
	require.Less(t, y.Months[6].Late, unit.Days(1))
	assert.Equal(t, finding.Stop, y.Findings[3].Severity, "more than once a day")

	// Forty litres a flush of a pond of 4,000 L is a hundredth: more than thirty flushes a week are a shock to fish.
	in.Volume, in.Flush = unit.Litres(0.5), unit.Litres(40)
	y, err = solids.OverYear(nil, in)
	require.NoError(t, err)
	require.Greater(t, y.Months[6].WeeklyShare.Float(), 0.3)
	assert.Equal(t, finding.Caution, y.Findings[2].Severity)
	in.Volume = unit.Litres(80)
	y, err = solids.OverYear(nil, in)
	require.NoError(t, err)
	require.Less(t, y.Months[6].WeeklyShare.Float(), 0.3)
	assert.Equal(t, finding.Note, y.Findings[2].Severity)
	require.Greater(t, y.Months[6].Late, unit.Days(1))
	assert.Equal(t, finding.Caution, y.Findings[3].Severity)
}

func TestOverYearNamesEveryProblem(t *testing.T) {
	_, err := solids.OverYear(nil, solids.Input{Clean: 2, Months: [12]unit.Temperature{11: 99}})
	var problems input.Errors
	require.ErrorAs(t, err, &problems)
	var list []string
	for _, p := range problems {
		list = append(list, p.Field)
	}
	assert.Equal(t, []string{"filter.medium", "filter.medium_l", "open_percent", "pond_volume_l", "water_temperatures_c[11]"}, list)
	in := goldfishPond()
	in.Fish[0].Count = 0
	_, err = solids.OverYear(nil, in)
	assert.ErrorContains(t, err, "groups[0].count")
}

func codes(findings []finding.Finding) []string {
	var list []string
	for _, f := range findings {
		list = append(list, f.Code)
	}
	return list
}

func BenchmarkOverYear(b *testing.B) {
	in := goldfishPond()
	b.ReportAllocs()
	for b.Loop() {
		_, _ = solids.OverYear(nil, in)
	}
}

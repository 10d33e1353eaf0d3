package stock_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// The coefficients are those of Timmons & Ebeling (from memory), multiplied out elsewhere. The last column is measured:
// 39.4 % of the nitrogen fed came out as ammonia (red tilapia, read in the abstract), and the design figure must not be
// below it.
func TestWasteFromFeedAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/waste_per_feed.csv") {
		got := stock.WasteFromFeed.Eval(stock.WasteInput{
			Feed:    unit.GramsPerDay(1000 * row.Float("feed_kg_per_day")),
			Protein: unit.Ratio(row.Float("protein_fraction")),
		})
		assert.InEpsilon(t, row.Float("TAN_g_per_day"), got.TAN.GramsPerDay(), tenDigits)
		assert.InEpsilon(t, row.Float("O2_fish_g_per_day"), got.OxygenDemand.GramsPerDay(), tenDigits)
		assert.InEpsilon(t, row.Float("CO2_fish_g_per_day"), got.CarbonDioxide.GramsPerDay(), tenDigits)
		assert.InEpsilon(t, row.Float("TSS_g_per_day"), got.Solids.GramsPerDay(), tenDigits)
		assert.Greater(t, got.TAN.GramsPerDay(), row.Float("TAN_if_39p4pct_of_N_g_per_day"))
	}
}

// 1 kg of feed with 35 % protein leaves 32.2 g of ammonia nitrogen (Timmons & Ebeling, from memory), so 32.2 g come of 1 kg.
func TestFeedForAmmonia(t *testing.T) {
	assert.InDelta(t, 1000, stock.FeedFor(unit.GramsPerDay(32.2), 0.35).GramsPerDay(), 1e-9)
	assert.Equal(t, stock.FeedFor(1, 0.35), stock.FeedFor(1, 0))
}

// A formal koi pond of 14 fish: 45 cm now, 70 cm later. The mass is that of the length–mass table, the ration a fish's
// mass to the power 0.8 times 1.1667 % at 20 °C, all by hand.
func TestLoadsOfAKoiPond(t *testing.T) {
	trail := new(working.Trail)
	koi := []stock.Group{{Species: stock.Koi, Count: 14, Length: unit.Centimetres(45), GrownLength: unit.Centimetres(70)}}
	now, grown, findings, err := stock.Loads(trail, koi, stock.Feeding{Temperature: 20, Protein: 0.35})
	require.NoError(t, err)

	assert.Equal(t, 14, now.Count)
	assert.InDelta(t, 18.16, now.Mass.Kilograms(), 0.005)
	assert.InDelta(t, 68.07, grown.Mass.Kilograms(), 0.005)
	assert.InDelta(t, 439, grown.Feed.GramsPerDay(), 0.5)
	assert.InDelta(t, 14.1, grown.TAN.GramsPerDay(), 0.05)
	assert.Equal(t, []string{"KOI_MAY_BE_HEAVIER"}, codes(findings))

	assert.Len(t, trail.Steps(), 2*4)
	for _, step := range trail.Steps() {
		assert.True(t, step.Replay())
	}
}

func TestLoadsSayWhatWasAssumed(t *testing.T) {
	groups := []stock.Group{
		{Species: stock.Goldfish, Count: 12, Length: unit.Centimetres(8)},
		{Species: stock.Other, Count: 2, Length: unit.Centimetres(60), GrownLength: unit.Centimetres(60)},
		{Species: stock.Goldfish, Count: 1, Length: unit.Centimetres(30)},
	}
	now, grown, findings, err := stock.Loads(nil, groups, stock.Feeding{Temperature: 6})
	require.NoError(t, err)
	assert.Equal(t, []string{"GROWN_LENGTH_ASSUMED", "FISH_MASS_GENERAL", "PROTEIN_ASSUMED", "WATER_TOO_COLD_TO_FEED"}, codes(findings))
	assert.Equal(t, finding.Caution, findings[1].Severity)
	assert.Zero(t, now.TAN)
	assert.Zero(t, grown.OxygenDemand)
	assert.Greater(t, grown.Mass, now.Mass)
}

func TestLoadsOfNoFishAreNothing(t *testing.T) {
	now, grown, findings, err := stock.Loads(nil, nil, stock.Feeding{Temperature: 4, Protein: 0.35})
	require.NoError(t, err)
	assert.Zero(t, now)
	assert.Zero(t, grown)
	assert.Empty(t, findings)
}

func TestLoadsNameEveryProblem(t *testing.T) {
	groups := []stock.Group{
		{Count: 1, Length: 0.2},
		{Species: stock.Koi, Count: -1, Length: unit.Length(math.NaN()), GrownLength: 3},
	}
	_, _, _, err := stock.Loads(nil, groups, stock.Feeding{Temperature: unit.Temperature(math.Inf(1)), Protein: 35})
	var problems input.Errors
	require.ErrorAs(t, err, &problems)
	var fields []string
	for _, p := range problems {
		fields = append(fields, p.Field)
	}
	assert.Equal(t, []string{"groups[0].species", "groups[1].count", "groups[1].length_cm", "groups[1].grown_length_cm", "water_temperature_c", "protein_percent"}, fields)
}

func TestMoreFishAreNeverLessLoad(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		group := drawGroup(t)
		feeding := stock.Feeding{Temperature: unit.Celsius(rapid.Float64Range(-2, 40).Draw(t, "celsius")), Protein: 0.35}
		few, fewGrown, _, err := stock.Loads(nil, []stock.Group{group}, feeding)
		require.NoError(t, err)
		many, manyGrown, _, err := stock.Loads(nil, []stock.Group{group, drawGroup(t)}, feeding)
		require.NoError(t, err)
		assert.GreaterOrEqual(t, many.TAN, few.TAN)
		assert.Greater(t, many.Mass, few.Mass)
		assert.GreaterOrEqual(t, manyGrown.Solids, fewGrown.Solids)
		assert.GreaterOrEqual(t, fewGrown.Mass, few.Mass)
	})
}

func drawGroup(t *rapid.T) stock.Group {
	return stock.Group{
		Species: stock.Species(rapid.IntRange(1, 4).Draw(t, "species")),
		Count:   rapid.IntRange(1, 100).Draw(t, "count"),
		Length:  unit.Metres(rapid.Float64Range(0.01, 1.5).Draw(t, "length")),
	}
}

func codes(findings []finding.Finding) []string {
	var list []string
	for _, f := range findings {
		list = append(list, f.Code)
	}
	return list
}

func BenchmarkLoads(b *testing.B) {
	groups := []stock.Group{
		{Species: stock.Goldfish, Count: 20, Length: unit.Centimetres(18), GrownLength: unit.Centimetres(22)},
		{Species: stock.Koi, Count: 5, Length: unit.Centimetres(35), GrownLength: unit.Centimetres(60)},
	}
	b.ReportAllocs()
	for b.Loop() {
		_, _, _, _ = stock.Loads(nil, groups, stock.Feeding{Temperature: 20, Protein: 0.35})
	}
}

package stock_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
)

func years(n float64) unit.Time { return unit.Days(365.25 * n) }

// Von Bertalanffy curves worked elsewhere (Python): each year must follow from the year before.
func TestGrowthAgainstTable(t *testing.T) {
	rows := reftest.Table(t, "filtration/fish_growth_vb.csv")
	for i, row := range rows[1:] {
		before := rows[i]
		if before.Text("set") != row.Text("set") {
			continue
		}
		got := stock.Growth.Eval(stock.GrowthInput{
			Length: unit.Centimetres(before.Float("length_cm")), Grown: unit.Centimetres(row.Float("Linf_cm")),
			Rate: unit.PerTime(row.Float("K_per_year") / years(1).Seconds()), Time: years(1),
		})
		assert.InEpsilon(t, row.Float("length_cm"), got.Centimetres(), 2*tenDigits)
	}
}

// FAO, common carp, growth: farmed in temperate ponds 25 to 50 g after one summer, 250 to 500 g after two, 1.2 to 1.8 kg
// after three. Koi in a garden must not outgrow those, and stay within a factor of four of them.
func TestGrowthAgainstFarmedCarp(t *testing.T) {
	rows := reftest.Table(t, "filtration/fish_growth_fao.csv")
	farmed := make(map[string]reftest.Row)
	for _, row := range rows {
		farmed[row.Text("basis")] = row
	}
	summers := func(n float64) float64 {
		load, _, err := stock.Ahead(nil, []stock.Group{{Species: stock.Koi, Count: 1, Length: unit.Centimetres(14)}}, stock.Feeding{Temperature: 20}, years(n-1))
		require.NoError(t, err)
		return load.Mass.Kilograms()
	}
	first := farmed["temperate_pond_fingerling_1_summer"]
	assert.Greater(t, summers(1), first.Float("mass_kg_low"))
	assert.Less(t, summers(1), first.Float("mass_kg_high"))
	for n, basis := range map[float64]string{2: "temperate_pond_grower_2_summers", 3: "temperate_pond_table_fish_3_summers"} {
		assert.Less(t, summers(n), farmed[basis].Float("mass_kg_high"))
		assert.Greater(t, 4*summers(n), farmed[basis].Float("mass_kg_low"))
	}
}

func TestAheadAddsPlannedFish(t *testing.T) {
	there := []stock.Group{{Species: stock.Koi, Count: 2, Length: unit.Centimetres(40), GrownLength: unit.Centimetres(60)}}
	later := stock.Group{Species: stock.Goldfish, Count: 5, Length: unit.Centimetres(10), After: years(2)}
	planned := append(there, later)
	feeding := stock.Feeding{Temperature: 20, Protein: 0.35}

	now, _, err := stock.Ahead(nil, planned, feeding, 0)
	require.NoError(t, err)
	plain, grown, _, err := stock.Loads(nil, there, feeding)
	require.NoError(t, err)
	assert.Equal(t, plain, now)

	both, all, _, err := stock.Loads(nil, planned, feeding) // now without them, grown with
	require.NoError(t, err)
	assert.Equal(t, now, both)
	assert.Equal(t, grown.Count+5, all.Count)

	soon, findings, err := stock.Ahead(nil, planned, feeding, years(3))
	require.NoError(t, err)
	assert.Equal(t, 7, soon.Count)
	koi, _, err := stock.Ahead(nil, there, feeding, years(3))
	require.NoError(t, err)
	later.After = 0
	goldfish, _, err := stock.Ahead(nil, []stock.Group{later}, feeding, years(1)) // in the pond for one year
	require.NoError(t, err)
	assert.InEpsilon(t, float64(koi.Mass+goldfish.Mass), float64(soon.Mass), 1e-12)
	assert.Contains(t, codes(findings), "GROWTH_ASSUMED")

	old, _, err := stock.Ahead(nil, there, feeding, years(90))
	require.NoError(t, err)
	assert.InEpsilon(t, float64(grown.TAN), float64(old.TAN), 1e-6) // e^-18 is left to grow

	_, _, err = stock.Ahead(nil, []stock.Group{{After: -1}}, stock.Feeding{Temperature: 99}, -1)
	assert.ErrorContains(t, err, "groups[0].count")
	assert.ErrorContains(t, err, "groups[0].after_years")
	assert.ErrorContains(t, err, "water_temperature_c")
	assert.ErrorContains(t, err, "after_years")
}

func TestYears(t *testing.T) {
	groups := []stock.Group{
		{Species: stock.Koi, Count: 2, Length: unit.Centimetres(40)},
		{Species: stock.Goldfish, Count: 5, Length: unit.Centimetres(10), After: years(2)},
	}
	feeding := stock.Feeding{Temperature: 20, Protein: 0.35}
	loads, found, err := stock.Years(nil, groups, feeding, 3)
	require.NoError(t, err)
	require.Len(t, loads, 4)
	assert.Contains(t, codes(found), "GROWTH_ASSUMED")
	for y, load := range loads {
		want, _, err := stock.Ahead(nil, groups, feeding, years(float64(y)))
		require.NoError(t, err)
		assert.Equal(t, want, load)
		assert.Equal(t, map[bool]int{false: 2, true: 7}[y >= 2], load.Count)
	}
}

// Whoever asks for the grown fish, or for the fish of a day, gets fish whose load is the load of that day.
func TestGrownAndThenAreThatDay(t *testing.T) {
	groups := []stock.Group{
		{Species: stock.Koi, Count: 2, Length: unit.Centimetres(40)},
		{Species: stock.Goldfish, Count: 5, Length: unit.Centimetres(10), After: years(2)},
	}
	feeding := stock.Feeding{Temperature: 20, Protein: 0.35}
	_, want, _, err := stock.Loads(nil, groups, feeding)
	require.NoError(t, err)
	grown, found, err := stock.Grown(groups)
	require.NoError(t, err)
	assert.Equal(t, []string{"GROWN_LENGTH_ASSUMED", "GROWN_LENGTH_ASSUMED"}, codes(found))
	now, later, _, err := stock.Loads(nil, grown, feeding)
	require.NoError(t, err)
	assert.Equal(t, want, now)
	assert.Equal(t, want, later)

	soon, _, err := stock.Then(nil, groups, years(1))
	require.NoError(t, err)
	assert.Len(t, soon, 1)
	assert.InDelta(t, 70-30*0.818731, soon[0].Length.Centimetres(), 1e-4) // e^-0.2 to six digits
	_, _, err = stock.Grown([]stock.Group{{}})
	assert.Error(t, err)
}

// The relation as computed elsewhere (Python); rows outside the range of its fish check the arithmetic only, and the
// formula must own up to them.
func TestRespirationAgainstTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/fish_respiration.csv") {
		in := stock.RespirationInput{Mass: unit.Grams(row.Float("fish_mass_g")), Temperature: unit.Celsius(row.Float("temp_C"))}
		perHour := stock.Respiration.Eval(in).GramsPerDay() * 1000 / 24
		assert.InEpsilon(t, row.Float("routine_mgO2_per_fish_h"), perHour, tenDigits)
		assert.InEpsilon(t, row.Float("critical_DO_mg_per_L"), stock.CriticalOxygen.Eval(in).MilligramsPerLitre(), tenDigits)
		assert.Equal(t, row.Text("in_range") == "true", stock.Respiration.Outside(in) == "")
	}
}

// Resting oxygen is that of each fish, by number; fish larger than those measured are owned up to.
func TestRestingOxygen(t *testing.T) {
	carp := stock.Group{Species: stock.Carp, Count: 10, Length: unit.Centimetres(12)}
	one := stock.Respiration.Eval(stock.RespirationInput{Mass: unit.Grams(0.01479 * 1685.5), Temperature: 20}) // 12^2.99 to five digits
	sum, found, err := stock.RestingOxygen(nil, []stock.Group{carp}, 20)
	require.NoError(t, err)
	assert.InEpsilon(t, 10*one.GramsPerDay(), sum.GramsPerDay(), 1e-4)
	assert.Empty(t, found)
	carp.Length = unit.Centimetres(60)
	_, found, err = stock.RestingOxygen(nil, []stock.Group{carp, carp}, 20)
	require.NoError(t, err)
	assert.Equal(t, []string{"RESPIRATION_STRETCHED"}, codes(found))
}

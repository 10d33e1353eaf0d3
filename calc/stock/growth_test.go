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
		load, _, err := stock.Ahead(nil, []stock.Group{{Species: stock.Koi, Count: 1, Length: unit.Centimetres(14)}}, nil, stock.Feeding{Temperature: 20}, years(n-1))
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
	later := []stock.Addition{{Group: stock.Group{Species: stock.Goldfish, Count: 5, Length: unit.Centimetres(10)}, After: years(2)}}
	feeding := stock.Feeding{Temperature: 20, Protein: 0.35}

	now, _, err := stock.Ahead(nil, there, later, feeding, 0)
	require.NoError(t, err)
	plain, grown, _, err := stock.Loads(nil, there, feeding)
	require.NoError(t, err)
	assert.Equal(t, plain, now)

	soon, findings, err := stock.Ahead(nil, there, later, feeding, years(3))
	require.NoError(t, err)
	assert.Equal(t, 7, soon.Count)
	koi, _, err := stock.Ahead(nil, there, nil, feeding, years(3))
	require.NoError(t, err)
	goldfish, _, err := stock.Ahead(nil, []stock.Group{later[0].Group}, nil, feeding, years(1)) // in the pond for one year
	require.NoError(t, err)
	assert.InEpsilon(t, float64(koi.Mass+goldfish.Mass), float64(soon.Mass), 1e-12)
	assert.Contains(t, codes(findings), "GROWTH_ASSUMED")

	old, _, err := stock.Ahead(nil, there, nil, feeding, years(90))
	require.NoError(t, err)
	assert.InEpsilon(t, float64(grown.TAN), float64(old.TAN), 1e-6) // e^-18 is left to grow

	_, _, err = stock.Ahead(nil, there, []stock.Addition{{}}, feeding, -1)
	assert.ErrorContains(t, err, "additions[0].count")
	assert.ErrorContains(t, err, "after_years")
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

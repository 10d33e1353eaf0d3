package stock_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
)

func ration(celsius, grams float64) float64 {
	in := stock.RationInput{Temperature: unit.Celsius(celsius), Mass: unit.Grams(grams)}
	return 100 * stock.Ration.Eval(in).PerDay()
}

// The table is the rule computed elsewhere (Python): it checks that the rule was written down right, not that it is
// right. The two tests that follow hold the rule against measurements.
func TestRationAgainstItsTable(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/feeding_design_rule.csv") {
		got := ration(row.Float("temp_C"), row.Float("fish_mass_g"))
		if want := row.Float("feed_pct_bw_per_day"); want != 0 {
			assert.InEpsilon(t, want, got, tenDigits)
		} else {
			assert.Zero(t, got)
		}
	}
}

// Juvenile carp need so much to hold their mass, and eat no more than grows them fastest and some (conversion of 2 kg
// feed to 1 kg of fish): Goolish & Adelman 1984, abstract. Juveniles are taken to weigh 20 g.
func TestRationLiesBetweenMaintenanceAndFullGrowth(t *testing.T) {
	for _, row := range reftest.Table(t, "filtration/feeding_goolish_adelman.csv") {
		got := ration(row.Float("temp_C"), 20)
		maintenance, growth := row.Float("maintenance_ration_pct_bw_per_day"), row.Float("max_growth_pct_bw_per_day")
		assert.Greater(t, got, maintenance)
		assert.Less(t, got, maintenance+2*growth)
	}
}

// Grow-out practice is 1 to 2 % a day: FAO Technical Paper 589, chapter 7 (as reproduced). Feeding practically stops
// below about 8 °C: FAO, common carp.
func TestRationLiesWithinPractice(t *testing.T) {
	for _, celsius := range []float64{18, 20, 24, 28} {
		assert.GreaterOrEqual(t, ration(celsius, 250), 1.0)
		assert.LessOrEqual(t, ration(celsius, 250), 2.0)
	}
	assert.Zero(t, ration(8, 250))
	assert.Positive(t, ration(8.1, 250))
}

func TestRationRisesWithWarmthAndFallsWithSize(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		celsius := rapid.Float64Range(-2, 40).Draw(t, "celsius")
		grams := rapid.Float64Range(1, 10_000).Draw(t, "grams")
		assert.LessOrEqual(t, ration(celsius, grams), ration(celsius+1, grams))
		assert.GreaterOrEqual(t, ration(celsius, grams), ration(celsius, 1.1*grams))
		// A larger fish eats more, though less for its size.
		assert.LessOrEqual(t, grams*ration(celsius, grams), 1.1*grams*ration(celsius, 1.1*grams))
	})
}

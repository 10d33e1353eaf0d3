package filter_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/oxygen"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// Worked examples of texts on water and fish farming, each to half a unit of the last digit printed; the table says where
// each stands and whether it was read. Chlorinity is turned to salinity by 1.80655 (UNESCO 1969, from memory).
func TestWorkedExamples(t *testing.T) {
	held := func(salt float64, p unit.Pressure) float64 {
		return water.OxygenSaturation.Eval(water.OxygenInput{Temperature: 20, Pressure: p, Salinity: unit.Ratio(salt / 1000)}).MilligramsPerLitre()
	}
	feed := stock.Feed.Eval(stock.FeedInput{Count: 4000, Mass: unit.Kilograms(1), Ration: unit.PerDay(0.015)})
	waste := stock.WasteFromFeed.Eval(stock.WasteInput{Feed: unit.GramsPerDay(60_000), Protein: 0.4})
	computed := map[string]float64{
		"unionised_1":     1.0 * share(24, 8.0),
		"unionised_2":     share(20, 8.0),
		"unionised_3":     share(30, 8.4),
		"oxygen_1":        math.Log(held(0, water.Atmosphere)),
		"oxygen_2":        held(1.80655*15, water.Atmosphere),
		"oxygen_3":        held(0, 0.7*water.Atmosphere),
		"nitrification_1": oxygen.FilterDemand.Eval(oxygen.FilterDemandInput{TAN: unit.GramsPerDay(1)}).GramsPerDay(),
		"feed_1":          feed.GramsPerDay() / 1000,
		"feed_2":          waste.TAN.GramsPerDay() / 1000,
	}
	rows := reftest.Table(t, "filtration/worked_examples.csv")
	require.Len(t, rows, len(computed))
	for _, row := range rows {
		got, ok := computed[row.Text("id")]
		require.True(t, ok, row.Text("id"))
		assert.InDelta(t, row.Float("published"), got, row.HalfDigit("published"), row.Text("quantity"))
	}
}

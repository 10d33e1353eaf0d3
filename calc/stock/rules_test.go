package stock_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
)

// Limits worked by hand from the words of each rule for a patio pond of 3.60 m² and 1,764 L, to the nearest whole:
// 36,000 cm² / 60; 38.75 ft² at 2 in and 1 in; 466 US gallons at 1 in for 10 and for 20. Common practice, no source.
func TestRulesOfAPatioPond(t *testing.T) {
	goldfish := []stock.Group{{Species: stock.Goldfish, Count: 12, Length: unit.Centimetres(8), GrownLength: unit.Centimetres(20)}}
	rules := stock.Rules(3.6, unit.Litres(1764), goldfish)
	limits := map[string]float64{
		"60 cm² of surface for each cm of fish":                 600,
		"2 in of fish for each ft² of open water":               197,
		"1 in of fish for each ft²":                             98,
		"1 in of fish for each 10 US gallons":                   118,
		"1 in of fish for each 20 US gallons, for an easy life": 59,
		"25 cm of goldfish for each m², comfortable":            90,
		"50 cm of goldfish for each m², at most":                180,
		"filtered goldfish pond: 1 kg/m³":                       2,
		"koi pond with a good filter: 2 kg/m³":                  4,
		"garden pond with plants and a small filter: 0.5 kg/m³": 1,
		"more than a garden keeper should try: 3 kg/m³":         5,
	}
	require.Len(t, rules, len(limits))
	for _, r := range rules {
		assert.InDelta(t, limits[r.Name], r.Limit.Number, 0.5, r.Name)
		assert.Equal(t, source.CommonPractice, r.Source.Status)
		if r.Limit.Unit == "cm" {
			assert.InDelta(t, 12*8, r.Value.Number, 1e-9, r.Name)
			assert.InDelta(t, 12*20, r.Grown.Number, 1e-9, r.Name)
		}
	}
}

// 28,200 L are 7,450 US gallons: 6,450 beyond the first thousand, for 32.2 or 64.5 more fish.
func TestRulesCountKoiByHead(t *testing.T) {
	koi := []stock.Group{{Species: stock.Koi, Count: 14, Length: unit.Centimetres(45)}}
	rules := stock.Rules(0, unit.Litres(28_200), koi)
	byHead := rules[len(rules)-2:]
	assert.InDelta(t, 33, byHead[0].Limit.Number, 0.5)
	assert.InDelta(t, 65, byHead[1].Limit.Number, 0.5)
	assert.Equal(t, 14.0, byHead[0].Value.Number)
	assert.Zero(t, stock.Rules(0, unit.Litres(3000), koi)[6].Limit.Number)
}

// Planned fish count when grown, not today.
func TestRulesKnowPlannedFish(t *testing.T) {
	koi := stock.Group{Species: stock.Koi, Count: 4, Length: unit.Centimetres(20), GrownLength: unit.Centimetres(60)}
	later := koi
	later.After = stock.Year
	for _, r := range stock.Rules(20, 0, []stock.Group{koi, later}) {
		assert.InDelta(t, 4*20, r.Value.Number, 1e-9)
		assert.InDelta(t, 8*60, r.Grown.Number, 1e-9)
	}
}

func TestRulesNeedASizeAndFish(t *testing.T) {
	assert.Empty(t, stock.Rules(0, 0, nil))
	assert.Empty(t, stock.Rules(unit.Area(math.NaN()), unit.Volume(math.Inf(1)), nil))
	assert.Empty(t, stock.Rules(10, 10, []stock.Group{{Species: stock.Koi}}))
	assert.NotEmpty(t, stock.Rules(10, 10, nil))
}

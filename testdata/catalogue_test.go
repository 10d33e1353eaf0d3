package testdata_test

import (
	"encoding/csv"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/stat"

	"example.com/pondwright/testdata"
)

// A row is one line of a file by column name.
type row map[string]string

// table reads a file of the demo catalogue without the help of the plugin that is made for it.
func table(t *testing.T, name string) []row {
	t.Helper()
	f, err := testdata.Catalogues.Open("catalogues/demo/" + name)
	require.NoError(t, err)
	defer func() { require.NoError(t, f.Close()) }()
	records, err := csv.NewReader(f).ReadAll()
	require.NoError(t, err, name)
	require.Greater(t, len(records), 1, "%s has no rows", name)

	rows := make([]row, len(records)-1)
	for i, record := range records[1:] {
		rows[i] = make(row)
		for j, column := range records[0] {
			rows[i][column] = record[j]
		}
	}
	return rows
}

// number is the cell of that column, which must hold one.
func (r row) number(t *testing.T, column string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(r[column], 64)
	require.NoError(t, err, "%s of %s", column, r["item_number"])
	return v
}

func TestCatalogueSaysThatItIsInvented(t *testing.T) {
	about := table(t, "catalogue.csv")
	require.Len(t, about, 1)
	assert.Contains(t, about[0]["title"], "invented")
	assert.Contains(t, about[0]["notice"], "Invented data for demonstration")
	assert.Equal(t, "GBP", about[0]["currency"])
}

func TestCatalogueHoldsEnoughOfEveryKind(t *testing.T) {
	least := map[string]int{"pumps.csv": 28, "filters.csv": 14, "lamp_units.csv": 11, "hoses.csv": 8, "liners.csv": 7}
	seen := make(map[string]bool)
	for file, n := range least {
		rows := table(t, file)
		assert.GreaterOrEqual(t, len(rows), n, file)
		for _, r := range rows {
			assert.False(t, seen[r["item_number"]], "%s stands twice", r["item_number"])
			seen[r["item_number"]] = true
			assert.NotEmpty(t, r["description"], r["item_number"])
		}
	}
}

// What is larger costs more, though not without exception: merchants price by age, finish and stock as well. A rank
// correlation of 0.8 lets one pair in ten stand the wrong way round.
func TestPriceFollowsSize(t *testing.T) {
	const strong = 0.8
	filterSize := func(r row) float64 {
		return r.number(t, "medium_l") * r.number(t, "specific_surface_m2_per_m3")
	}
	column := func(name string) func(row) float64 {
		return func(r row) float64 { return r.number(t, name) }
	}
	for _, c := range []struct {
		file, price, group string
		size               func(row) float64
	}{
		{"filters.csv", "price", "body", filterSize},
		{"lamp_units.csv", "price", "lamp", column("power_w")},
		{"hoses.csv", "price_per_m", "tail", column("bore_mm")},
		{"liners.csv", "price_per_m2", "material", column("thickness_mm")},
	} {
		size, price := make(map[string][]float64), make(map[string][]float64)
		for _, r := range table(t, c.file) {
			group := r[c.group]
			if c.group == "tail" { // coiled hose with tails of each wall, and rigid pipe without
				group = r["wall"] + strconv.FormatBool(r["tail_bore_mm"] == "")
			}
			size[group] = append(size[group], c.size(r))
			price[group] = append(price[group], r.number(t, c.price))
		}
		for group := range size {
			if len(size[group]) > 1 {
				assert.GreaterOrEqual(t, stat.Kendall(size[group], price[group], nil), strong, "%s, %s", c.file, group)
			}
		}
	}
}

func TestHosesHaveTailsThatFit(t *testing.T) {
	bores := make(map[string]bool)
	for _, r := range table(t, "hoses.csv") {
		bores[r["bore_mm"]] = true
		if r["tail_bore_mm"] == "" {
			continue
		}
		// A tail wall of 1.5 to 4 mm: common practice, no source.
		wall := (r.number(t, "bore_mm") - r.number(t, "tail_bore_mm")) / 2
		assert.GreaterOrEqual(t, wall, 1.5, r["item_number"])
		assert.LessOrEqual(t, wall, 4.0, r["item_number"])
	}
	assert.GreaterOrEqual(t, len(bores), 8)
}

// Density of sheet in kg/m³, from memory: rubbers 1150 to 1300, plasticised PVC 1200 to 1350, polyethylene 910 to 970.
func TestLiningWeighsWhatItsMaterialWeighs(t *testing.T) {
	density := map[string][2]float64{
		"epdm": {1150, 1300}, "butyl": {1150, 1300}, "pvc": {1200, 1350}, "polyethylene": {910, 970},
	}
	for _, r := range table(t, "liners.csv") {
		band, solid := density[r["material"]]
		if !solid {
			continue // fleece is mostly air
		}
		rho := r.number(t, "mass_kg_per_m2") / r.number(t, "thickness_mm") * 1000
		assert.GreaterOrEqual(t, rho, band[0], r["item_number"])
		assert.LessOrEqual(t, rho, band[1], r["item_number"])
	}
}

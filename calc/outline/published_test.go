package outline_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
)

// Printed answers: areas by coordinates of J. Mahun's Open Access Surveying Library, end areas of G. L. Vose's Handbook of
// Railroad Construction (1857). The excavated pond of Agriculture Handbook 590 and a tutorial's Simpson's sum are checked
// beside the prismoidal rule and the offset rules.
func TestPublishedSurveys(t *testing.T) {
	const foot = 0.3048 // m
	checked := map[string]int{}
	for _, row := range reftest.Table(t, "geometry/published_surveys.csv") {
		var got float64
		switch method := row.Text("method"); method {
		case "coordinates":
			var p outline.Polygon
			for pair := range strings.SplitSeq(row.Text("values"), ";") {
				at := numbers(t, pair)
				p.Points = append(p.Points, outline.Point{X: unit.Feet(at[1]), Y: unit.Feet(at[0])})
			}
			plan, err := outline.MeasurePlan(nil, p)
			require.NoError(t, err)
			got = plan.Area.SquareMetres() / (foot * foot)
		case "end_areas":
			in := numbers(t, row.Text("values"))
			got = outline.EndArea.Eval(outline.ContourInput{
				Top: unit.SquareMetres(in[0] * foot * foot), Bottom: unit.SquareMetres(in[1] * foot * foot), Height: unit.Feet(in[2]),
			}).CubicMetres() / (foot * foot * foot)
		default:
			t.Fatal(method)
		}
		assert.InDelta(t, row.Float("published"), got, row.Float("half_digit")*(1+1e-9), row.Text("case"))
		checked[row.Text("method")]++
	}
	assert.Equal(t, map[string]int{"coordinates": 2, "end_areas": 4}, checked)
}

func numbers(t *testing.T, text string) (all []float64) {
	for field := range strings.FieldsSeq(text) {
		v, err := strconv.ParseFloat(field, 64)
		require.NoError(t, err)
		all = append(all, v)
	}
	return all
}

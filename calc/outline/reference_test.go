package outline

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
)

// surveyed are the outlines of the reference tables by name.
func surveyed(t testing.TB) map[string]Polygon {
	outlines := make(map[string]Polygon)
	for _, row := range reftest.Table(t, "geometry/polygon_vertices.csv") {
		p := outlines[row.Text("polygon")]
		p.Points = append(p.Points, Point{X: unit.Metres(row.Float("x_m")), Y: unit.Metres(row.Float("y_m"))})
		outlines[row.Text("polygon")] = p
	}
	return outlines
}

// printed is half a unit of the last of the ten digits the tables print. Where zeros at the end are left off that is
// finer than HalfDigit makes it.
func printed(v float64) float64 {
	if v == 0 {
		return 5e-11
	}
	return 0.5 * math.Pow(10, math.Floor(math.Log10(math.Abs(v)))-9)
}

// Area and perimeter by the geometry library shapely 1.8 (GEOS), as printed.
func TestPolygonsAgainstReference(t *testing.T) {
	outlines := surveyed(t)
	for _, row := range reftest.Table(t, "geometry/polygons.csv") {
		name := row.Text("polygon")
		m, err := Measure(nil, Bay{Plan: outlines[name], Depth: unit.Metres(1)})
		if row.Text("valid") == "false" {
			assert.ErrorContains(t, err, "crosses", name)
			continue
		}
		require.NoError(t, err, name)
		// A map grid keeps coordinates of 450 km to 6e-11 m; over 20 m of perimeter that is 1e-9 m².
		grid := 2e-9
		assert.InDelta(t, row.Float("area_m2"), m.Area.SquareMetres(), printed(row.Float("area_m2"))+grid, name)
		assert.InDelta(t, row.Float("perimeter_m"), m.Perimeter.Metres(), printed(row.Float("perimeter_m"))+grid, name)
		assert.InDelta(t, m.Area.SquareMetres(), m.Volume.CubicMetres(), 1e-12*m.Area.SquareMetres(), name)
		assert.LessOrEqual(t, float64(m.Length()*m.Width()), row.Float("bbox_x_m")*row.Float("bbox_y_m")*(1+1e-9), name)
	}
}

// Closed forms, and the ellipse's perimeter by scipy.special.ellipe.
func TestPlanShapesAgainstReference(t *testing.T) {
	for _, row := range reftest.Table(t, "geometry/plan_shapes.csv") {
		l, w := unit.Metres(row.Float("length_m")), unit.Metres(row.Float("width_m"))
		var plan Plan
		switch shape := row.Text("shape"); shape {
		case "rectangle":
			plan = Rectangle{Length: l, Width: w}
		case "circle", "ellipse":
			plan = Ellipse{Length: l, Width: w}
		case "regular_hexagon_side":
			plan = regular(6, l.Metres())
		case "regular_octagon_side":
			plan = regular(8, l.Metres())
		default:
			continue // a stadium is no plan here
		}
		m, err := Measure(nil, Bay{Plan: plan, Depth: unit.Metres(1)})
		require.NoError(t, err)
		assert.InDelta(t, row.Float("area_m2"), m.Area.SquareMetres(), printed(row.Float("area_m2")), row)
		assert.InDelta(t, row.Float("perimeter_m"), m.Perimeter.Metres(), printed(row.Float("perimeter_m")), row)
	}
}

// regular is a polygon of n equal sides.
func regular(n int, length float64) Polygon {
	return polygonal(n, length/(2*math.Sin(math.Pi/float64(n))), length/(2*math.Sin(math.Pi/float64(n))))
}

// polygonal is an ellipse of n points with half axes a and b.
func polygonal(n int, a, b float64) Polygon {
	var p Polygon
	for i := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		p.Points = append(p.Points, Point{X: unit.Metres(a * cos), Y: unit.Metres(b * sin)})
	}
	return p
}

// Insets by shapely's mitred buffer. The dumbbell parts at 0.25 m, from where the closed form no longer holds.
func TestInsetAgainstReference(t *testing.T) {
	outlines := surveyed(t)
	for _, row := range reftest.Table(t, "geometry/inset_check.csv") {
		p := outlines[row.Text("polygon")]
		d := row.Float("inset_m")
		in, err := p.inset(p.surface(nil), 10)
		require.NoError(t, err)
		want := row.Float("shapely_mitre_area_m2")
		assert.InDelta(t, want, in.areaAt(d), printed(want)+1e-9, "%v", row)
		if d < in.end {
			perimeter := row.Float("shapely_mitre_perimeter_m")
			assert.InDelta(t, perimeter, in.at(d).perimeterAt(d), printed(perimeter)+1e-9, "%v", row)
		}
	}
}

// The prismoidal rule on solids whose volume calculus gives, and on the excavated pond worked in USDA-NRCS Agriculture
// Handbook 590 (from memory: 12 ft deep, floor 40 by 100 ft, sides 2 to 1, 3,612 yd³).
func TestPrismoidAgainstReference(t *testing.T) {
	for _, row := range reftest.Table(t, "geometry/prismoidal.csv") {
		v := Prismoid.Eval(PrismoidInput{
			Top: unit.SquareMetres(row.Float("area_top")), Middle: unit.SquareMetres(row.Float("area_mid")),
			Bottom: unit.SquareMetres(row.Float("area_bottom")), Height: unit.Metres(row.Float("depth")),
		}).CubicMetres() // in whatever unit the row is in
		if row.Text("published_answer") != "" {
			const cubicFeetInYard = 27
			const printedToOne = 0.5
			assert.InDelta(t, row.Float("published_answer"), v/cubicFeetInYard, printedToOne)
			continue
		}
		// The sections are printed to ten digits, the sum of six of them is good to three units of the tenth.
		assert.InDelta(t, row.Float("volume_exact"), v, 6*printed(v), "%v", row)
	}
}

func TestHandbookPondFromItsMeasurements(t *testing.T) {
	m, err := Measure(nil, Bay{
		Plan:  Rectangle{Length: unit.Feet(100 + 2*2*12), Width: unit.Feet(40 + 2*2*12)},
		Depth: unit.Feet(12), Batter: 2,
	})
	require.NoError(t, err)
	const cubicYard = 0.9144 * 0.9144 * 0.9144 // m³
	// USDA-NRCS Agriculture Handbook 590, worked example of an excavated pond (from memory).
	assert.InDelta(t, 3612, m.Volume.CubicMetres()/cubicYard, 0.5)
	assert.InDelta(t, 40*100*0.3048*0.3048, m.FloorArea.SquareMetres(), 1e-9)
}

// pond builds a pond of ponds.csv; its round ponds are polygons of 256 points.
func pond(t *testing.T, name string) (Plan, bool) {
	outlines := surveyed(t)
	plans := map[string]Plan{
		"P01": Rectangle{Length: 4, Width: 2.5}, "P02": Rectangle{Length: 6, Width: 4}, "P04": Rectangle{Length: 7, Width: 4.5},
		"P05": polygonal(256, 2, 2), "P06": polygonal(256, 3, 2), "P08": outlines["irregular_8pt"],
		"P09": outlines["kidney_48pt"], "P10": Rectangle{Length: 6, Width: 3}, "P12": outlines["concave_T"],
	}
	plan, ok := plans[name[:3]]
	return plan, ok
}

func profile(t *testing.T, text string) (sides []side) {
	for part := range strings.SplitSeq(text, ";") {
		run, drop, ok := strings.Cut(part, ",")
		require.True(t, ok, text)
		r, err := strconv.ParseFloat(run, 64)
		require.NoError(t, err)
		d, err := strconv.ParseFloat(drop, 64)
		require.NoError(t, err)
		sides = append(sides, side{run: r, drop: d})
	}
	return sides
}

// Areas and volumes level by level by shapely's mitred buffer and Simpson's rule, checked there with scipy's quad to
// 3e-8 m³. Both are polynomials here, so the tables hold to the printed digits.
func TestLevelVolumeAgainstReference(t *testing.T) {
	curves := make(map[string]Curve)
	for _, row := range reftest.Table(t, "geometry/ponds.csv") {
		plan, ok := pond(t, row.Text("pond"))
		require.True(t, ok, row.Text("pond"))
		in, err := plan.inset(plan.surface(nil), 10)
		require.NoError(t, err)
		c := newCurve(layersOf(in, profile(t, row.Text("profile_run_drop_m"))))
		curves[row.Text("pond")] = c
		assert.InDelta(t, row.Float("volume_m3"), c.Volume().CubicMetres(), tableVolume, row.Text("pond"))
		assert.InDelta(t, row.Float("floor_area_m2"), c.AreaAt(c.Depth()).SquareMetres(), tableArea, row.Text("pond"))
	}
	for _, row := range reftest.Table(t, "geometry/pond_level_volume.csv") {
		c := curves[row.Text("pond")]
		z := unit.Metres(row.Float("depth_below_rim_m"))
		assert.InDelta(t, row.Float("volume_m3"), c.VolumeBelow(z).CubicMetres(), tableVolume, "%v", row)
		assert.InDelta(t, row.Float("area_above_shelf_m2"), c.AreaAt(z).SquareMetres(), tableArea, "%v", row)
		assert.InDelta(t, row.Float("wetted_area_m2"), c.wettedBelow(z.Metres()), tableArea, "%v", row)
	}
}

const (
	tableVolume = 4e-8 // m³: the quadrature the table was made with
	tableArea   = 2e-8 // m²: ten digits of areas up to 31.5 m²
)

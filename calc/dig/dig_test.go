package dig_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/dig"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// US Army FM 5-434, table 1-1 (from memory); topsoil, chalk and made ground are common practice, no source.
func TestSoilsAgainstReference(t *testing.T) {
	names := map[string]string{
		"sand_dry": "dry sand", "common_earth_loam": "common earth or loam", "clay": "clay", "rock_blasted": "blasted rock",
		"topsoil": "topsoil", "chalk": "chalk", "made_ground": "made ground",
	}
	soils := make(map[string]dig.Soil)
	for _, s := range dig.Soils() {
		soils[s.Name] = s
	}
	require.Len(t, soils, len(names))
	for _, row := range reftest.Table(t, "geometry/spoil_bulking.csv") {
		soil, ok := soils[names[row.Text("material")]]
		require.True(t, ok, row)
		bank := unit.CubicMetres(row.Float("bank_m3"))
		loose := dig.Swell.Eval(dig.SwellInput{Bank: bank, Factor: soil.Loose})
		assert.InDelta(t, row.Float("loose_m3"), loose.CubicMetres(), 1e-12, "%v", row)
		if row.Text("compacted_m3") == "" {
			assert.Zero(t, soil.Compacted)
			continue
		}
		rolled := dig.Swell.Eval(dig.SwellInput{Bank: bank, Factor: soil.Compacted})
		assert.InDelta(t, row.Float("compacted_m3"), rolled.CubicMetres(), 1e-12, "%v", row)
	}
}

// Cones and frusta solved for the table independently, to ten digits.
func TestMoundsAgainstReference(t *testing.T) {
	for _, row := range reftest.Table(t, "geometry/mounds.csv") {
		slope := unit.Ratio(math.Tan(row.Float("side_angle_deg") * math.Pi / 180))
		height := unit.Length(0)
		switch row.Text("shape") {
		case "cone":
		case "frustum":
			height = unit.Metres(row.Float("height_m"))
		default:
			continue // a ridge
		}
		m, err := dig.Heap(nil, unit.CubicMetres(row.Float("volume_loose_m3")), slope, height)
		require.NoError(t, err)
		assert.InDelta(t, row.Float("base_radius_m"), m.Foot.Metres(), 2e-9, "%v", row)
		assert.InDelta(t, row.Float("top_radius_or_ridge_length_m"), m.Top.Metres(), 2e-9, "%v", row)
		assert.InDelta(t, row.Float("height_m"), m.Height.Metres(), 2e-9, "%v", row)
		assert.InDelta(t, row.Float("footprint_m2"), math.Pi*m.Foot.Metres()*m.Foot.Metres(), 4e-8, "%v", row)
	}
}

func TestHeapFindsAndRefuses(t *testing.T) {
	m, err := dig.Heap(nil, 5, 0.5, 0)
	require.NoError(t, err)
	assert.Len(t, m.Findings, 1)
	m, err = dig.Heap(nil, 5, 0.7, 50)
	require.NoError(t, err)
	assert.Zero(t, m.Top, "too little spoil for a flat top")
	require.Len(t, m.Findings, 2)
	assert.Equal(t, "MOUND_TOO_STEEP", m.Findings[1].Code)
	_, err = dig.Heap(nil, unit.Volume(math.NaN()), 0, -1)
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 3)
	assert.NotEmpty(t, dig.FlatMound.Outside(dig.FlatInput{Loose: 1, Slope: 0.5, Height: 5}))
}

// By hand: 4 x 3 x 1 m upright, 0.1 m of freeboard, a bed of 50 mm under 12 + 14 m², 30 mm of turf and 0.15 m of topsoil.
func TestMeasureHole(t *testing.T) {
	trail := new(working.Trail)
	d, err := dig.Measure(trail, dig.Hole{
		Bay: outline.Bay{Plan: outline.Rectangle{Length: 4, Width: 3}, Depth: 1}, Freeboard: 0.1, Bed: 0.05, Turf: 0.03, Topsoil: 0.15,
	})
	require.NoError(t, err)
	assert.InDelta(t, 12+1.2+26*0.05, d.Total.CubicMetres(), 1e-12)
	assert.InDelta(t, 0.36, d.Turf.CubicMetres(), 1e-12)
	assert.InDelta(t, 1.8, d.Topsoil.CubicMetres(), 1e-12)
	assert.InDelta(t, 14.5-0.36-1.8, d.Subsoil.CubicMetres(), 1e-12)
	assert.InDelta(t, 1.15, d.Depth.Metres(), 1e-12)
	require.Len(t, d.Findings, 1)
	assert.NotContains(t, d.Findings[0].Sentence, "US rules")
}

// A cone cut off at the water: rim and water together are the larger frustum. V = π h (r² + r q + q²) / 3.
func TestRimOfABatteredCircleIsAFrustum(t *testing.T) {
	d, err := dig.Measure(nil, dig.Hole{
		Bay: outline.Bay{Plan: outline.Ellipse{Length: 4, Width: 4}, Depth: 1.5, Batter: 0.4}, Freeboard: 0.25,
	})
	require.NoError(t, err)
	r, q := 2.1, 1.4
	assert.InDelta(t, math.Pi*1.75*(r*r+r*q+q*q)/3, d.Total.CubicMetres(), 1e-9)
	assert.InDelta(t, math.Pi*r*r, d.TurfArea.SquareMetres(), 1e-9)
	assert.Contains(t, d.Findings[0].Sentence, "US rules")
}

func TestMeasureHoleRefuses(t *testing.T) {
	bay := outline.Bay{Plan: outline.Rectangle{Length: 4, Width: 3}, Depth: 1, Steps: []outline.Step{{Depth: 0.2, Width: 0.3}}}
	_, err := dig.Measure(nil, dig.Hole{Bay: bay, Topsoil: 0.3})
	require.ErrorContains(t, err, "topsoil_m: turf and topsoil of 0.30 m reach below")
	_, err = dig.Measure(nil, dig.Hole{Bay: bay, Bed: -1, Freeboard: unit.Length(math.NaN())})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 2)
	_, err = dig.Measure(nil, dig.Hole{})
	require.ErrorContains(t, err, "no outline")
}

// By hand: 10 m³ of 18 t, in a vehicle of 8 m³ and 6 t: weight tells.
func TestCart(t *testing.T) {
	n, err := dig.Cart(nil, 10, 18000, dig.Vehicle{Capacity: 8, Payload: 6000})
	require.NoError(t, err)
	assert.Equal(t, 3, n)
	n, err = dig.Cart(nil, 10, 18000, dig.Vehicle{Capacity: 8, Payload: 20000})
	require.NoError(t, err)
	assert.Equal(t, 2, n)
	_, err = dig.Cart(nil, unit.Volume(math.Inf(1)), -1, dig.Vehicle{})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 4)
}

// Every kind of ground lies within the densities that handbooks give (from memory), and by hand: 5 m³ of clay.
func TestSpoil(t *testing.T) {
	for _, soil := range dig.Soils() {
		assert.Greater(t, soil.Density, unit.Density(1199), soil.Name)
		assert.Less(t, soil.Density, unit.Density(2701), soil.Name)
	}
	s := dig.Clay.Of(nil, 5)
	assert.InDelta(t, 7.15, s.Loose.CubicMetres(), 1e-12)
	assert.InDelta(t, 4.5, s.Compacted.CubicMetres(), 1e-12)
	assert.InDelta(t, 9500, s.Mass.Kilograms(), 1e-9)
	assert.Zero(t, dig.Chalk.Of(nil, 5).Compacted)

	found := dig.Dug{Topsoil: 1}.Storing(dig.Clay)
	require.Len(t, found, 3)
	assert.Contains(t, found[0].Sentence, "Clay is taken to swell by 43 %")
	assert.Equal(t, "TOPSOIL_APART", found[2].Code)
	assert.Len(t, dig.Dug{}.Storing(dig.Clay), 2)
}

// A hole known by contours: a cone of 3 m across and 0.9 m deep under 0.1 m of upright rim.
func TestMeasureHoleByContours(t *testing.T) {
	d, err := dig.Measure(nil, dig.Hole{
		Bay:       outline.Bay{Plan: outline.Ellipse{Length: 3, Width: 3}, Contours: []outline.Contour{{Depth: 0.9}}},
		Freeboard: 0.1,
	})
	require.NoError(t, err)
	assert.InDelta(t, math.Pi*1.5*1.5*(0.3+0.1), d.Total.CubicMetres(), 1e-12)
	assert.InDelta(t, 1, d.Depth.Metres(), 1e-12)
}

// The flattest that spoil comes to rest, and the steepest that is planted, by the angles of the reference table.
func TestSlopesAgainstReference(t *testing.T) {
	angles := map[string][2]float64{}
	for _, row := range reftest.Table(t, "geometry/angle_of_repose.csv") {
		angles[row.Text("material")] = [2]float64{row.Float("angle_low_deg"), row.Float("angle_high_deg")}
	}
	slope := func(degrees float64) float64 { return math.Tan(degrees * math.Pi / 180) }
	m, err := dig.Heap(nil, 5, 0.9, 0)
	require.NoError(t, err)
	require.Len(t, m.Findings, 2)
	assert.Contains(t, m.Findings[1].Sentence, fmt.Sprintf("Wet clay can come to rest as flat as 1 in %.1f.", 1/slope(angles["clay_wet"][0])))
	// Half a unit of the tenth of a degree that is printed.
	assert.InDelta(t, slope(angles["design_planted_mound_max"][1]), dig.PlantedSlope.Float(), 1.25*0.05*math.Pi/180)
}

func TestFormulasAreNamedAfterThePackage(t *testing.T) {
	for _, f := range dig.Formulas() {
		assert.True(t, strings.HasPrefix(f.Describe().ID, "dig."), f.Describe().ID)
	}
}

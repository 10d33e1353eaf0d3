package stone_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/stone"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

func TestDisplacementAgainstReference(t *testing.T) {
	for _, row := range reftest.Table(t, "geometry/rock_displacement.csv") {
		v := stone.SolidVolume.Eval(stone.SolidInput{
			Bulk: unit.CubicMetres(row.Float("bulk_volume_m3")), Void: unit.Ratio(row.Float("void_fraction")),
		})
		assert.InDelta(t, row.Float("displaced_water_L"), v.Litres(), 1e-9, "%v", row)
		m := stone.Weight.Eval(stone.WeightInput{Solid: v, Density: unit.Density(row.Float("solid_density_kg_m3"))})
		assert.InDelta(t, row.Float("mass_t")*1000, m.Kilograms(), 1e-9, "%v", row)
	}
}

func TestStoneTonnageAgainstReference(t *testing.T) {
	for _, row := range reftest.Table(t, "geometry/stone_tonnage.csv") {
		bulk := stone.CourseVolume.Eval(stone.CourseInput{
			Length: unit.Metres(row.Float("length_m")), Width: unit.Metres(row.Float("width_m")), Height: unit.Metres(row.Float("height_m")),
		})
		v := stone.SolidVolume.Eval(stone.SolidInput{Bulk: bulk, Void: unit.Ratio(row.Float("void_fraction"))})
		assert.InDelta(t, row.Float("solid_volume_m3"), v.CubicMetres(), 1e-12, "%v", row)
		m := stone.Weight.Eval(stone.WeightInput{Solid: v, Density: unit.Density(row.Float("solid_density_kg_m3"))})
		assert.InDelta(t, row.Float("tonnes")*1000, m.Kilograms(), 1e-9, "%v", row)
	}
}

// By hand: 20 m of flags 0.6 m long, 0.4 m wide and 50 mm thick, with 10 mm joints on a 40 mm bed: 33 flags, 19.67 m of
// stone at 50 kg a metre, 0.32 m³ of bed and 6.6 L of joints.
func TestLay(t *testing.T) {
	trail := new(working.Trail)
	l, err := stone.Lay(trail, stone.Edging{
		Edge: 20, Length: 0.6, Width: 0.4, Height: 0.05, Density: 2500, Joint: 0.01, Bed: 0.04,
	})
	require.NoError(t, err)
	assert.Equal(t, 33, l.Stones)
	assert.InDelta(t, 983.5, l.Mass.Kilograms(), 1e-9)
	assert.InDelta(t, 320+6.6, l.Mortar.Litres(), 1e-9)
	require.Len(t, l.Findings, 2)
	assert.Equal(t, "LIME_FROM_MORTAR", l.Findings[0].Code)
	assert.Equal(t, "STONE_TOO_HEAVY_FOR_ONE", l.Findings[1].Code)
	assert.Len(t, trail.Steps(), 6)
}

func TestLayDry(t *testing.T) {
	l, err := stone.Lay(nil, stone.Edging{Edge: 10, Length: 0.2, Width: 0.2, Height: 0.1, Void: 0.4, Density: 2650})
	require.NoError(t, err)
	assert.Equal(t, 50, l.Stones)
	assert.Zero(t, l.Mortar)
	assert.Empty(t, l.Findings)
	assert.InDelta(t, 10*0.2*0.1*0.6*2650, l.Mass.Kilograms(), 1e-9)
}

func TestLayRefuses(t *testing.T) {
	_, err := stone.Lay(nil, stone.Edging{Edge: unit.Length(math.NaN()), Joint: -1})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 6)
}

// The reference piles once more, as things in a pond, together with one that was weighed: 0.9275 t of one boulder.
func TestDisplaced(t *testing.T) {
	var things []stone.Displacing
	want := 0.0
	for _, row := range reftest.Table(t, "geometry/rock_displacement.csv") {
		things = append(things, stone.Displacing{
			Count: 1, Bulk: unit.CubicMetres(row.Float("bulk_volume_m3")), Void: unit.Ratio(row.Float("void_fraction")), Under: 1,
		})
		want += row.Float("displaced_water_L")
	}
	got, err := stone.Displaced(nil, things)
	require.NoError(t, err)
	assert.InDelta(t, want, got.Litres(), 1e-9)

	got, err = stone.Displaced(nil, []stone.Displacing{{Count: 2, Mass: 927.5, Density: stone.Density, Under: 0.5}})
	require.NoError(t, err)
	assert.InDelta(t, 350, got.Litres(), 1e-9, "half of each of two")

	_, err = stone.Displaced(nil, []stone.Displacing{{Count: 1, Bulk: 1, Mass: 1}, {Bulk: 1, Void: 2, Under: -1}})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	require.Len(t, errs, 4)
	assert.Equal(t, "displacing[1].void_percent", errs[2].Field)
}

// By hand: two spill stones of 0.9 x 0.5 x 0.08 m, and a wall 1.9 m round, 0.3 m thick and 0.6 m high with four tenths voids.
func TestBuild(t *testing.T) {
	f := stone.Fall{
		Height: 0.6, Steps: 2, Sill: 0.6, Bearing: 0.15, Depth: 0.5, Thickness: 0.08, Wall: 0.3, Void: 0.4, Density: 2600,
	}
	b, err := stone.Build(nil, f)
	require.NoError(t, err)
	assert.InDelta(t, 0.9*0.5*0.08*2600, b.SpillMass.Kilograms(), 1e-9)
	assert.InDelta(t, 1.9*0.3*0.6*0.6*2600, b.WallMass.Kilograms(), 1e-9)
	require.Len(t, b.Findings, 2)
	assert.Equal(t, "STONE_TOO_HEAVY_FOR_ONE", b.Findings[0].Code)
	assert.Equal(t, "FALL_NEEDS_FOOTING", b.Findings[1].Code)

	_, err = stone.Build(nil, stone.Fall{Void: unit.Ratio(math.NaN())})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 7)
}

func TestFormulasAreNamedAfterThePackage(t *testing.T) {
	for _, f := range stone.Formulas() {
		assert.True(t, strings.HasPrefix(f.Describe().ID, "stone."), f.Describe().ID)
	}
}

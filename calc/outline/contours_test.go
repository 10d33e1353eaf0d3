package outline_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

func contour(depth, area float64) outline.Contour {
	return outline.Contour{Depth: unit.Metres(depth), Area: unit.SquareMetres(area)}
}

// A frustum of a square pyramid, by the formula of Heron of Alexandria: V = h (a² + a b + b²) / 3.
func TestContoursOfAPyramid(t *testing.T) {
	trail := new(working.Trail)
	m, err := outline.MeasureContours(trail, []outline.Contour{contour(0, 36), contour(0.6, 16), contour(0.9, 9)})
	require.NoError(t, err)
	want := 0.9 * (36 + 6*3 + 9) / 3
	assert.InDelta(t, want, m.Volume.CubicMetres(), 1e-12)
	assert.InDelta(t, want, m.Levels().Volume().CubicMetres(), 1e-12)
	assert.InDelta(t, 0.6*16+0.3*9, m.Low.CubicMetres(), 1e-12)
	assert.InDelta(t, 0.6*36+0.3*16, m.High.CubicMetres(), 1e-12)
	assert.InDelta(t, 5*5, m.Levels().AreaAt(0.3).SquareMetres(), 1e-12, "half way to 4 m")
	assert.Contains(t, codes(m.Findings), "CONTOURS_FAR_APART")
	assert.InDelta(t, 0.6*26+0.3*12.5, m.EndAreas.CubicMetres(), 1e-12)
	assert.Len(t, trail.Steps(), 6)
}

func TestContoursToAPoint(t *testing.T) {
	m, err := outline.MeasureContours(nil, []outline.Contour{contour(0, math.Pi), contour(0.9, 0)})
	require.NoError(t, err)
	assert.InDelta(t, math.Pi*0.9/3, m.Volume.CubicMetres(), 1e-12)
}

// Many contours of a battered pond give what the bay gives. A layer is too small by h (√(l1 w2) - √(l2 w1))² / 6, the
// difference between arithmetic and geometric mean of its mid section: at most 9e-7 m³ each in 24 layers.
func TestContoursAgreeWithTheBay(t *testing.T) {
	bay, err := outline.Measure(nil, outline.Bay{Plan: outline.Rectangle{Length: 6, Width: 4}, Depth: 1.2, Batter: 0.5})
	require.NoError(t, err)
	var contours []outline.Contour
	for i := range 25 {
		z := unit.Metres(0.05 * float64(i))
		contours = append(contours, outline.Contour{Depth: z, Area: bay.Levels().AreaAt(z)})
	}
	m, err := outline.MeasureContours(nil, contours)
	require.NoError(t, err)
	assert.InDelta(t, bay.Volume.CubicMetres(), m.Volume.CubicMetres(), 3e-5)
	assert.Empty(t, m.Findings)
}

func TestMeasureContoursRefuses(t *testing.T) {
	tests := []struct {
		name     string
		contours []outline.Contour
		field    string
	}{
		{"one", []outline.Contour{contour(0, 5)}, "contours"},
		{"no surface", []outline.Contour{contour(0.1, 5), contour(0.5, 3)}, "contours[0].depth_m"},
		{"order", []outline.Contour{contour(0, 5), contour(0.5, 3), contour(0.4, 2)}, "contours[2].depth_m"},
		{"overhang", []outline.Contour{contour(0, 5), contour(0.5, 6)}, "contours[1].area_m2"},
		{"nothing", []outline.Contour{contour(0, 0), contour(0.5, 0)}, "contours[0].area_m2"},
		{"no number", []outline.Contour{contour(0, math.NaN()), contour(0.5, 0)}, "contours[0].area_m2"},
	}
	for _, test := range tests {
		_, err := outline.MeasureContours(nil, test.contours)
		var errs input.Errors
		require.ErrorAs(t, err, &errs, test.name)
		assert.Equal(t, test.field, errs[0].Field, test.name)
	}
}

// By hand: bays of 4 x 3 m and 2 x 2 m, both vertical, 1.2 and 0.8 m deep, with a saddle at 0.3 m.
func TestJoinedBays(t *testing.T) {
	deep, err := outline.Measure(nil, outline.Bay{Plan: outline.Rectangle{Length: 4, Width: 3}, Depth: 1.2})
	require.NoError(t, err)
	shallow, err := outline.Measure(nil, outline.Bay{Plan: outline.Rectangle{Length: 2, Width: 2}, Depth: 0.8})
	require.NoError(t, err)
	pond := outline.Joined{Bays: []outline.Curve{deep.Levels(), shallow.Levels()}, Saddle: 0.3}
	require.NoError(t, pond.Check())

	assert.InDelta(t, 12*1.2+4*0.8, pond.Volume().CubicMetres(), 1e-12)
	assert.InDelta(t, 16, pond.AreaAt(0.1).SquareMetres(), 1e-12)
	assert.InDelta(t, 16*0.8+12*0.2, pond.VolumeLost(1).CubicMetres(), 1e-12)
	drawn, left, err := pond.Within(0)
	require.NoError(t, err)
	assert.InDelta(t, 4*0.5, left.CubicMetres(), 1e-12)
	assert.InDelta(t, 12*1.2+4*0.3, drawn.CubicMetres(), 1e-12)

	level := pond.Level(nil, 0.9)
	assert.InDelta(t, 12*0.9+4*0.8, level.Lost.CubicMetres(), 1e-12)
	assert.InDelta(t, 12*0.3, level.Left.CubicMetres(), 1e-12)
	assert.InDelta(t, 3.6/17.6, level.Share.Float(), 1e-12)
	drop, ok := pond.DropFor(unit.CubicMetres(12*0.9 + 4*0.8))
	assert.True(t, ok)
	assert.InDelta(t, 0.9, drop.Metres(), 1e-12)
	_, ok = pond.DropFor(18)
	assert.False(t, ok)
	soon, late, found := pond.TopUp()
	assert.InDelta(t, 800, soon.Litres(), 1e-9, "16 m² by 50 mm")
	assert.InDelta(t, 1200, late.Litres(), 1e-9)
	assert.Equal(t, "TOP_UP_ALLOWANCE", found.Code)

	_, _, err = pond.Within(2)
	require.ErrorContains(t, err, "no bay 2")
	pond.Saddle = 0.9
	require.ErrorContains(t, pond.Check(), "deeper than bay 1")
	require.ErrorContains(t, outline.Joined{}.Check(), "two bays")
}

// By hand: 4 x 3 m to 0.3 m, then 3.5 x 2.5 m to 1 m.
func TestCurveOfAShelvedRectangle(t *testing.T) {
	m, err := outline.Measure(nil, outline.Bay{
		Plan: outline.Rectangle{Length: 4, Width: 3}, Depth: 1, Steps: []outline.Step{step(0.3, 0.25)},
	})
	require.NoError(t, err)
	c := m.Levels()
	assert.InDelta(t, 12, c.AreaAt(0.3).SquareMetres(), 1e-12, "level with the shelf its water still counts")
	assert.InDelta(t, 8.75, c.AreaAt(0.31).SquareMetres(), 1e-12)
	assert.InDelta(t, 0, c.AreaAt(1.1).SquareMetres(), 1e-12)
	assert.InDelta(t, 12, c.AreaAt(-1).SquareMetres(), 1e-12)
	assert.InDelta(t, 3.6+8.75*0.3, c.VolumeLost(0.6).CubicMetres(), 1e-12)
	assert.InDelta(t, 8.75*0.4, c.VolumeBelow(0.6).CubicMetres(), 1e-12)
	assert.InDelta(t, 3.5/9.725, c.ShareBelow(0.6).Float(), 1e-12)
	drop, ok := c.DropFor(unit.Litres(600))
	assert.True(t, ok)
	assert.InDelta(t, 0.05, drop.Metres(), 1e-12)
	drop, ok = c.DropFor(unit.CubicMetres(20))
	assert.False(t, ok)
	assert.InDelta(t, 1, drop.Metres(), 1e-12)
	assert.InDelta(t, 3.5*2.5+12-8.75+14*0.3+12*0.7, m.Wetted.SquareMetres(), 1e-12)
}

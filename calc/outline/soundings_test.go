package outline_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

func sounding(x, y, depth float64) outline.Sounding {
	return outline.Sounding{At: outline.Point{X: unit.Metres(x), Y: unit.Metres(y)}, Depth: unit.Metres(depth)}
}

// A pyramid upside down, by Euclid XII.7: a third of base times height; its faces are triangles of 4 m by 2.5 m.
func TestOneSoundingIsAPyramid(t *testing.T) {
	trail := new(working.Trail)
	m, err := outline.Measure(trail, outline.Bay{
		Plan: outline.Rectangle{Length: 4, Width: 4}, Soundings: &outline.Soundings{Taken: []outline.Sounding{sounding(2, 2, 1.5)}},
	})
	require.NoError(t, err)
	assert.InDelta(t, 8, m.Volume.CubicMetres(), 1e-12)
	assert.InDelta(t, 4*4*2.5/2, m.Wetted.SquareMetres(), 1e-12)
	assert.InDelta(t, 1.5, m.Depth().Metres(), 0)
	assert.InDelta(t, 0, m.FloorArea.SquareMetres(), 1e-12)
	assert.InDelta(t, 16*math.Pow(0.8, 2), m.Levels().AreaAt(0.3).SquareMetres(), 1e-12)
	assert.InDelta(t, 8*math.Pow(0.8, 3), m.Levels().VolumeBelow(0.3).CubicMetres(), 1e-12)
	assert.Contains(t, codes(m.Findings), "FLOOR_BETWEEN_SOUNDINGS_GUESSED")
	assert.Len(t, trail.Steps(), 1+4+2)
}

// A pond with upright walls whose floor rises in a plane, sounded at its corners; areas and volumes analytic. Level with the
// shallow end the table gives the area above it.
func TestWedgeFloorAgainstReference(t *testing.T) {
	m, err := outline.Measure(nil, outline.Bay{
		Plan: outline.Rectangle{Length: 6, Width: 3},
		Soundings: &outline.Soundings{Taken: []outline.Sounding{
			sounding(0, 0, 1.2), sounding(6, 0, 0.3), sounding(6, 3, 0.3), sounding(0, 3, 1.2),
		}},
	})
	require.NoError(t, err)
	for _, row := range reftest.Table(t, "geometry/wedge_floor_pond.csv") {
		fallen := unit.Metres(1.2 - row.Float("level_m"))
		assert.InDelta(t, row.Float("water_area_m2"), m.Levels().AreaAt(fallen).SquareMetres(), 1e-9, "%v", row)
		assert.InDelta(t, row.Float("volume_m3"), m.Levels().VolumeBelow(fallen).CubicMetres(), 1e-9, "%v", row)
	}
	// Floor on the slope, two side walls as trapezia and two end walls.
	assert.InDelta(t, 3*math.Hypot(6, 0.9)+2*6*0.75+3*(1.2+0.3), m.Wetted.SquareMetres(), 1e-12)
}

// A floor at one depth is an upright pond, whatever its outline and wherever it is sounded.
func TestALevelFloorIsAnUprightPond(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := bays(t)
		want := measured(t, outline.Bay{Plan: b.Plan, Depth: 0.9})
		s := outline.Soundings{EdgeDepth: 0.9, Taken: []outline.Sounding{sounding(0, 0, 0.9)}}
		for range rapid.IntRange(0, 6).Draw(t, "soundings") {
			x, y := rapid.Float64Range(-0.5, 0.5).Draw(t, "x"), rapid.Float64Range(-0.5, 0.5).Draw(t, "y")
			s.Taken = append(s.Taken, sounding(x, y, 0.9))
		}
		got := measured(t, outline.Bay{Plan: b.Plan, Soundings: &s})
		assert.InEpsilon(t, want.Volume.CubicMetres(), got.Volume.CubicMetres(), rounding)
		assert.InEpsilon(t, want.Wetted.SquareMetres(), got.Wetted.SquareMetres(), rounding)
		assert.InEpsilon(t, want.FloorArea.SquareMetres(), got.FloorArea.SquareMetres(), rounding)
	})
}

// The volume of the triangles is that of the curve, and scale by k gives k³.
func TestSoundedVolumes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := bays(t)
		k := math.Exp(rapid.Float64Range(-2, 2).Draw(t, "ln scale"))
		s, scaled := outline.Soundings{EdgeDepth: 0.2}, outline.Soundings{EdgeDepth: unit.Metres(0.2 * k)}
		for i := range rapid.IntRange(1, 8).Draw(t, "soundings") {
			x, y, z := rapid.Float64Range(-0.5, 0.5).Draw(t, "x"), 0.1*float64(i)-0.4, rapid.Float64Range(0.1, 1.5).Draw(t, "depth")
			s.Taken, scaled.Taken = append(s.Taken, sounding(x, y, z)), append(scaled.Taken, sounding(k*x, k*y, k*z))
		}
		small := measured(t, outline.Bay{Plan: b.Plan, Soundings: &s})
		large := moved(b, func(p outline.Point) outline.Point {
			return outline.Point{X: p.X * unit.Length(k), Y: p.Y * unit.Length(k)}
		})
		big := measured(t, outline.Bay{Plan: large.Plan, Soundings: &scaled})
		assert.InEpsilon(t, small.Volume.CubicMetres(), small.Levels().Volume().CubicMetres(), rounding)
		assert.InEpsilon(t, small.Volume.CubicMetres()*k*k*k, big.Volume.CubicMetres(), rounding)
		assert.Less(t, small.Levels().VolumeLost(0.1), small.Levels().VolumeLost(0.2))
	})
}

// By hand: a wedge over a triangle of 3, 4 and 5 m, 1 m deep at its right angle. The floor is a third of a metre up for each metre
// along one side and a quarter along the other; two walls are triangles.
func TestWallsRunFromCornerToCorner(t *testing.T) {
	m, err := outline.Measure(nil, outline.Bay{
		Plan: metres(0, 0, 3, 0, 0, 4), Soundings: &outline.Soundings{Taken: []outline.Sounding{sounding(0, 0, 1)}},
	})
	require.NoError(t, err)
	assert.InDelta(t, 2, m.Volume.CubicMetres(), 1e-12)
	assert.InDelta(t, 6*math.Sqrt(1+1./9+1./16)+3./2+4./2, m.Wetted.SquareMetres(), 1e-12)
}

func TestEdgeOfACircleKeepsItsArea(t *testing.T) {
	plan, err := outline.MeasurePlan(nil, outline.Edge(outline.Ellipse{Length: 4, Width: 2}))
	require.NoError(t, err)
	assert.InDelta(t, 2*math.Pi, plan.Area.SquareMetres(), 1e-12)
}

// A cone, by the 240 sides that stand for a circle: V = A h / 3, within the error that is stated.
func TestSoundedCone(t *testing.T) {
	m, err := outline.Measure(nil, outline.Bay{
		Plan: outline.Ellipse{Length: 3, Width: 3}, Soundings: &outline.Soundings{Taken: []outline.Sounding{sounding(0, 0, 0.9)}},
	})
	require.NoError(t, err)
	assert.InEpsilon(t, math.Pi*1.5*1.5*0.3, m.Volume.CubicMetres(), m.VolumeError.Float())
	assert.Less(t, m.VolumeError.Percent(), 0.1)
}

func TestSoundingsRefuse(t *testing.T) {
	square := outline.Rectangle{Length: 4, Width: 4}
	tests := []struct {
		name          string
		bay           outline.Bay
		field, saying string
	}{
		{"none", outline.Bay{Plan: square, Soundings: &outline.Soundings{}}, "soundings.taken", "0 soundings"},
		{"on land", outline.Bay{Plan: square, Soundings: &outline.Soundings{Taken: []outline.Sounding{sounding(5, 1, 1)}}}, "soundings.taken[0]", "does not lie in the water"},
		{"on the bank", outline.Bay{Plan: square, Soundings: &outline.Soundings{Taken: []outline.Sounding{sounding(4, 1, 1)}}}, "soundings.taken[0]", "does not lie in the water"},
		{"nowhere", outline.Bay{Plan: square, Soundings: &outline.Soundings{Taken: []outline.Sounding{sounding(math.NaN(), 1, 1)}}}, "soundings.taken[0]", "NaN"},
		{"no depth", outline.Bay{Plan: square, Soundings: &outline.Soundings{Taken: []outline.Sounding{sounding(1, 1, 0)}}}, "soundings.taken[0].depth_m", "0 m"},
		{"twice", outline.Bay{Plan: square, Soundings: &outline.Soundings{Taken: []outline.Sounding{sounding(1, 1, 1), sounding(1, 1, 2)}}}, "soundings.taken[1]", "place of one before"},
		{"edge", outline.Bay{Plan: square, Soundings: &outline.Soundings{EdgeDepth: -1, Taken: []outline.Sounding{sounding(1, 1, 1)}}}, "soundings.edge_depth_m", "-1 m"},
		{"other depth", outline.Bay{Plan: square, Depth: 1.2, Soundings: &outline.Soundings{Taken: []outline.Sounding{sounding(1, 1, 1)}}}, "depth_m", "not that of the deepest"},
		{"shelves too", outline.Bay{Plan: square, Steps: []outline.Step{step(0.3, 0.2)}, Contours: []outline.Contour{contour(1, 1)}}, "steps", "already"},
		{"contours too", outline.Bay{Plan: square, Contours: []outline.Contour{contour(1, 1)}, Soundings: &outline.Soundings{}}, "soundings", "already"},
	}
	for _, test := range tests {
		_, err := outline.Measure(nil, test.bay)
		var errs input.Errors
		require.ErrorAs(t, err, &errs, test.name)
		assert.Equal(t, test.field, errs[0].Field, test.name)
		assert.Contains(t, errs[0].Error(), test.saying, test.name)
	}
}

// A cone by its contours, and the errors named after the contours that were given.
func TestBayByContours(t *testing.T) {
	m, err := outline.Measure(nil, outline.Bay{Plan: outline.Ellipse{Length: 3, Width: 3}, Contours: []outline.Contour{contour(0.9, 0)}})
	require.NoError(t, err)
	assert.InDelta(t, math.Pi*1.5*1.5*0.3, m.Volume.CubicMetres(), 1e-12)
	assert.InDelta(t, math.Pi*1.5*math.Hypot(1.5, 0.9), m.Wetted.SquareMetres(), 1e-12, "the mantle of a cone")
	assert.InDelta(t, 0.9, m.Depth().Metres(), 1e-12)
	assert.Contains(t, codes(m.Findings), "CONTOURS_FAR_APART")
	assert.Contains(t, m.Method, "end areas would give 3,181 L", "half as much again as the cone")

	_, err = outline.Measure(nil, outline.Bay{
		Plan: outline.Rectangle{Length: 3, Width: 3}, Contours: []outline.Contour{contour(0.3, 4), contour(0.2, 5)},
	})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Equal(t, "contours[1].depth_m", errs[0].Field)
	assert.Equal(t, "contours[1].area_m2", errs[1].Field)
}

// By hand: 6 x 4 m, upright to 0.3 m, a shelf of 0.4 m, then 0.5 in for each metre down to 1.3 m: 5.2 x 3.2 to 4.2 x 2.2 m.
func TestSidesThatLeanDifferently(t *testing.T) {
	b := outline.Bay{
		Plan: outline.Rectangle{Length: 6, Width: 4}, Depth: 1.3,
		Steps: []outline.Step{{Depth: 0.3, Width: 0.4, Batter: new(unit.Ratio(0.5))}},
	}
	m, err := outline.Measure(nil, b)
	require.NoError(t, err)
	assert.InDelta(t, 24*0.3+(5.2*3.2+4*4.7*2.7+4.2*2.2)/6, m.Volume.CubicMetres(), 1e-12)
	run, slope := b.Section()
	assert.InDelta(t, 0.9, run.Metres(), 1e-12)
	assert.InDelta(t, 0.3+0.4+math.Hypot(1, 0.5), slope.Metres(), 1e-12)
	assert.NotContains(t, m.Method, "times the depth")

	b.Steps[0].Batter = new(unit.Ratio(4.0))
	_, err = outline.Measure(nil, b)
	require.ErrorContains(t, err, "steps[0].batter_below: nothing is left of the pond below 0.7 m")
	b.Steps[0].Batter = new(unit.Ratio(-1.0))
	_, err = outline.Measure(nil, b)
	require.ErrorContains(t, err, "steps[0].batter_below: the batter cannot be -1")
}

// FuzzSoundings reads outline and soundings from bytes: whatever is given, an answer that holds together or an error.
func FuzzSoundings(f *testing.F) {
	f.Add([]byte{0, 0, 200, 0, 200, 100, 0, 100}, []byte{50, 50, 9, 60, 60, 4}, 0.0)
	f.Add([]byte{0, 0, 20, 0, 20, 7, 30, 7, 30, 0, 50, 0, 50, 20, 0, 20}, []byte{20, 10, 9, 30, 10, 4, 25, 10, 1, 0, 0, 3}, 0.3)
	f.Fuzz(func(t *testing.T, outlined, taken []byte, edge float64) {
		s := outline.Soundings{EdgeDepth: unit.Metres(edge)}
		for ; len(taken) >= 3; taken = taken[3:] {
			s.Taken = append(s.Taken, sounding(float64(taken[0]), float64(taken[1]), float64(taken[2])/10))
		}
		m, err := outline.Measure(nil, outline.Bay{Plan: points(outlined, true), Soundings: &s})
		if err != nil {
			return
		}
		assert.Greater(t, m.Volume.CubicMetres(), 0.0)
		assert.InEpsilon(t, m.Volume.CubicMetres(), m.Levels().Volume().CubicMetres(), 1e-6)
		assert.LessOrEqual(t, m.Volume.CubicMetres(), m.Area.SquareMetres()*m.Depth().Metres()*(1+1e-6))
		assert.GreaterOrEqual(t, m.Wetted.SquareMetres(), m.Area.SquareMetres()*(1-1e-6))
	})
}

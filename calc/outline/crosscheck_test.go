package outline

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
)

// Random outlines with two shelves and a batter against shapely. Simpson's rule over 200 panels sees kinks in the slope
// of perimeter where sides meet, each worth some 1e-8 of the volume, and the library works to 1e-9; 1e-6 holds both and
// is a thousandth of the 0.1 % anybody needs.
func TestCrosscheckWithShapely(t *testing.T) {
	bays := randomBays(120)
	for i, want := range shapely(t, bays) {
		m, err := Measure(nil, bays[i])
		require.NoError(t, err)
		assert.InEpsilon(t, want.Area, m.Area.SquareMetres(), 1e-12, i)
		assert.InEpsilon(t, want.Perimeter, m.Perimeter.Metres(), 1e-12, i)
		assert.InEpsilon(t, want.Volume, m.Volume.CubicMetres(), 1e-6, i)
		assert.InDelta(t, want.Floor, m.FloorArea.SquareMetres(), 1e-6*want.Area, i)
	}
}

// An ellipse inset far beyond the radius of its tips, against the same as a polygon of 720 points. The polygon lies inside
// by up to 1 - cos π/720 of the half axis, all along the perimeter.
func TestCrosscheckEllipseWithShapely(t *testing.T) {
	const a, b, points = 3.0, 1.0, 720
	smooth := Bay{
		Plan: Ellipse{Length: 2 * a, Width: 2 * b}, Depth: 1.2, Batter: 0.4, Steps: []Step{{Depth: 0.3, Width: 0.3}},
	}
	cornered := smooth
	cornered.Plan = polygonal(points, a, b)
	want := shapely(t, []Bay{cornered})[0]
	m, err := Measure(nil, smooth)
	require.NoError(t, err)
	allowed := m.Perimeter.Metres() * a * (1 - math.Cos(math.Pi/points))
	assert.InDelta(t, want.Floor, m.FloorArea.SquareMetres(), allowed)
	assert.InDelta(t, want.Volume, m.Volume.CubicMetres(), allowed*1.2)
}

// Random soundings in random outlines without inner corners. No four of their points lie on one circle, so the triangles are the
// same and only last bits differ.
func TestCrosscheckSoundingsWithShapely(t *testing.T) {
	bays := soundedBays(60)
	for i, want := range shapely(t, bays) {
		m, err := Measure(nil, bays[i])
		require.NoError(t, err)
		assert.InEpsilon(t, want.Volume, m.Volume.CubicMetres(), 1e-9, i)
		assert.InEpsilon(t, want.Volume, m.Levels().Volume().CubicMetres(), 1e-9, i)
	}
}

// soundedBays have their outlines on a circle, unevenly, a little pulled in to where they stay convex.
func soundedBays(n int) (bays []Bay) {
	r := rand.New(rand.NewPCG(1934, 1977))
	for range n {
		points := 5 + r.IntN(8)
		var p Polygon
		for i := range points {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.5*r.Float64()) / float64(points))
			p.Points = append(p.Points, Point{X: unit.Metres(4 * cos), Y: unit.Metres(2.5 * sin)})
		}
		s := Soundings{}
		for range 1 + r.IntN(25) {
			at := Point{X: unit.Metres(4*r.Float64() - 2), Y: unit.Metres(2*r.Float64() - 1)}
			origin := p.Points[0]
			if isInside(r2.Vec{X: (at.X - origin.X).Metres(), Y: (at.Y - origin.Y).Metres()}, p.corners(), 1e-3) {
				s.Taken = append(s.Taken, Sounding{At: at, Depth: unit.Metres(0.3 + r.Float64())})
			}
		}
		if len(s.Taken) > 0 {
			bays = append(bays, Bay{Plan: p, Soundings: &s})
		}
	}
	return bays
}

// answer is what geometry.py prints.
type answer struct{ Area, Perimeter, Volume, Floor float64 }

// shapely measures bays with polygons for plans.
func shapely(t *testing.T, bays []Bay) (answers []answer) {
	var in bytes.Buffer
	encode := json.NewEncoder(&in)
	for _, b := range bays {
		var shape struct {
			Points    [][2]float64 `json:"points"`
			Sides     [][2]float64 `json:"sides"`
			Soundings [][3]float64 `json:"soundings"`
		}
		for _, p := range b.Plan.(Polygon).Points {
			shape.Points = append(shape.Points, [2]float64{p.X.Metres(), p.Y.Metres()})
		}
		for _, s := range b.sides() {
			shape.Sides = append(shape.Sides, [2]float64{s.run, s.drop})
		}
		if b.Soundings != nil {
			for _, s := range b.Soundings.Taken {
				shape.Soundings = append(shape.Soundings, [3]float64{s.At.X.Metres(), s.At.Y.Metres(), s.Depth.Metres()})
			}
		}
		require.NoError(t, encode.Encode(shape))
	}
	for decode := json.NewDecoder(bytes.NewReader(reftest.Python(t, "geometry.py", in.Bytes()))); decode.More(); {
		var one answer
		require.NoError(t, decode.Decode(&one))
		answers = append(answers, one)
	}
	require.Len(t, answers, len(bays))
	return answers
}

// randomBays are the same on every run. A bay with a corner that is cut across is left out: no library cuts it so.
func randomBays(n int) (bays []Bay) {
	r := rand.New(rand.NewPCG(1795, 1864))
	for len(bays) < n {
		points := 3 + r.IntN(20)
		var p Polygon
		for i := range points {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + 0.7*r.Float64()) / float64(points))
			reach := 1.5 + 2.5*r.Float64()
			p.Points = append(p.Points, Point{X: unit.Metres(reach * cos), Y: unit.Metres(reach * sin)})
		}
		b := Bay{
			Plan: p, Depth: unit.Metres(0.8 + r.Float64()), Batter: unit.Ratio(0.4 * r.Float64()),
			Steps: []Step{
				{Depth: 0.25, Width: unit.Metres(0.1 + 0.2*r.Float64()), Batter: new(unit.Ratio(0.3 * r.Float64()))},
				{Depth: 0.5, Width: unit.Metres(0.1 + 0.2*r.Float64())},
			},
		}
		m, err := Measure(nil, b)
		if err != nil {
			continue // no room for the shelves
		}
		cut := false
		for _, f := range m.Findings {
			cut = cut || f.Code == "SHARP_CORNER_CUT"
		}
		if !cut {
			bays = append(bays, b)
		}
	}
	return bays
}

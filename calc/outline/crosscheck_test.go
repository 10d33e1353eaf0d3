package outline

import (
	"bytes"
	"encoding/json"
	"math"
	"math/rand/v2"
	"os/exec"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/unit"
)

// python is Debian's own, which holds the package python3-shapely.
const python = "/usr/bin/python3"

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

// answer is what geometry.py prints.
type answer struct{ Area, Perimeter, Volume, Floor float64 }

// shapely measures bays with polygons for plans.
func shapely(t *testing.T, bays []Bay) (answers []answer) {
	if exec.Command(python, "-c", "import shapely.geometry").Run() != nil {
		t.Skip("python3-shapely is not installed")
	}
	var in, out bytes.Buffer
	encode := json.NewEncoder(&in)
	for _, b := range bays {
		var shape struct {
			Points [][2]float64 `json:"points"`
			Sides  [][2]float64 `json:"sides"`
		}
		for _, p := range b.Plan.(Polygon).Points {
			shape.Points = append(shape.Points, [2]float64{p.X.Metres(), p.Y.Metres()})
		}
		for _, s := range b.sides() {
			shape.Sides = append(shape.Sides, [2]float64{s.run, s.drop})
		}
		require.NoError(t, encode.Encode(shape))
	}
	cmd := exec.Command(python, "-W", "ignore", filepath.Join("..", "..", "testdata", "crosscheck", "geometry.py"))
	cmd.Stdin, cmd.Stdout = &in, &out
	require.NoError(t, cmd.Run())

	for decode := json.NewDecoder(&out); decode.More(); {
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
			Steps: []Step{{Depth: 0.25, Width: unit.Metres(0.1 + 0.2*r.Float64())}, {Depth: 0.5, Width: unit.Metres(0.1 + 0.2*r.Float64())}},
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

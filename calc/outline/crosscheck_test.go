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
	if exec.Command(python, "-c", "import shapely.geometry").Run() != nil {
		t.Skip("python3-shapely is not installed")
	}
	bays := randomBays(120)
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

	decode := json.NewDecoder(&out)
	for i, b := range bays {
		var want struct{ Area, Perimeter, Volume, Floor float64 }
		require.NoError(t, decode.Decode(&want))
		m, err := Measure(nil, b)
		require.NoError(t, err)
		assert.InEpsilon(t, want.Area, m.Area.SquareMetres(), 1e-12, i)
		assert.InEpsilon(t, want.Perimeter, m.Perimeter.Metres(), 1e-12, i)
		assert.InEpsilon(t, want.Volume, m.Volume.CubicMetres(), 1e-6, i)
		assert.InDelta(t, want.Floor, m.FloorArea.SquareMetres(), 1e-6*want.Area, i)
	}
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

package outline_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
)

// bays are outlines with a point in each of 3 to 16 directions, with one shelf and a batter that leave some floor.
func bays(t *rapid.T) outline.Bay {
	n := rapid.IntRange(3, 16).Draw(t, "points")
	var p outline.Polygon
	for i := range n {
		a := 2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.6).Draw(t, "turn")) / float64(n)
		r := rapid.Float64Range(1.5, 4).Draw(t, "reach")
		sin, cos := math.Sincos(a)
		p.Points = append(p.Points, outline.Point{X: unit.Metres(r * cos), Y: unit.Metres(r * sin)})
	}
	return outline.Bay{
		Plan: p, Depth: unit.Metres(1.2), Batter: unit.Ratio(rapid.Float64Range(0, 0.3).Draw(t, "batter")),
		Steps: []outline.Step{step(0.3, rapid.Float64Range(0.05, 0.4).Draw(t, "shelf"))},
	}
}

// measured skips a bay that has no room for its shelf.
func measured(t *rapid.T, b outline.Bay) outline.Measured {
	m, err := outline.Measure(nil, b)
	if err != nil {
		t.Skip(err)
	}
	return m
}

func moved(b outline.Bay, move func(outline.Point) outline.Point) outline.Bay {
	var p outline.Polygon
	for _, q := range b.Plan.(outline.Polygon).Points {
		p.Points = append(p.Points, move(q))
	}
	b.Plan = p
	return b
}

// Rounding: a few hundred operations on numbers of the size of the pond, each good to 1e-16 of it, and corners that run
// ahead up to some thousand times as fast as the inset.
const rounding = 1e-9

func assertSame(t *rapid.T, want, got outline.Measured, scale float64) {
	for _, v := range [][2]float64{
		{want.Area.SquareMetres() * scale * scale, got.Area.SquareMetres()},
		{want.FloorArea.SquareMetres() * scale * scale, got.FloorArea.SquareMetres()},
		{want.Perimeter.Metres() * scale, got.Perimeter.Metres()},
		{want.Volume.CubicMetres() * scale * scale * scale, got.Volume.CubicMetres()},
		{want.BoxVolume.CubicMetres() * scale * scale * scale, got.BoxVolume.CubicMetres()},
	} {
		assert.InDelta(t, v[0], v[1], rounding*(1+v[0]))
	}
}

func TestRotationMirrorAndMoveChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := bays(t)
		want := measured(t, b)
		sin, cos := math.Sincos(rapid.Float64Range(0, 7).Draw(t, "rotation"))
		x, y := rapid.Float64Range(-100, 100).Draw(t, "x"), rapid.Float64Range(-100, 100).Draw(t, "y")
		mirror := float64(rapid.SampledFrom([]int{-1, 1}).Draw(t, "mirror"))
		got := measured(t, moved(b, func(p outline.Point) outline.Point {
			px, py := p.X.Metres(), mirror*p.Y.Metres()
			return outline.Point{X: unit.Metres(px*cos - py*sin + x), Y: unit.Metres(px*sin + py*cos + y)}
		}))
		assertSame(t, want, got, 1)
	})
}

func TestOrderOfPointsChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := bays(t)
		want := measured(t, b)
		points := slices.Clone(b.Plan.(outline.Polygon).Points)
		from := rapid.IntRange(0, len(points)-1).Draw(t, "from")
		points = slices.Concat(points[from:], points[:from])
		if rapid.Bool().Draw(t, "backwards") {
			slices.Reverse(points)
		}
		b.Plan = outline.Polygon{Points: points}
		assertSame(t, want, measured(t, b), 1)
	})
}

func TestScaleIsCubed(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := bays(t)
		want := measured(t, b)
		k := math.Exp(rapid.Float64Range(-3, 3).Draw(t, "ln scale"))
		scaled := moved(b, func(p outline.Point) outline.Point {
			return outline.Point{X: p.X * unit.Length(k), Y: p.Y * unit.Length(k)}
		})
		scaled.Depth *= unit.Length(k)
		scaled.Steps = []outline.Step{{Depth: b.Steps[0].Depth * unit.Length(k), Width: b.Steps[0].Width * unit.Length(k)}}
		assertSame(t, want, measured(t, scaled), k)
	})
}

func TestDeeperIsMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := bays(t)
		shallow := measured(t, b)
		b.Depth += unit.Metres(rapid.Float64Range(0.01, 0.5).Draw(t, "deeper"))
		deep := measured(t, b)
		assert.Greater(t, deep.Volume, shallow.Volume)
		assert.LessOrEqual(t, deep.FloorArea, shallow.FloorArea)
		assert.LessOrEqual(t, deep.Volume, deep.BoxVolume)
	})
}

// Half of a bay on each side of a cut with vertical sides comes to the whole: no shelf, so the cut is no bank.
func TestHalvesComeToTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := bays(t)
		b.Steps, b.Batter = nil, 0
		whole := measured(t, b)
		points := b.Plan.(outline.Polygon).Points
		cut := rapid.IntRange(2, max(2, len(points)-2)).Draw(t, "cut")
		if cut >= len(points)-1 {
			t.Skip("a triangle has no cut between two points")
		}
		var sum float64
		for _, part := range [][]outline.Point{points[:cut+1], slices.Concat(points[cut:], points[:1])} {
			m, err := outline.Measure(nil, outline.Bay{Plan: outline.Polygon{Points: part}, Depth: b.Depth})
			if err != nil {
				t.Skip("the cut leaves the water")
			}
			sum += m.Volume.CubicMetres()
		}
		// A cut that runs outside the water counts a piece twice, never less.
		assert.GreaterOrEqual(t, sum, whole.Volume.CubicMetres()*(1-rounding))
	})
}

func TestLevelsAgree(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		c := measured(t, bays(t)).Levels()
		drop := unit.Metres(rapid.Float64Range(0, 1.2).Draw(t, "drop"))
		lost := c.VolumeLost(drop)
		back, ok := c.DropFor(lost)
		require.True(t, ok)
		assert.InDelta(t, lost.CubicMetres(), c.VolumeLost(back).CubicMetres(), rounding)
		assert.InDelta(t, c.Volume().CubicMetres(), (lost + c.VolumeBelow(drop)).CubicMetres(), rounding)

		// Slope of volume is area, away from shelves: dV/dz by central difference, whose error is h²/6 times the second
		// derivative of area, a few m² a m², and rounding 1e-16 V/h.
		const h = 1e-4
		z := drop.Metres()
		if z > h && z < 1.2-h && math.Abs(z-0.3) > 2*h {
			slope := (c.VolumeLost(unit.Metres(z+h)) - c.VolumeLost(unit.Metres(z-h))).CubicMetres() / (2 * h)
			assert.InDelta(t, c.AreaAt(drop).SquareMetres(), slope, 1e-3)
		}
	})
}

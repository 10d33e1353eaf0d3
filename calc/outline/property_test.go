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

// rounding is what two ways to one answer may differ by, as a share of it. Where sides meet, parts less than 1e-9 of the
// outline's length wide are dropped; over a perimeter of some ten times the length that is 1e-8 of the area at each event.
const rounding = 1e-7

func assertSame(t *rapid.T, want, got outline.Measured, scale float64) {
	area, volume := scale*scale, scale*scale*scale
	whole := want.Area.SquareMetres() * area
	assert.InDelta(t, whole, got.Area.SquareMetres(), rounding*whole)
	assert.InDelta(t, want.FloorArea.SquareMetres()*area, got.FloorArea.SquareMetres(), rounding*whole)
	assert.InEpsilon(t, want.Perimeter.Metres()*scale, got.Perimeter.Metres(), rounding)
	assert.InEpsilon(t, want.Volume.CubicMetres()*volume, got.Volume.CubicMetres(), rounding)
	assert.InEpsilon(t, want.BoxVolume.CubicMetres()*volume, got.BoxVolume.CubicMetres(), rounding)
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
		assert.LessOrEqual(t, deep.FloorArea.SquareMetres(), shallow.FloorArea.SquareMetres()+rounding)
		assert.LessOrEqual(t, deep.Volume.CubicMetres(), deep.BoxVolume.CubicMetres()+rounding)
	})
}

// Two bays on both sides of a cut across an outline without inner corners come to the whole. Sides are upright, so that
// the cut is no bank.
func TestHalvesComeToTheWhole(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(4, 16).Draw(t, "points")
		var points []outline.Point
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.8).Draw(t, "turn")) / float64(n))
			points = append(points, outline.Point{X: unit.Metres(3 * cos), Y: unit.Metres(2 * sin)})
		}
		cut := rapid.IntRange(2, n-2).Draw(t, "cut")
		upright := func(points []outline.Point) float64 {
			return measured(t, outline.Bay{Plan: outline.Polygon{Points: points}, Depth: unit.Metres(1.2)}).Volume.CubicMetres()
		}
		assert.InDelta(t, upright(points), upright(points[:cut+1])+upright(slices.Concat(points[cut:], points[:1])), rounding)
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

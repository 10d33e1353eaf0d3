package outline

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// followedOut insets an outline until nothing is left.
func followedOut(t testing.TB, p Polygon) inset {
	in, err := p.inset(p.surface(nil), math.MaxFloat64)
	require.NoError(t, err)
	return in
}

// Two rooms of 2 x 2 m joined by a corridor 1 m long and 0.5 m wide. At 0.25 m the corridor closes and two squares of
// 1.5 m are left, which vanish at 1 m. By hand.
func TestDumbbellPartsAndIsFollowedToTheEnd(t *testing.T) {
	in := followedOut(t, surveyed(t)["dumbbell_splits"])
	at, parts := in.splits(math.Inf(1))
	assert.InDelta(t, 0.25, at, 1e-12)
	assert.Equal(t, 2, parts)
	assert.InDelta(t, 1, in.end, 1e-12)
	for d := 0.25; d <= 1; d += 0.05 {
		side := 2 - 2*d
		assert.InDelta(t, 2*side*side, in.areaAt(d), 1e-12, d)
	}
	assert.Less(t, in.jumps, 1e-12)
}

// A rectangle followed as a polygon has the closed form (l - 2d)(w - 2d) up to half its width. Here with points
// along its sides, as a survey has them.
func TestPolygonIsFollowedAsARectangle(t *testing.T) {
	in := followedOut(t, polygon(0, 0, 2, 0, 6, 0, 6, 1.5, 6, 2.5, 5, 2.5, 1, 2.5, 0, 2.5))
	assert.InDelta(t, 1.25, in.end, 1e-9)
	for d := 0.0; d < 1.25; d += 0.05 {
		assert.InDelta(t, (6-2*d)*(2.5-2*d), in.areaAt(d), 1e-12, d)
	}
}

// A square notch reaches 1 m into a square of 4 m from the middle of one side. Where its two inner corners have gone
// 1.5 m the water is parted. By hand: the inset is a U of (4-2d) by (4-2d) less the notch grown to (1+2d) by 1.
func TestNotchPartsTheOutline(t *testing.T) {
	in := followedOut(t, polygon(0, 0, 4, 0, 4, 4, 2.5, 4, 2.5, 3, 1.5, 3, 1.5, 4, 0, 4))
	for d := 0.0; d < 0.75; d += 0.05 { // beyond, the arms beside the notch have closed
		assert.InDelta(t, (4-2*d)*(4-2*d)-(1+2*d), in.areaAt(d), 1e-12, d)
	}
	for d := 0.76; d < 1.5; d += 0.05 { // a rectangle under the notch
		assert.InDelta(t, (4-2*d)*(3-2*d), in.areaAt(d), 1e-12, d)
	}
	assert.InDelta(t, 1.5, in.end, 1e-9)
}

// A thin spit reaches 2 m into the water. Uncut mitres would take a shelf of 0.3 m some 30 m ahead of its tip.
func TestSpitIsCutAcross(t *testing.T) {
	p := polygon(0, 0, 5, 0, 5, 4, 2.51, 4, 2.5, 2, 2.49, 4, 0, 4)
	in := followedOut(t, p)
	assert.Equal(t, []int{4}, in.sharp)
	// By hand: the banks leave 4.4 x 3.4 m. In it the spit, 0.3 m wider on both sides (its sides lean 1 in 200), reaches
	// from y = 3.7 m to the flat cut 0.3 m before its tip, at y = 1.7 m.
	lean := math.Hypot(1, 0.005)
	middle := 2 * (0.005*(2.7-2) + 0.3*lean)
	assert.InDelta(t, 4.4*3.4-middle*2, in.areaAt(0.3), 1e-12)
}

// Up to the radius of curvature at its tips an ellipse keeps Steiner's area; a circle to its centre.
func TestCircleKeepsItsShape(t *testing.T) {
	circle := Ellipse{Length: 3, Width: 3}
	in, err := circle.inset(circle.surface(nil), 10)
	require.NoError(t, err)
	for d := 0.0; d <= 1.5; d += 0.1 {
		assert.InDelta(t, math.Pi*(1.5-d)*(1.5-d), in.areaAt(d), 1e-12)
	}
}

// The lens an ellipse turns into, found by the closed form, against the ellipse as a polygon of 500 points followed by
// the wavefront. The polygon lies inside by up to (1 - cos π/500) of the half axis, which its perimeter multiplies.
func TestEllipseAgainstPolygon(t *testing.T) {
	for _, b := range []float64{0.3, 1, 1.9} {
		const a = 2
		e := Ellipse{Length: 2 * a, Width: unit.Metres(2 * b)}
		s := e.surface(nil)
		smooth, err := e.inset(s, 10)
		require.NoError(t, err)
		cornered := followedOut(t, polygonal(500, a, b))
		allowed := s.perimeter * a * (1 - math.Cos(math.Pi/500))
		for share := 0.05; share < 1; share += 0.05 {
			assert.InDelta(t, cornered.areaAt(share*b), smooth.areaAt(share*b), allowed, "b %g at %g", b, share)
		}
		assert.InDelta(t, 0, smooth.areaAt(b), 1e-9)
	}
}

func TestLensFit(t *testing.T) {
	for _, a := range []float64{1.01, 1.5, 3, 20, 100, 1000} {
		lens := parallelEllipse{a: a, b: 1}
		in := inset{stretches: lens.stretches(), end: 1}
		const samples = 10007 // no multiple of the stretches
		for i := range samples {
			d, exact, _ := lens.at(math.Pi / 2 * (float64(i) + 0.5) / samples)
			require.InDelta(t, exact, in.areaAt(d), lensFit*math.Pi*a, "a %g at %g", a, d)
		}
	}
}

// The section of a convex outline is what lies further than d from every side: area by clipping with half planes.
func TestConvexInsetAgainstHalfPlanes(t *testing.T) {
	p := surveyed(t)["irregular_8pt"]
	in := followedOut(t, p)
	at := p.corners()
	for d := 0.05; d < in.end; d += 0.05 {
		left := at
		for i := range at {
			u := r2.Unit(r2.Sub(at[(i+1)%len(at)], at[i]))
			n := r2.Vec{X: -u.Y, Y: u.X}
			left = clip(left, n, r2.Dot(n, at[i])+d)
		}
		assert.InDelta(t, signedArea(left), in.areaAt(d), 1e-12, d)
	}
}

// clip keeps of a convex outline what has n·p >= c.
func clip(at []r2.Vec, n r2.Vec, c float64) (kept []r2.Vec) {
	for i, p := range at {
		q := at[(i+1)%len(at)]
		dp, dq := r2.Dot(n, p)-c, r2.Dot(n, q)-c
		if dp >= 0 {
			kept = append(kept, p)
		}
		if dp*dq < 0 {
			kept = append(kept, r2.Add(p, r2.Scale(dp/(dp-dq), r2.Sub(q, p))))
		}
	}
	return kept
}

// polygon makes an outline of x, y pairs in metres.
func polygon(xy ...float64) Polygon {
	var p Polygon
	for i := 0; i < len(xy); i += 2 {
		p.Points = append(p.Points, Point{X: unit.Metres(xy[i]), Y: unit.Metres(xy[i+1])})
	}
	return p
}

// The cut at a spit must hold whichever way the outline lies.
func TestSpitIsCutAcrossInEveryDirection(t *testing.T) {
	p := polygon(0, 0, 5, 0, 5, 4, 2.51, 4, 2.5, 2, 2.49, 4, 0, 4)
	want := followedOut(t, p)
	for angle := 0.1; angle < 6.3; angle += 0.1 {
		sin, cos := math.Sincos(angle)
		var turned Polygon
		for _, q := range p.Points {
			x, y := q.X.Metres(), q.Y.Metres()
			turned.Points = append(turned.Points, Point{X: unit.Metres(x*cos - y*sin), Y: unit.Metres(x*sin + y*cos)})
		}
		got := followedOut(t, turned)
		assert.InDelta(t, want.areaAt(0.3), got.areaAt(0.3), 1e-9, angle)
	}
}

// Area never jumps and its slope is the perimeter, from the first stretch to the last, also where parts close one by one.
// What is dropped at an event is less than 1e-9 of some 8 m wide and a few metres long.
func TestInsetIsContinuous(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(3, 24).Draw(t, "points")
		var p Polygon
		for i := range n {
			sin, cos := math.Sincos(2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.8).Draw(t, "turn")) / float64(n))
			r := rapid.Float64Range(1, 4).Draw(t, "reach")
			p.Points = append(p.Points, Point{X: unit.Metres(r * cos), Y: unit.Metres(r * sin)})
		}
		var errs input.Errors
		if p.check(&errs); len(errs) > 0 {
			t.Skip(errs)
		}
		in, err := p.inset(p.surface(nil), 10)
		require.NoError(t, err)
		const dropped = 1e-7
		assert.Less(t, in.jumps, dropped)
		for i, s := range in.stretches {
			to := in.end
			if i+1 < len(in.stretches) {
				to = in.stretches[i+1].from
				assert.InDelta(t, in.stretches[i+1].area, s.areaAt(to), dropped, "stretch %d", i)
			} else {
				assert.InDelta(t, 0, s.areaAt(to), dropped)
			}
			assert.GreaterOrEqual(t, s.perimeterAt(to), -1e-6, "stretch %d", i)
		}
	})
}

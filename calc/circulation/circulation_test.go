package circulation_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/circulation"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

func polygon(xy ...float64) outline.Polygon {
	var p outline.Polygon
	for i := 0; i < len(xy); i += 2 {
		p.Points = append(p.Points, outline.Point{X: unit.Metres(xy[i]), Y: unit.Metres(xy[i+1])})
	}
	return p
}

func place(x, y, depth float64) circulation.Place {
	return circulation.Place{At: outline.Point{X: unit.Metres(x), Y: unit.Metres(y)}, Depth: unit.Metres(depth)}
}

func codes(found []finding.Finding) (all []string) {
	for _, f := range found {
		all = append(all, f.Code)
	}
	return all
}

// By hand: arms of 2 m round an inner corner at (2, 2). From the end of one arm to the end of the other the water goes by way
// of that corner, and so does the longest way, from (6, 0) to (0, 6).
func TestRoundACorner(t *testing.T) {
	bay := outline.Bay{Plan: polygon(0, 0, 6, 0, 6, 2, 2, 2, 2, 6, 0, 6), Depth: 1}
	trail := new(working.Trail)
	c, err := circulation.Check(trail, bay, []circulation.Position{
		{Name: "summer", Intake: place(5, 1, 0.9), Returns: []circulation.Place{place(1, 5, 0)}},
		{Name: "one arm", Intake: place(5.5, 1, 0.9), Returns: []circulation.Place{place(1, 1, 0)}},
		{Name: "winter", Winter: true, Intake: place(1, 5, 0.2), Returns: []circulation.Place{place(1, 5.5, 0)}},
	})
	require.NoError(t, err)
	assert.InDelta(t, 2*math.Hypot(4, 2), c.Length.Metres(), 1e-12)
	assert.InDelta(t, 20/(2*math.Hypot(4, 2)), c.MeanWidth.Metres(), 1e-12)
	require.Len(t, c.Courses, 3)
	assert.InDelta(t, 2*math.Hypot(3, 1), c.Courses[0].Way.Metres(), 1e-12)
	assert.InDelta(t, math.Hypot(3, 1)/math.Hypot(4, 2), c.Courses[0].Share.Float(), 1e-12)
	assert.Empty(t, c.Courses[0].Findings)

	assert.Equal(t, []string{"DEAD_END"}, codes(c.Courses[1].Findings))
	assert.Len(t, c.Courses[1].DeadEnds, 1)
	assert.InDelta(t, 6, c.Courses[1].DeadEnds[0].Y.Metres(), 1e-12)
	assert.InDelta(t, math.Hypot(5, 1), c.Courses[1].Farthest.Metres(), 1e-12)

	assert.Empty(t, c.Courses[2].Findings)
	assert.InDelta(t, 20*0.8, c.Courses[2].Still.CubicMetres(), 1e-12)
	for _, step := range trail.Steps() {
		assert.True(t, step.Replay())
	}
}

// By hand: round both corners of a spit 0.1 m wide that comes within 1 m of the far bank, a metre from one end of the pond.
func TestRoundASpit(t *testing.T) {
	bay := outline.Bay{Plan: polygon(0, 0, 6, 0, 6, 4, 1.1, 4, 1.1, 1, 1, 1, 1, 4, 0, 4), Depth: 1}
	c, err := circulation.Check(nil, bay, []circulation.Position{
		{Intake: place(5, 3, 0.9), Returns: []circulation.Place{place(0.5, 3, 0)}},
	})
	require.NoError(t, err)
	assert.InDelta(t, math.Hypot(0.5, 2)+0.1+math.Hypot(3.9, 2), c.Courses[0].Way.Metres(), 1e-12)
	assert.InDelta(t, math.Hypot(1, 3)+0.1+math.Hypot(4.9, 3), c.Length.Metres(), 1e-12)
}

// By hand: a zigzag round a spit from the one side and a spit from the other, by four corners.
func TestZigzag(t *testing.T) {
	bay := outline.Bay{Plan: polygon(0, 0, 4, 0, 4, 3, 4.1, 3, 4.1, 0, 6, 0, 6, 4, 2.1, 4, 2.1, 1, 2, 1, 2, 4, 0, 4), Depth: 1}
	c, err := circulation.Check(nil, bay, []circulation.Position{
		{Intake: place(5, 0.5, 0.9), Returns: []circulation.Place{place(1, 3.5, 0)}},
	})
	require.NoError(t, err)
	assert.InDelta(t, math.Hypot(1, 2.5)+0.1+math.Hypot(1.9, 2)+0.1+math.Hypot(0.9, 2.5), c.Courses[0].Way.Metres(), 1e-12)
	assert.InDelta(t, math.Hypot(2, 3)+0.1+math.Hypot(1.9, 2)+0.1+math.Hypot(1.9, 3), c.Length.Metres(), 1e-12)
}

// A rectangle whose pump stands beside the return in summer, and at the deep end in winter.
func TestTheWrongWayRound(t *testing.T) {
	bay := outline.Bay{Plan: outline.Rectangle{Length: 8, Width: 3}, Depth: 1.2}
	c, err := circulation.Check(nil, bay, []circulation.Position{
		{Name: "summer", Intake: place(1, 1.5, 0.3), Returns: []circulation.Place{place(0, 1.5, 0)}},
		{Name: "winter", Winter: true, Intake: place(7, 1.5, 1.1), Returns: []circulation.Place{place(-0.3, 1.5, 0)}},
	})
	require.NoError(t, err)
	assert.Equal(t, []string{"INTAKE_SHALLOW", "SHORT_CIRCUIT", "DEAD_END"}, codes(c.Courses[0].Findings))
	assert.Equal(t, []string{"DEEP_WATER_STIRRED", "WINTER_WAY_LONG"}, codes(c.Courses[1].Findings))
	assert.InDelta(t, 7, c.Courses[1].Way.Metres(), 1e-12, "a return on land is taken to the bank")
	assert.InDelta(t, math.Hypot(8, 3), c.Length.Metres(), 1e-12)
}

// A round pond is as long as it is wide, and a way across its middle leaves no dead end.
func TestRoundPond(t *testing.T) {
	c, err := circulation.Check(nil, outline.Bay{Plan: outline.Ellipse{Length: 4, Width: 4}, Depth: 1}, []circulation.Position{
		{Name: "summer", Intake: place(1.9, 0, 0.9), Returns: []circulation.Place{place(-1.9, 0, 0)}},
	})
	require.NoError(t, err)
	assert.InDelta(t, 4, c.Length.Metres(), 1e-3, "240 sides stand for the circle")
	assert.InDelta(t, 2, c.Courses[0].Farthest.Metres(), 1e-2, "its ways are looked at every fortieth of its length")
	assert.Empty(t, c.Courses[0].Findings)
}

// A way is never shorter than the straight line nor longer than the pond, and turning the pond changes nothing.
func TestWays(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(4, 14).Draw(t, "points")
		turn := rapid.Float64Range(0, 6).Draw(t, "turned")
		sin, cos := math.Sincos(turn)
		var at, turned outline.Polygon
		var marks, turnedMarks []circulation.Place
		for i := range n {
			a := 2 * math.Pi * (float64(i) + rapid.Float64Range(0, 0.4).Draw(t, "angle")) / float64(n)
			r := rapid.Float64Range(0.6, 4).Draw(t, "reach")
			x, y := r*math.Cos(a), r*math.Sin(a)
			at.Points = append(at.Points, place(x, y, 0).At)
			turned.Points = append(turned.Points, place(x*cos-y*sin, x*sin+y*cos, 0).At)
			if i < 2 {
				x, y = 0.9*x, 0.9*y
				marks = append(marks, place(x, y, 0))
				turnedMarks = append(turnedMarks, place(x*cos-y*sin, x*sin+y*cos, 0))
			}
		}
		run := func(p outline.Polygon, marks []circulation.Place) circulation.Checked {
			c, err := circulation.Check(nil, outline.Bay{Plan: p, Depth: 1}, []circulation.Position{{Intake: marks[0], Returns: marks[1:]}})
			require.NoError(t, err)
			return c
		}
		one, other := run(at, marks), run(turned, turnedMarks)
		straight := math.Hypot((marks[0].At.X - marks[1].At.X).Metres(), (marks[0].At.Y - marks[1].At.Y).Metres())
		assert.GreaterOrEqual(t, one.Courses[0].Way.Metres(), straight*(1-1e-9))
		assert.LessOrEqual(t, one.Courses[0].Way.Metres(), one.Length.Metres()*(1+1e-9))
		assert.InEpsilon(t, one.Courses[0].Way.Metres(), other.Courses[0].Way.Metres(), 1e-7)
		assert.InEpsilon(t, one.Length.Metres(), other.Length.Metres(), 1e-7)
		// The ways are looked at every fortieth of the length, and rounding may shift where.
		assert.InDelta(t, one.Courses[0].Farthest.Metres(), other.Courses[0].Farthest.Metres(), one.Length.Metres()/80)
	})
}

func TestCheckRefuses(t *testing.T) {
	bay := outline.Bay{Plan: outline.Rectangle{Length: 8, Width: 3}, Depth: 1.2}
	_, err := circulation.Check(nil, bay, []circulation.Position{
		{Intake: place(20, 1, 0.3)},
		{Intake: place(1, 1, 3), Returns: []circulation.Place{place(1, math.NaN(), 0)}},
	})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	fields := make([]string, len(errs))
	for i, e := range errs {
		fields[i] = e.Field
	}
	assert.Equal(t, []string{"positions[0].intake", "positions[0].returns", "positions[1].intake.depth_m", "positions[1].returns[0]"}, fields)
	_, err = circulation.Check(nil, bay, nil)
	require.ErrorContains(t, err, "0 positions")
	_, err = circulation.Check(nil, outline.Bay{}, nil)
	require.ErrorContains(t, err, "no outline")
}

func TestFormulasAreNamedAfterThePackage(t *testing.T) {
	for _, f := range circulation.Formulas() {
		assert.True(t, strings.HasPrefix(f.Describe().ID, "circulation."), f.Describe().ID)
	}
}

// BenchmarkCheck is the worst outline that is taken: 300 points, half of them pointing into the water.
func BenchmarkCheck(b *testing.B) {
	var p outline.Polygon
	for i := range 300 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 300)
		r := 3 + 0.3*float64(i%2)
		p.Points = append(p.Points, place(r*cos, r*sin, 0).At)
	}
	bay := outline.Bay{Plan: p, Depth: 1}
	b.ReportAllocs()
	for b.Loop() {
		_, err := circulation.Check(nil, bay, []circulation.Position{{Intake: place(2, 0, 0.5), Returns: []circulation.Place{place(-2, 0, 0)}}})
		require.NoError(b, err)
	}
}

func TestCheckStopsWhenAsked(t *testing.T) {
	bay := outline.Bay{Plan: outline.Rectangle{Length: 6, Width: 3}, Depth: 1}
	left := 1
	stop := func() bool { left--; return left < 0 }
	_, err := circulation.CheckUntil(stop, nil, bay, []circulation.Position{
		{Intake: place(1, 1, 0.5), Returns: []circulation.Place{place(5, 2, 0)}}, {Intake: place(5, 1, 0.5), Returns: []circulation.Place{place(1, 2, 0)}},
	})
	assert.ErrorIs(t, err, circulation.ErrStopped)
}

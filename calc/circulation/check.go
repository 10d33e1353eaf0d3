package circulation

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Place is in the coordinates of outline.Edge, in the water or on the bank, so deep below the surface.
type Place struct {
	At    outline.Point
	Depth unit.Length
}

// A Position is where intake and returns are in one season.
type Position struct {
	Name    string
	Winter  bool
	Intake  Place
	Returns []Place
}

// A Course is what comes of a position.
type Course struct {
	Way      unit.Length // from the nearest return to the intake
	Share    unit.Ratio  // of the pond's length
	Farthest unit.Length // that any place of the bank is from the ways
	DeadEnds []outline.Point
	Still    unit.Volume // below the intake
	Findings []finding.Finding
}

// Checked is a pond with its positions.
type Checked struct {
	Length    unit.Length // the longest of all shortest ways through the water
	MeanWidth unit.Length
	Courses   []Course
}

// ErrStopped says that the search was stopped.
var ErrStopped = errors.New("stopped")

// Check follows the water in every position. The error is an input.Errors: that of outline.Measure, or one with a path such as
// "positions[0].intake".
func Check(t *working.Trail, b outline.Bay, positions []Position) (Checked, error) {
	return CheckUntil(func() bool { return false }, t, b, positions)
}

// CheckUntil is Check, asking before each position whether to stop, and then ends with ErrStopped.
func CheckUntil(stop func() bool, t *working.Trail, b outline.Bay, positions []Position) (Checked, error) {
	m, err := outline.Measure(nil, b)
	if err != nil {
		return Checked{}, err
	}
	pond := newPond(b, m)
	if err := pond.check(positions).Err(); err != nil {
		return Checked{}, err
	}
	pond.length = unit.Metres(pond.longest())
	pond.width = MeanWidth.Run(t, WidthInput{Area: m.Area, Length: pond.length})
	c := Checked{Length: pond.length, MeanWidth: pond.width}
	for _, p := range positions {
		if stop() {
			return Checked{}, ErrStopped
		}
		t.About(p.Name)
		c.Courses = append(c.Courses, pond.course(t, p))
	}
	return c, nil
}

// pond is the water and its ways.
type pond struct {
	ways
	outline.Measured
	origin        outline.Point
	length, width unit.Length
}

func newPond(b outline.Bay, m outline.Measured) pond {
	edge := outline.Edge(b.Plan)
	p := pond{Measured: m, origin: edge.Points[0]}
	at := make([]r2.Vec, len(edge.Points))
	twice := 0.0
	for i, q := range edge.Points {
		at[i] = p.vec(q)
	}
	for i, q := range at {
		twice += r2.Cross(q, at[(i+1)%len(at)])
	}
	if twice < 0 {
		slices.Reverse(at)
	}
	p.ways = newWays(at)
	return p
}

func (p pond) vec(at outline.Point) r2.Vec {
	return r2.Vec{X: (at.X - p.origin.X).Metres(), Y: (at.Y - p.origin.Y).Metres()}
}

func (p pond) point(at r2.Vec) outline.Point {
	return outline.Point{X: p.origin.X + unit.Metres(at.X), Y: p.origin.Y + unit.Metres(at.Y)}
}

// ashore is how far from the water a place may be given: a return or a skimmer stands at the bank.
const ashore = 0.5 // m

// inWater moves a place at the bank into the water.
func (p pond) inWater(place Place) (r2.Vec, bool) {
	at := p.vec(place.At)
	if p.holds(at) {
		return at, true
	}
	best, least := at, math.Inf(1)
	for i, a := range p.ways.outline {
		near := nearest(at, a, p.ways.outline[(i+1)%len(p.ways.outline)])
		if d := r2.Norm(r2.Sub(near, at)); d < least {
			best, least = near, d
		}
	}
	return best, least <= ashore
}

func (p pond) check(positions []Position) input.Errors {
	var errs input.Errors
	if len(positions) == 0 || len(positions) > 10 {
		errs.Add("positions", "give 1 to 10", "there are %d positions", len(positions))
		return errs
	}
	place := func(field string, at Place) {
		if _, ok := p.inWater(at); !ok {
			errs.Add(field, "give it from the same origin as the outline", "(%g m, %g m) is not in the water nor within %g m of it",
				at.At.X.Metres(), at.At.Y.Metres(), ashore)
		}
		if !(at.Depth >= 0 && at.Depth <= p.Depth()) {
			errs.Add(field+".depth_m", "give its depth below the surface", "it cannot be %g m where the pond is %g m deep",
				at.Depth.Metres(), p.Depth().Metres())
		}
	}
	for i, one := range positions {
		field := fmt.Sprintf("positions[%d]", i)
		place(field+".intake", one.Intake)
		if len(one.Returns) == 0 || len(one.Returns) > 20 {
			errs.Add(field+".returns", "give 1 to 20", "there are %d returns", len(one.Returns))
		}
		for j, back := range one.Returns {
			place(fmt.Sprintf("%s.returns[%d]", field, j), back)
		}
	}
	return errs
}

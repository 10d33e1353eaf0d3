package outline

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// meeting is how near two parts of an outline have to come, as a share of its length, to have met on the way inwards.
const meeting = 1e-9

// corners are the points from the first one, so that a map grid costs no digits.
func (p Polygon) corners() []r2.Vec {
	at := make([]r2.Vec, len(p.Points))
	for i, q := range p.Points {
		at[i] = r2.Vec{X: (q.X - p.Points[0].X).Metres(), Y: (q.Y - p.Points[0].Y).Metres()}
	}
	return at
}

func (p Polygon) surface(t *working.Trail) surface {
	at := p.corners()
	var sum SurfaceOutput
	for i, from := range at {
		to := at[(i+1)%len(at)]
		sum = Traverse.Run(t, TraverseInput{
			Area: sum.Area, Perimeter: sum.Perimeter,
			X1: unit.Metres(from.X), Y1: unit.Metres(from.Y), X2: unit.Metres(to.X), Y2: unit.Metres(to.Y),
		})
	}
	length, width := smallestRectangle(at)
	return surface{
		area: math.Abs(sum.Area.SquareMetres()), perimeter: sum.Perimeter.Metres(),
		length: length, width: width,
		how: "Outline by coordinates",
	}
}

func (p Polygon) inset(s surface, limit float64) (inset, error) {
	at := p.corners()
	start, sharp := newRing(at)
	if limit == 0 {
		return inset{stretches: []stretch{start.stretch(0)}, end: math.Inf(1)}, nil
	}
	in, err := follow(start, limit, meeting*s.length)
	in.sharp = sharp
	return in, err
}

// cosSharp is the cosine of the turn into the water from which a corner is cut across, 120°. There a mitre is two widths
// long. It is well away from the right angle, so that a square corner measured a little out of square stays mitred.
const cosSharp = -0.5

// newRing makes a ring of points either way round. A sharp corner that points into the water gets one more side, of no
// length yet, across it; cut lists those points.
func newRing(at []r2.Vec) (r ring, cut []int) {
	order := func(i int) int { return i % len(at) }
	if signedArea(at) < 0 {
		order = func(i int) int { return len(at) - 1 - i%len(at) }
	}
	normal := func(i int) r2.Vec {
		u := r2.Unit(r2.Sub(at[order(i+1)], at[order(i)]))
		return r2.Vec{X: -u.Y, Y: u.X}
	}
	for i := range at {
		before, after := normal(i+len(at)-1), normal(i)
		if r2.Cross(before, after) < 0 && r2.Dot(before, after) < cosSharp {
			r = append(r, corner{at: at[order(i)], normal: between(before, after)})
			cut = append(cut, order(i))
		}
		r = append(r, corner{at: at[order(i)], normal: after})
	}
	return r, cut
}

// between halves the clockwise turn from one normal to the other.
func between(before, after r2.Vec) r2.Vec {
	turn := math.Atan2(r2.Cross(before, after), r2.Dot(before, after))
	return r2.Rotate(before, turn/2, r2.Vec{})
}

func signedArea(at []r2.Vec) float64 {
	var twice float64
	for i, from := range at {
		twice += r2.Cross(from, at[(i+1)%len(at)])
	}
	return twice / 2
}

// smallestRectangle gives the sides of the rectangle of least area around the points, the longer first. One of its sides
// lies along a side of the hull, which joins two of the points.
func smallestRectangle(at []r2.Vec) (length, width float64) {
	hull := convexHull(at)
	least := math.Inf(1)
	for i, from := range hull {
		along := r2.Unit(r2.Sub(hull[(i+1)%len(hull)], from))
		across := r2.Vec{X: -along.Y, Y: along.X}
		a, b := span(hull, along), span(hull, across)
		if a*b < least {
			least, length, width = a*b, max(a, b), min(a, b)
		}
	}
	return length, width
}

// span is how far the points reach in one direction.
func span(at []r2.Vec, along r2.Vec) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range at {
		d := r2.Dot(p, along)
		low, high = min(low, d), max(high, d)
	}
	return high - low
}

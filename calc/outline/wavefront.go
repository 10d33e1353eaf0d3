package outline

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/pondwright/calc/input"
)

// A ring is a closed outline, anticlockwise, on its way inwards. Each side keeps its direction and moves along its
// normal by one metre for each metre of inset.
type ring []corner

// A corner is where two sides meet.
type corner struct {
	at     r2.Vec
	normal r2.Vec // of the side that leaves here, unit length, into the water
}

// errUnresolved stops an outline that was not followed to its end, rather than give a number for it.
var errUnresolved = input.Errors{{
	Field:   "polygon.points",
	Problem: "the sides meet on the way inwards in a way that could not be followed",
	Change:  "leave out points that lie very close together",
}}

// followed is a ring from one event to the next.
type followed struct {
	stretch
	to float64
}

// follow insets a ring up to the limit, event by event. tolerance is how near two corners, or a corner and a side, must
// come to have met.
func follow(start ring, limit, tolerance float64) (inset, error) {
	type moving struct {
		ring ring
		born float64
	}
	var life []followed
	in := inset{end: math.Inf(1)}
	for front := []moving{{ring: start}}; len(front) > 0; {
		m := front[len(front)-1]
		front = front[:len(front)-1]
		f := followed{stretch: m.ring.stretch(m.born)}
		f.to = m.born + m.ring.nextEvent(limit-m.born, tolerance)
		life = append(life, f)
		if f.to >= limit {
			continue
		}
		if len(life) > 20*len(start)+100 {
			return inset{}, errUnresolved
		}
		left := f.areaAt(f.to)
		for _, r := range tidy(m.ring.advance(f.to-m.born), tolerance) {
			front = append(front, moving{ring: r, born: f.to})
			left -= r.area()
		}
		in.jumps += math.Abs(left)
	}
	in.stretches, in.end = merge(life, limit)
	return in, nil
}

// merge adds up the rings that are under way at the same inset.
func merge(life []followed, limit float64) (stretches []stretch, end float64) {
	var events []float64
	for _, f := range life {
		events = append(events, f.from, f.to)
		end = max(end, f.to)
	}
	slices.Sort(events)
	for _, d := range slices.Compact(events) {
		if d >= end {
			break
		}
		sum := stretch{from: d}
		for _, f := range life {
			if f.from <= d && d < f.to {
				sum.area += f.areaAt(d)
				sum.perimeter += f.perimeterAt(d)
				sum.corners += f.corners
				sum.parts++
			}
		}
		stretches = append(stretches, sum)
	}
	if end >= limit {
		end = math.Inf(1)
	}
	return stretches, end
}

func (r ring) prev(i int) int { return (i + len(r) - 1) % len(r) }
func (r ring) next(i int) int { return (i + 1) % len(r) }

// along is the direction of the side that leaves corner i.
func (r ring) along(i int) r2.Vec {
	n := r[i].normal
	return r2.Vec{X: n.Y, Y: -n.X}
}

// length is the length of the side that leaves corner i.
func (r ring) length(i int) float64 {
	return r2.Dot(r2.Sub(r[r.next(i)].at, r[i].at), r.along(i))
}

// half is tan(turn/2) at corner i, negative where the corner points into the water. It is written so that a corner that
// almost doubles back keeps its digits.
func (r ring) half(i int) float64 {
	in, out := r[r.prev(i)].normal, r[i].normal
	const doubledBack = 1e-12
	t := r2.Norm(r2.Sub(out, in)) / max(doubledBack, r2.Norm(r2.Add(out, in)))
	if r2.Cross(in, out) < 0 {
		return -t
	}
	return t
}

// advance moves every side inwards by d.
func (r ring) advance(d float64) ring {
	moved := make(ring, len(r))
	for i, c := range r {
		moved[i] = corner{at: r2.Add(c.at, r2.Scale(d, r.motionAt(i).velocity)), normal: c.normal}
	}
	return moved
}

// area is the enclosed area, positive anticlockwise.
func (r ring) area() float64 {
	var twice float64
	for i := range r {
		twice += r2.Cross(r2.Sub(r[i].at, r[0].at), r2.Sub(r[r.next(i)].at, r[0].at))
	}
	return twice / 2
}

func (r ring) stretch(from float64) stretch {
	s := stretch{from: from, area: r.area(), parts: 1}
	for i := range r {
		s.perimeter += r.length(i)
		s.corners += r.half(i)
	}
	return s
}

package outline

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// nextEvent is how far the ring can go before a side shrinks to nothing or a corner that points into the water meets
// another side, or limit if it can go that far.
func (r ring) nextEvent(limit, tolerance float64) float64 {
	moves := make([]motion, len(r))
	for i := range r {
		moves[i] = r.motionAt(i)
	}
	soonest := max(0, limit)
	for i := range r {
		if shrink := moves[i].half + moves[r.next(i)].half; shrink > 0 {
			soonest = min(soonest, max(0, moves[i].length/shrink))
		}
	}
	for i := range r {
		const straight = 1e-9
		if moves[i].half > straight {
			continue
		}
		for j := range r {
			if j == i || j == r.prev(i) {
				continue
			}
			soonest = r.meets(moves, i, j, soonest, tolerance)
		}
	}
	return soonest
}

// A motion is how a corner and the side that leaves it move with the inset.
type motion struct {
	half     float64 // tan(turn/2) at the corner
	length   float64 // of the side; it shrinks by the half of both its corners
	velocity r2.Vec  // of the corner, for each metre of inset
	along    r2.Vec  // the side's direction
}

func (r ring) motionAt(i int) motion {
	half, along := r.half(i), r.along(i)
	return motion{half: half, length: r.length(i), along: along, velocity: r2.Add(r[i].normal, r2.Scale(half, along))}
}

// meets is when corner i meets side j, or soonest if that is later or never.
func (r ring) meets(m []motion, i, j int, soonest, tolerance float64) float64 {
	gap := r2.Dot(r2.Sub(r[i].at, r[j].at), r[j].normal)
	closing := 1 - r2.Dot(m[i].velocity, r[j].normal)
	if gap <= 0 || closing <= 0 || gap >= soonest*closing || r.together(i, j, tolerance) {
		return soonest
	}
	when := gap / closing
	from := r2.Add(r[j].at, r2.Scale(when, m[j].velocity))
	corner := r2.Add(r[i].at, r2.Scale(when, m[i].velocity))
	place := r2.Dot(r2.Sub(corner, from), m[j].along)
	length := m[j].length - when*(m[j].half+m[r.next(j)].half)
	if place < -tolerance || place > length+tolerance {
		return soonest
	}
	return when
}

// together says that corner i stands on an end of side j, as the two corners of a side that has no length yet do.
func (r ring) together(i, j int, tolerance float64) bool {
	return r2.Norm(r2.Sub(r[i].at, r[j].at)) <= tolerance || r2.Norm(r2.Sub(r[i].at, r[r.next(j)].at)) <= tolerance
}

// tidy takes a ring at an event apart: sides that have vanished go, corners that have met another side split the ring,
// and what has no width left is dropped.
func tidy(r ring, tolerance float64) []ring {
	var done []ring
	for todo := []ring{r}; len(todo) > 0; {
		r := todo[len(todo)-1].withoutShortSides(tolerance)
		todo = todo[:len(todo)-1]
		if len(r) < 3 || r.area() <= tolerance*r.girth() {
			continue
		}
		if i, j, meet := r.contact(2 * tolerance); meet {
			todo = append(todo, r.split(i, j, 2*tolerance)...)
			continue
		}
		done = append(done, r)
	}
	return done
}

// girth is the perimeter, also of a ring with sides that run backwards.
func (r ring) girth() float64 {
	var sum float64
	for i := range r {
		sum += r2.Norm(r2.Sub(r[r.next(i)].at, r[i].at))
	}
	return sum
}

func (r ring) withoutShortSides(tolerance float64) ring {
	kept := make(ring, 0, len(r))
	for i, c := range r {
		if math.Abs(r.length(i)) > tolerance {
			kept = append(kept, c)
		}
	}
	return kept
}

// contact finds a corner i that lies on a side j which it is no end of.
func (r ring) contact(tolerance float64) (i, j int, meet bool) {
	for i := range r {
		for j := range r {
			beside := math.Abs(r2.Dot(r2.Sub(r[i].at, r[j].at), r[j].normal)) <= tolerance // cheap, and mostly false
			if beside && j != i && j != r.prev(i) && fromSegment(r[i].at, r[j].at, r[r.next(j)].at) <= tolerance {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}

// split cuts the ring in two where corner i lies on side j, or on one of its ends.
func (r ring) split(i, j int, tolerance float64) []ring {
	switch next := r.next(j); {
	case r2.Norm(r2.Sub(r[i].at, r[j].at)) <= tolerance:
		return []ring{r.run(i, j), r.run(j, i)}
	case r2.Norm(r2.Sub(r[i].at, r[next].at)) <= tolerance:
		return []ring{r.run(i, next), r.run(next, i)}
	}
	rest := append(ring{{at: r[i].at, normal: r[j].normal}}, r.run(r.next(j), i)...)
	return []ring{r.run(i, r.next(j)), rest}
}

// run are the corners from i up to, without, j.
func (r ring) run(i, j int) ring {
	var part ring
	for k := i; k != j; k = r.next(k) {
		part = append(part, r[k])
	}
	return part
}

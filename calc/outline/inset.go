package outline

import (
	"math"
	"sort"
)

// An inset is a plan on its way inwards, as area and perimeter against the distance gone.
type inset struct {
	stretches []stretch // in order of from
	end       float64   // where nothing is left; infinite if the edge was not followed so far
	jumps     float64   // m², sum of the breaks in area between stretches, which ought to be none
	fit       float64   // bound of what fitting a smooth edge costs, as a share of the whole area
	sharp     []int     // points whose corner was cut across instead of mitred
}

// A stretch is the part of the way on which the edge changes its size but not its kind. With x = d - from, area is
// A - P x + T x² and perimeter P - 2 T x, where T sums tan(turn/2) over the corners (turns into the water negative).
type stretch struct {
	from                     float64
	area, perimeter, corners float64
	parts                    int // of the floor that are separate
}

func (s stretch) areaAt(d float64) float64 {
	x := d - s.from
	return s.area - s.perimeter*x + s.corners*x*x
}

func (s stretch) perimeterAt(d float64) float64 {
	return s.perimeter - 2*s.corners*(d-s.from)
}

// at is the stretch that holds just inside inset d.
func (in inset) at(d float64) stretch {
	later := sort.Search(len(in.stretches), func(i int) bool { return in.stretches[i].from > d })
	return in.stretches[max(0, later-1)]
}

// areaAt is the area left at inset d.
func (in inset) areaAt(d float64) float64 {
	if d >= in.end {
		return 0
	}
	return max(0, in.at(d).areaAt(d))
}

// between are the ends of stretches strictly inside (a, b).
func (in inset) between(a, b float64) []float64 {
	var ends []float64
	for _, s := range in.stretches {
		if s.from > a && s.from < b {
			ends = append(ends, s.from)
		}
	}
	return ends
}

// splits is the first inset at which the floor is in more than one part, and in how many.
func (in inset) splits(limit float64) (at float64, parts int) {
	at = math.Inf(1)
	for _, s := range in.stretches {
		if s.from <= limit && s.parts > 1 {
			at, parts = min(at, s.from), max(parts, s.parts)
		}
	}
	return at, parts
}

package defect

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/pondwright/calc/source"
)

// swapped finds flows that stand in the column of heads: a flow in litres an hour is hundreds to thousands of times its head in
// metres (a spring of 300 L/h against 20 m has 15, every common pump more than 100), and here it is the other way round.
//
// Where the flows are in cubic metres an hour the two are of one size, which is a matter of units.
func (s *sheet) swapped() bool {
	q, h := slices.Max(s.q), slices.Max(s.h)
	const apart = 8
	if !(q > 0) || !(h > apart*q) || h < 60 {
		return false
	}
	// In place, the greatest flow must be one, and the greatest head too.
	if h > mostFlow || q > mostHead {
		return false
	}
	if s.p != nil {
		best := 0.0 // the product of flow and head does not mind being swapped
		for i := range s.q {
			best = max(best, s.q[i]*s.h[i]*s.perUnit/s.p[i])
		}
		if best < 0.0008 { // nothing that pumps is as bad as this: more likely a unit
			return false
		}
	}
	s.add(AxesSwapped, 0.99, source.Practice, "swap the columns of flow and head",
		fmt.Sprintf("The heads go up to %s and the flows to %s only: the two columns are swapped.", metres(h), litres(q)),
		of("greatest head as given", h, "m"), of("greatest flow as given", q, "L/h"))
	s.q, s.h = s.h, s.q // and the rest is checked as it was meant
	return true
}

// sorted puts the points into the order of flow. afterSwap says that the order is that of swapped columns, which says nothing.
func (s *sheet) sorted(afterSwap bool) {
	rising, falling := true, true
	for i := 1; i < len(s.q); i++ {
		rising = rising && s.q[i] >= s.q[i-1]
		falling = falling && s.q[i] <= s.q[i-1]
	}
	if rising {
		return
	}
	if !afterSwap && !falling && s.twoCurves() {
		return
	}
	if !afterSwap {
		first := 1
		for s.q[first] >= s.q[first-1] {
			first++
		}
		sentence := fmt.Sprintf("The points are not in the order of flow: point %d at %s comes after %s.", first+1, litres(s.q[first]), litres(s.q[first-1]))
		if falling {
			sentence = "The points run from the greatest flow to the least."
		}
		s.add(PointsOutOfOrder, 0.97, source.Definition, "put the points in the order of flow, and see that each head still stands beside its flow",
			sentence, at(first, "flow", s.q[first], "L/h"))
	}
	s.order = s.order[:0]
	for i := range s.q {
		s.order = append(s.order, i)
	}
	slices.SortStableFunc(s.order, func(a, b int) int {
		switch {
		case s.q[a] < s.q[b]:
			return -1
		case s.q[a] > s.q[b]:
			return 1
		}
		return 0
	})
	permute(s.q, s.order)
	permute(s.h, s.order)
	if s.p != nil {
		permute(s.p, s.order)
	}
	for i, from := range slices.Clone(s.order) {
		s.order[i] = s.index[from]
	}
	s.index, s.order = s.order, s.index
}

func permute(x []float64, order []int) {
	was := slices.Clone(x)
	for i, from := range order {
		x[i] = was[from]
	}
}

// twoCurves finds two curves written one after the other: flow falls back once, and both parts are curves of three points and
// more whose heads fall and differ.
func (s *sheet) twoCurves() bool {
	back := 0
	for i := 1; i < len(s.q); i++ {
		if s.q[i] < s.q[i-1] {
			if back > 0 {
				return false
			}
			back = i
		}
	}
	const part = 3
	if back < part || len(s.q)-back < part || s.q[back] > 0.35*s.q[back-1] {
		return false
	}
	if !falls(s.h[:back]) || !falls(s.h[back:]) {
		return false
	}
	s.tellTwoCurves(back, len(s.q)-back)
	// The first is looked at further.
	s.q, s.h, s.index = s.q[:back], s.h[:back], s.index[:back]
	if s.p != nil {
		s.p = s.p[:back]
	}
	return true
}

// strangers is how many points have to go for the heads of the rest to fall.
func (s *sheet) strangers() int {
	longest, runs := 0, make([]int, len(s.h))
	for i := range s.h {
		runs[i] = 1
		for j := range i {
			if s.h[i] <= s.h[j]*(1+flat) {
				runs[i] = max(runs[i], runs[j]+1)
			}
		}
		longest = max(longest, runs[i])
	}
	return len(s.h) - longest
}

func (s *sheet) tellTwoCurves(first, second int) {
	s.add(TwoCurvesInOne, 0.95, source.Definition, "give each speed, or each pump, an item number of its own",
		fmt.Sprintf("Two curves are mixed in one, of %d and %d points: two speeds, or two pumps.", first, second),
		of("points of the first", float64(first), "1"), of("points of the second", float64(second), "1"))
}

// falls says whether heads fall, but for a droop in the first half.
func falls(h []float64) bool {
	for i := 1; i < len(h); i++ {
		if h[i] > h[i-1]*(1+flat) && i > len(h)/2 {
			return false
		}
	}
	return h[len(h)-1] < h[0]
}

// woven finds two curves sorted into one by flow: heads jump down and up again at every other point, more than once.
func (s *sheet) woven() bool {
	up, down := 0, 0
	const jump = 0.08
	for i := 1; i < len(s.h); i++ {
		switch d := s.h[i] - s.h[i-1]; {
		case d > jump*s.top:
			up++
		case d < -jump*s.top:
			down++
		}
	}
	if up < 2 || len(s.h) < 6 || down < 2 || s.strangers() < 3 {
		return false
	}
	// Each point belongs to the upper or the lower curve; both must fall.
	upper, lower := s.h[0], math.Inf(1)
	high, low := 1, 0
	for i := 1; i < len(s.h); i++ {
		toUpper := s.h[i] <= upper*(1+flat)
		toLower := s.h[i] <= lower*(1+flat)
		switch {
		case toUpper && (!toLower || s.h[i] > (upper+min(lower, upper))/2 || low == 0 && s.h[i] > 0.8*upper):
			upper, high = s.h[i], high+1
		case toLower:
			lower, low = s.h[i], low+1
		default:
			return false
		}
	}
	if high < 3 || low < 3 {
		return false
	}
	s.tellTwoCurves(high, low)
	return true
}

// single keeps each flow once. A point that is there twice is dropped; of two heads at one flow, the one that lies farther from the
// line through its neighbours is.
func (s *sheet) single() {
	var same, other []string
	var where int
	doubled := 0
	for i := 1; i < len(s.q); i++ {
		if s.q[i] > s.q[i-1] {
			continue
		}
		doubled++
		where = i
		if math.Abs(s.h[i]-s.h[i-1]) <= 0.02*max(s.h[i], s.h[i-1]) {
			same = append(same, litres(s.q[i]))
		} else {
			other = append(other, fmt.Sprintf("%s (%s and %s)", litres(s.q[i]), metres(s.h[i-1]), metres(s.h[i])))
		}
		drop := i
		if len(other) > 0 && s.strays(i-1, i) {
			drop = i - 1
		}
		s.drop(drop)
		i--
	}
	if doubled == 0 {
		return
	}
	where = min(where, len(s.index)-1)
	if len(same) > 0 {
		s.add(PointRepeated, 0.97, source.Definition, "keep one of them", "There is more than one point at "+strings.Join(same, ", ")+".",
			at(s.index[where], "points too many", float64(len(same)), "1"))
	}
	if len(other) > 0 {
		s.add(TwoHeadsAtOneFlow, 0.97, source.Definition, "look the point up again and keep the right one",
			"Two heads are given at one flow: "+strings.Join(other, ", ")+".", at(s.index[where], "points too many", float64(len(other)), "1"))
	}
}

// strays says whether point a lies farther from the line between the points on either side of a and b than b does.
func (s *sheet) strays(a, b int) bool {
	if a == 0 {
		return s.h[a] < s.h[b] // at no flow the head is the greater
	}
	if b == len(s.q)-1 {
		return s.h[a] > s.h[b]
	}
	u := (s.q[a] - s.q[a-1]) / (s.q[b+1] - s.q[a-1])
	line := s.h[a-1] + u*(s.h[b+1]-s.h[a-1])
	return math.Abs(s.h[a]-line) > math.Abs(s.h[b]-line)
}

func (s *sheet) drop(i int) {
	s.q = slices.Delete(s.q, i, i+1)
	s.h = slices.Delete(s.h, i, i+1)
	s.index = slices.Delete(s.index, i, i+1)
	if s.p != nil {
		s.p = slices.Delete(s.p, i, i+1)
	}
}

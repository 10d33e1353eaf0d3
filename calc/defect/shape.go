package defect

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/source"
)

// A droop towards no flow is common in real pumps. One of up to 6 % with its crest in the first 40 % of the flows passes; beyond
// that, and up to what the engine draws at all (15 %, first half), the two flows at one head matter. Common practice, no source.
const (
	droopPasses     = 0.06
	droopFlowPasses = 0.4
	droopMost       = 0.15
	droopFlowMost   = 0.5
)

// rises finds heads that rise with flow.
func (s *sheet) rises() {
	crest := 0
	for crest+1 < len(s.h) && s.h[crest+1] >= s.h[crest] {
		crest++
	}
	s.droop(crest)
	lowest := s.h[crest]
	for i := crest + 1; i < len(s.h); i++ {
		if rise := s.h[i] - lowest; rise > flat*s.top {
			s.dip(i, lowest, rise)
			return
		}
		lowest = min(lowest, s.h[i])
	}
}

// droop judges the rise from the first point to the crest.
func (s *sheet) droop(crest int) {
	rise := s.h[crest] - s.h[0]
	if rise <= flat*s.top {
		return
	}
	share, where := rise/s.h[0], s.q[crest]/s.last
	evidence := []Evidence{at(s.index[0], "head at the first point", s.h[0], "m"), at(s.index[crest], "greatest head", s.h[crest], "m")}
	switch {
	case share <= droopPasses && where <= droopFlowPasses:
	case share <= droopMost && where <= droopFlowMost:
		s.add(DroopTwoDuties, 0.9, source.Practice, "look the first points up again; if they are right the pump hunts where its load is nearly all lift",
			fmt.Sprintf("Head rises from %s to %s at %s before it falls: between the two the pump has two flows at one head.",
				metres(s.h[0]), metres(s.h[crest]), litres(s.q[crest])), evidence...)
	default:
		s.add(HeadRises, 0.97, source.Practice, "look the points up again: a digit, a unit, or heads in the reverse order",
			fmt.Sprintf("Head rises with flow, from %s at %s to %s at %s.", metres(s.h[0]), litres(s.q[0]), metres(s.h[crest]), litres(s.q[crest])), evidence...)
	}
}

// dip tells of a head that rises again after it has fallen.
func (s *sheet) dip(i int, lowest, rise float64) {
	evidence := []Evidence{at(s.index[i], "head at this point", s.h[i], "m"), of("least head before it", lowest, "m")}
	falls := false
	for j := i + 1; j < len(s.h); j++ {
		falls = falls || s.h[j] < s.h[i]
	}
	if falls {
		s.add(HeadDips, 0.97, source.Practice, "look the point up again, and the one before it",
			fmt.Sprintf("Head falls to %s, rises by %s to %s at %s and falls again: the pump would have two duties at one head.",
				metres(lowest), metres(rise), metres(s.h[i]), litres(s.q[i])), evidence...)
		return
	}
	s.add(HeadRises, 0.97, source.Practice, "look the last points up again",
		fmt.Sprintf("Head rises with flow, from %s to %s at %s.", metres(lowest), metres(s.h[i]), litres(s.q[i])), evidence...)
}

// Points of a sound curve scatter by up to some 1 % of the greatest head round a smooth one, and power by as much: readings of a
// chart, rounding. A point that is 3.5 % off and six times what the others are is looked at. Chosen here, held to the labelled set.
const (
	usualScatter   = 0.009
	leastOff       = 0.035
	manyDeviations = 5.5
)

// offCurve finds a point that does not belong to the smooth curve of the others.
func (s *sheet) offCurve() {
	terms := s.terms()
	if terms == 0 {
		return
	}
	x, y := s.unitSquare(s.h, s.top)
	s.fit.of(x, y, terms)
	digit := s.digits.h / s.top
	i, distance, deviations := s.fit.farthest(max(usualScatter, digit))
	if math.Abs(distance) < max(leastOff, 2.5*digit) || deviations < manyDeviations {
		return
	}
	s.off, s.offExpected = i, s.h[i]-distance*s.top
	s.add(PointOffCurve, min(0.99, 0.6+0.04*deviations), source.Choice, "look the point up again: two digits may have changed places",
		fmt.Sprintf("At %s the head of %s lies %s %s the smooth curve of the other points.", litres(s.q[i]), metres(s.h[i]),
			metres(math.Abs(distance)*s.top), aboveBelow(distance)),
		at(s.index[i], "head at this point", s.h[i], "m"), at(s.index[i], "head of the smooth curve", s.h[i]-distance*s.top, "m"),
		of("deviations from the scatter of the others", deviations, "1"))
}

// powerOffCurve does the same for power.
func (s *sheet) powerOffCurve() {
	terms := s.terms()
	if terms == 0 || s.p == nil {
		return
	}
	top := 0.0
	even := true
	for i := range s.p {
		top = max(top, s.p[i])
		even = even && s.p[i] == s.p[0]
	}
	if even {
		return
	}
	x, y := s.unitSquare(s.p, top)
	s.fit.of(x, y, terms)
	digit := s.digits.p / top
	i, distance, deviations := s.fit.farthest(max(usualScatter, digit))
	if math.Abs(distance) < max(leastOff, 2.5*digit) || deviations < manyDeviations {
		return
	}
	s.add(PowerOffCurve, min(0.99, 0.6+0.04*deviations), source.Choice, "look the power up again",
		fmt.Sprintf("At %s the power of %s lies %s %s the smooth curve of the other points.", litres(s.q[i]), watts(s.p[i]),
			watts(math.Abs(distance)*top), aboveBelow(distance)),
		at(s.index[i], "power at this point", s.p[i], "W"), of("deviations from the scatter of the others", deviations, "1"))
}

// terms is how many terms a smooth curve through the points has; 0 where there are too few points to doubt one.
func (s *sheet) terms() int {
	switch n := len(s.q); {
	case n >= 7:
		return 4
	case n >= 5:
		return 3
	}
	return 0
}

// unitSquare scales the points to run from 0 to 1.
func (s *sheet) unitSquare(of []float64, top float64) (x, y []float64) {
	if cap(s.store[3]) < 2*len(of) {
		s.store[3] = make([]float64, 2*len(of))
	}
	x, y = s.store[3][:len(of)], s.store[3][len(of):2*len(of)]
	for i := range of {
		x[i], y[i] = s.q[i]/s.last, of[i]/top
	}
	return x, y
}

func aboveBelow(distance float64) string {
	if distance > 0 {
		return "above"
	}
	return "below"
}

// ends finds out whether the curve reaches from no flow to no head. A pump's curve may end before free flow and be of use, which
// is why the one weighs more than the other.
func (s *sheet) ends() {
	const nearNothing = 0.01
	if s.q[0] > nearNothing*s.last {
		s.add(ShutOffMissing, 0.97, source.Definition, "add the head at no flow",
			fmt.Sprintf("The curve begins at %s: the head at no flow is missing, and with it how high the pump lifts at most.", litres(s.q[0])),
			at(s.index[0], "least flow", s.q[0], "L/h"))
	}
	if end := s.h[len(s.h)-1]; end > nearFree*s.top {
		s.add(FreeFlowMissing, 0.95, source.Definition, "add the flow at no head, if the maker gives it",
			fmt.Sprintf("The curve ends at %s with %s left: what flows at less head is not known.", litres(s.last), metres(end)),
			at(s.index[len(s.h)-1], "head at the last point", end, "m"))
	}
}

// nearFree is the share of the greatest head below which a curve is taken to have come to free flow.
const nearFree = 0.04

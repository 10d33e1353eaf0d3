package defect

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/source"
)

// Bounds of what a curve may say. They are those of the pump's fields in the contract of catalogues, which no garden pump comes
// near; flows and heads are held to them only when no swapped axes and no wrong unit explain them.
const (
	mostFlow  = 1e6 // L/h
	mostHead  = 200 // m
	mostPower = 1e5 // W
)

// numbers holds every number to being one. A curve with a number that is none cannot be looked at further.
func (s *sheet) numbers() bool {
	fine := true
	for i, p := range s.curve.Points {
		q, h, w := p.Flow.LitresPerHour(), p.Head.Metres(), p.Power.Watts()
		fine = s.number(i, "flow", q, "L/h", false) && fine
		fine = s.number(i, "head", h, "m", false) && fine
		fine = s.number(i, "power", w, "W", true) && fine
	}
	fine = s.number(NoPoint, "power of the pump", s.curve.Power.Watts(), "W", true) && fine
	fine = s.number(NoPoint, "flow on the label", s.curve.LabelFlow.LitresPerHour(), "L/h", true) && fine
	fine = s.number(NoPoint, "head on the label", s.curve.LabelHead.Metres(), "m", true) && fine
	return fine
}

// number looks at one number. Where it may be missing, 0 says so.
func (s *sheet) number(point int, name string, x float64, unit string, mayMiss bool) bool {
	const beyond = 1e12 // no unit makes this of anything that is sold
	if x >= 0 && x <= beyond {
		return true
	}
	where := "The " + name
	if point != NoPoint {
		where = fmt.Sprintf("At point %d the %s", point+1, name)
	}
	e := Evidence{Name: name, Point: point}
	e.Value.Number, e.Value.Unit = x, unit
	switch {
	case math.IsNaN(x) && !mayMiss:
		e.Value.Number = 0
		s.add(NumberMissing, 1, source.Definition, "fill it in, or leave the point out", where+" is missing.", e)
	case math.IsNaN(x), math.IsInf(x, 0):
		e.Value.Number = 0
		s.add(NumberNotFinite, 1, source.Definition, "give a number", where+" is not a number.", e)
	case x < 0:
		s.add(NumberNegative, 1, source.Definition, "look it up again: a sign, or a dash that was meant for \"none\"",
			fmt.Sprintf("%s is %g %s, below 0.", where, x, unit), e)
	default:
		s.add(NumberOutOfBounds, 1, source.Definition, "look it up again, and its unit", fmt.Sprintf("%s is %g %s.", where, x, unit), e)
	}
	return false
}

// bounds holds the numbers that nothing explains to what can be.
func (s *sheet) bounds() {
	if s.last > mostFlow {
		s.add(NumberOutOfBounds, 0.99, source.Practice, "look the flows up again, and their unit",
			fmt.Sprintf("The greatest flow is %s; no garden pump gives more than %s.", litres(s.last), litres(mostFlow)), of("greatest flow", s.last, "L/h"))
	}
	if s.top > mostHead {
		s.add(NumberOutOfBounds, 0.99, source.Practice, "look the heads up again, and their unit",
			fmt.Sprintf("The greatest head is %s; no garden pump gives more than %s.", metres(s.top), metres(mostHead)), of("greatest head", s.top, "m"))
	}
	for i := range s.p {
		if s.p[i] > mostPower {
			s.add(NumberOutOfBounds, 0.99, source.Practice, "look the powers up again, and their unit",
				fmt.Sprintf("Power is %s; no garden pump takes more than %s.", watts(s.p[i]), watts(mostPower)), at(s.index[i], "power", s.p[i], "W"))
			return
		}
	}
}

// fewest is the number of points that shows how a curve bends without a law put into it: two are a straight line, three any
// parabola.
const fewest = 4

// most is how many points a curve may have, the bound of the contract of catalogues.
const most = 200

// enough wants a curve to have points. It is false below two, and beyond the most.
func (s *sheet) enough(n int) bool {
	switch {
	case n < 2:
		s.addAs(severities[NumberMissing], TooFewPoints, 1, source.Definition, "give the points from no flow to no head",
			fmt.Sprintf("The curve has %d of the two points at least that make one.", n), of("points", float64(n), "1"))
		return false
	case n > most:
		s.add(TooManyPoints, 1, source.Definition, "keep the points that show how it bends; twelve do",
			fmt.Sprintf("The curve has %d points, and %d can be looked at.", n, most), of("points", float64(n), "1"))
		return false
	case n < fewest:
		s.add(TooFewPoints, 0.95, source.Definition, "read four points or more from the maker's chart",
			fmt.Sprintf("%d points do not show how the curve bends: what lies between them is a guess.", n), of("points", float64(n), "1"))
	}
	return true
}

// nothing is true of a curve that is zero in flow or in head throughout.
func (s *sheet) nothing() bool {
	if s.top > 0 && s.last > 0 {
		return false
	}
	s.add(CurveEmpty, 1, source.Definition, "give the points of the curve", fmt.Sprintf("The greatest flow is %s and the greatest head %s: that is no pump.",
		litres(s.last), metres(s.top)), of("greatest flow", s.last, "L/h"), of("greatest head", s.top, "m"))
	return true
}

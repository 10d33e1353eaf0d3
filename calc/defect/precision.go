package defect

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/source"
)

// finest is a unit that a column may have been printed in, and the finest step that anybody prints in it. Numbers that are finer
// in every unit were read off a picture, or worked out. Common practice, no source.
type finest struct{ unit, step float64 }

var (
	finestFlows = []finest{
		{1, 0.1}, {60, 0.01}, {1000, 0.001}, {3600, 0.0001}, {3.785411784, 0.1}, {4.54609, 0.1}, {227.12470704, 0.001}, {272.7654, 0.001},
	}
	finestHeads = []finest{{1, 0.001}, {0.3048, 0.01}, {1 / kilopascalsPerMetre, 0.01}, {100 / kilopascalsPerMetre, 0.0001}, {psi / kilopascalsPerMetre, 0.001}, {0.001, 1}}
)

// tooPrecise finds columns with more digits than a pump can be measured to. Six figures of a flow and five of a head are let pass.
func (s *sheet) tooPrecise() {
	flows, heads := beyondPrint(s.q, s.last, s.digits.q, finestFlows, 1e-5), beyondPrint(s.h, s.top, s.digits.h, finestHeads, 1e-4)
	if flows < fewest-1 && heads < fewest-1 {
		return
	}
	column, example := "flows", fmt.Sprintf("%.9g L/h", s.q[len(s.q)/2])
	if heads >= fewest-1 {
		column, example = "heads", fmt.Sprintf("%.9g m", s.h[len(s.h)/2])
	}
	s.add(CurveTooPrecise, 0.9, source.Practice, "ask for the printed figures, or for the measurement",
		fmt.Sprintf("The %s have more digits than anybody measures, such as %s: the curve was read off a picture or worked out.", column, example),
		of("flows with too many digits", float64(flows), "1"), of("heads with too many digits", float64(heads), "1"))
}

// beyondPrint counts the numbers that are finer than print, in the unit in which there are fewest.
func beyondPrint(x []float64, greatest, digit float64, units []finest, share float64) int {
	if digit >= units[0].step && digit > greatest*share { // round enough in the unit it came in
		return 0
	}
	fewest := len(x)
	for _, u := range units {
		step := max(u.step, math.Pow(10, math.Floor(math.Log10(greatest/u.unit)))*share)
		finer := 0
		for _, v := range x {
			y := v / u.unit
			if math.Abs(y-math.Round(y/step)*step) > 1e-7*step+1e-11*greatest/u.unit {
				finer++
			}
		}
		if fewest = min(fewest, finer); fewest == 0 {
			return 0
		}
	}
	return fewest
}

// How far a measured curve leaves any law of three constants, as a share of the greatest head, and how unlikely it must be that it
// does not for the curve to be called worked out. From the shapes of printed curves; assumed.
const (
	leavesLaw   = 0.006
	unlikelyLaw = 1e-4
)

// formula finds curves whose points lie on one exact law, to the last digit printed: no measurement does.
func (s *sheet) formula() {
	n := len(s.q)
	if n < 5 {
		return
	}
	x, y := s.unitSquare(s.h, s.top)
	halfHead := s.digits.h / 2 / s.top
	halfFlow := s.digits.q / 2 / s.last
	if s.straight(x, y, halfHead) {
		s.tellFormula("a straight line")
		return
	}
	if chance(halfHead, 0, n-2) > unlikelyLaw {
		return
	}
	s.fit.of(x, y, 3)
	if s.exact(x, y, func(i int) float64 { return s.fit.residual[i] }, halfHead, halfFlow, n-3) {
		s.tellFormula("the parabola a + bQ + cQ²")
		return
	}
	still := y[0]
	if x[0] != 0 {
		return
	}
	middle := n / 2
	drop, whole := still-y[middle], still-y[n-1]
	if drop <= 0 || whole <= drop {
		return
	}
	power := math.Log(drop/whole) / math.Log(x[middle])
	if power < 1.01 || power > 8 {
		return
	}
	if r := y[n-2] - (still - whole*math.Pow(x[n-2], power)); math.Abs(r) > 4*(halfHead+halfFlow) {
		return // one point far off the law is enough to spare the rest
	}
	for range 3 { // the exponent that suits all points, by Gauss and Newton
		over, under := 0.0, 0.0
		for i := 1; i < n-1; i++ {
			raised := whole * math.Pow(x[i], power)
			slope := -raised * math.Log(x[i])
			over += slope * (y[i] - (still - raised))
			under += slope * slope
		}
		power += over / under
	}
	law := func(i int) float64 { return y[i] - (still - whole*math.Pow(x[i], power)) }
	if s.exact(x, y, law, 2*halfHead, 2*halfFlow, n-3) {
		s.tellFormula(fmt.Sprintf("the law H₀ - cQⁿ with n = %.2f", power))
	}
}

// straight says whether the points lie on a straight line, to the last digit. Curves of real pumps bend by some 6 % of the greatest head.
func (s *sheet) straight(x, y []float64, halfHead float64) bool {
	const bends, unlikely = 0.06, 0.01
	first, last := 0, len(x)-1
	for i := range x {
		line := y[first] + (y[last]-y[first])*(x[i]-x[first])/(x[last]-x[first])
		if math.Abs(y[i]-line) > 0.3*halfHead+1e-12 {
			return false
		}
	}
	return math.Pow(min(1, halfHead/bends), float64(len(x)-2)) < unlikely
}

// exact says whether all residuals are within what rounding does, though that is unlikely.
func (s *sheet) exact(x, y []float64, residual func(int) float64, halfHead, halfFlow float64, free int) bool {
	slope := 0.0
	for i := 1; i < len(x); i++ {
		slope = max(slope, math.Abs((y[i]-y[i-1])/(x[i]-x[i-1])))
	}
	greatest := 0.0
	for i := range x {
		greatest = max(greatest, math.Abs(residual(i)))
	}
	// Heads may have been worked out from the flows as printed, or both printed after.
	return greatest <= 1.1*halfHead+1e-12 && chance(halfHead, 0, free) <= unlikelyLaw ||
		greatest <= 1.1*halfHead+slope*halfFlow+1e-12 && chance(halfHead, slope*halfFlow, free) <= unlikelyLaw
}

// chance is how likely measured points lie on a law within rounding.
func chance(head, flow float64, free int) float64 {
	return math.Pow(min(1, (head+flow)/leavesLaw), float64(free))
}

func (s *sheet) tellFormula(law string) {
	s.add(CurveIsFormula, 0.9, source.Choice, "ask for the measurement",
		fmt.Sprintf("All %d points lie on %s to the last digit: the curve was worked out and not measured.", len(s.q), law), of("points", float64(len(s.q)), "1"))
}

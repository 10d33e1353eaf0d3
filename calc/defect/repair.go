package defect

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// nowhere is the position of no point.
const nowhere = -1

// repair makes the curve that was probably meant, and checks it as the one given was. There is none unless it has fewer defects and
// none that the other did not have.
func (c *Checker) repair(s *sheet, ready bool, neighbours *spread) *Repair {
	r := s.mended(ready)
	if r == nil {
		return nil
	}
	again := &c.repairing
	if ok := again.lay(&r.Curve); ok {
		again.judge(neighbours, c.grade)
	}
	left := Result{Defects: again.found}
	given := Result{Defects: s.found}
	for _, d := range left.Defects {
		if !given.Has(d.Code) && d.Severity != finding.Note {
			return nil
		}
	}
	r.Confidence = 1
	for _, d := range given.Defects {
		if d.Code != SameCurveTwice && d.Code != ItemNumberTwice && d.Code != ScaledCopy && !left.Has(d.Code) {
			r.Mends = append(r.Mends, d.Code)
			r.Confidence = min(r.Confidence, d.Confidence)
		}
	}
	if len(r.Mends) == 0 || left.Worst() >= given.Worst() && len(left.Defects) >= len(given.Defects) {
		return nil
	}
	return r
}

// mended is the curve with all changes made that its defects ask for; nil where they ask for none.
func (s *sheet) mended(ready bool) *Repair {
	r := &Repair{Curve: *s.curve}
	r.Curve.Measured = s.curve.Measured
	change := func(format string, args ...any) { r.Changes = append(r.Changes, fmt.Sprintf(format, args...)) }
	points := slices.Clone(s.curve.Points)
	switch {
	case s.mixed || s.has(TwoCurvesInOne):
		return nil
	case !ready:
		if points = s.whole(change); points == nil {
			return nil
		}
	default:
		if s.turned {
			for i, p := range points {
				points[i].Flow, points[i].Head = unit.LitresPerHour(p.Head.Metres()), unit.MetresOfWater(p.Flow.LitresPerHour())
			}
			change("columns of flow and head swapped")
		}
		points = pointsOf(points, s.index)
		switch dropped := len(s.curve.Points) - len(points); {
		case dropped > 0:
			change("%d repeated or doubtful points left out: %s", dropped, s.missing())
		case s.has(PointsOutOfOrder):
			change("points put into the order of flow")
		}
		points = s.strayMended(points, change)
		s.reversals(points, change)
	}
	if s.slipped {
		for i := range points {
			points[i].Flow *= unit.Flow(s.slip.flow)
			points[i].Head *= unit.Head(s.slip.head)
			points[i].Power *= unit.Power(s.slip.power)
		}
		r.Curve.Power *= unit.Power(s.slip.power)
		s.tellFactor(change)
	}
	if len(r.Changes) == 0 {
		return nil
	}
	r.Curve.Points = points
	return r
}

func (s *sheet) tellFactor(change func(string, ...any)) {
	switch c := s.slip; {
	case c.flow != 1:
		change("flows times %.6g", c.flow)
	case c.head != 1:
		change("heads times %.6g", c.head)
	default:
		change("powers times %.6g", c.power)
	}
}

// missing names the points that are no longer there.
func (s *sheet) missing() string {
	var gone []string
	for i := range s.curve.Points {
		if !slices.Contains(s.index, i) {
			gone = append(gone, fmt.Sprintf("point %d", i+1))
		}
	}
	return strings.Join(gone, ", ")
}

// whole are the points of which every number is one, where enough are left.
func (s *sheet) whole(change func(string, ...any)) []pump.Point {
	var kept []pump.Point
	for i, p := range s.curve.Points {
		if p.Flow >= 0 && p.Head >= 0 && p.Power >= 0 && !math.IsInf(float64(p.Flow), 0) && !math.IsInf(float64(p.Head), 0) && !math.IsInf(float64(p.Power), 0) {
			kept = append(kept, p)
			continue
		}
		change("point %d left out", i+1)
	}
	if len(kept) < fewest || len(kept) == len(s.curve.Points) {
		return nil
	}
	return kept
}

// strayMended mends the one point that lies off the curve: by changing the place of two digits where that brings it back to it, and
// otherwise by leaving it out.
func (s *sheet) strayMended(points []pump.Point, change func(string, ...any)) []pump.Point {
	if s.off == nowhere || len(points) <= fewest || s.off >= len(points) {
		return points
	}
	given := points[s.off].Head.Metres()
	const close = 0.02
	if meant, ok := transposed(given, s.offExpected, close*s.top); ok {
		points[s.off].Head = unit.MetresOfWater(meant)
		change("head at point %d: %g m to %g m, two digits having changed places", s.index[s.off]+1, given, meant)
		return points
	}
	change("point %d left out: its head of %g m lies off the curve of the others", s.index[s.off]+1, given)
	return slices.Delete(points, s.off, s.off+1)
}

// transposed finds two neighbouring digits that, in each other's place, bring a number near to what it should be.
func transposed(x, meant, within float64) (float64, bool) {
	text := []byte(strconv.FormatFloat(x, 'f', -1, 64))
	if !strings.Contains(string(text), ".") {
		text = append(text, ".00"...)
	}
	for i := range text {
		for _, j := range []int{i + 1, i + 2} { // with a decimal point between, or not
			if j >= len(text) || text[i] == '.' || text[j] == '.' || j == i+2 && text[i+1] != '.' {
				continue
			}
			text[i], text[j] = text[j], text[i]
			y, err := strconv.ParseFloat(string(text), 64)
			text[i], text[j] = text[j], text[i]
			if err == nil && y != x && math.Abs(y-meant) <= within {
				return y, true
			}
		}
	}
	return 0, false
}

// reversals turns heads, or powers, that stand in the reverse order.
func (s *sheet) reversals(points []pump.Point, change func(string, ...any)) {
	last := len(points) - 1
	if s.has(HeadRises) && !slices.ContainsFunc(s.steps(s.h), func(d float64) bool { return d < 0 }) {
		for i := 0; i < last-i; i++ {
			points[i].Head, points[last-i].Head = points[last-i].Head, points[i].Head
		}
		change("heads put in the reverse order")
	}
	if s.has(PowerFalls) && !slices.ContainsFunc(s.steps(s.p), func(d float64) bool { return d > 0 }) {
		for i := 0; i < last-i; i++ {
			points[i].Power, points[last-i].Power = points[last-i].Power, points[i].Power
		}
		change("powers put in the reverse order")
	}
}

func (s *sheet) steps(x []float64) []float64 {
	var d []float64
	for i := 1; i < len(x); i++ {
		d = append(d, x[i]-x[i-1])
	}
	return d
}

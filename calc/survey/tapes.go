package survey

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Surveyed outline has its points in the order in which they were measured.
type Surveyed struct {
	Outline  outline.Polygon
	Findings []finding.Finding

	through []outline.Point // that a smooth bank was drawn through
}

// A Shot is one point of the edge by its distances from two pegs. Looking from peg A to peg B it lies on the left.
type Shot struct {
	FromA, FromB unit.Length
	Right        bool // on the right after all
}

// TwoPegs finds the outline from two tapes, with peg A as origin and peg B along x. The shots go round the edge in order; the base is the distance from peg A
// to peg B. Errors are input.Errors with the paths "base_m" and "shots[2]".
func TwoPegs(t *working.Trail, base unit.Length, shots []Shot) (Surveyed, error) {
	var errs input.Errors
	if !taped(base) {
		errs.Add("base_m", asTaped, "the pegs cannot be %g m apart", base.Metres())
		return Surveyed{}, errs
	}
	a, b := outline.Point{}, outline.Point{X: base}
	var s Surveyed
	var flat []int
	for i, shot := range shots {
		if !closes(&errs, fmt.Sprintf("shots[%d]", i), base, shot) {
			continue
		}
		s.Outline.Points = append(s.Outline.Points, fix(t, a, b, shot))
		if isFlat(base, shot) {
			flat = append(flat, i)
		}
	}
	return finish(s, errs, flat, inList("shots", 0))
}

// A Tie is one point of the edge by its distances from two points measured before. Looking from the first of these to
// the second it lies on the left, or on the right if Right says so.
type Tie struct {
	A, B int // numbers of the two points, from 0 in the order measured
	Shot
}

// RunningTies finds the outline point by point, with point 0 as origin and point 1 along x. The base is the distance from point 0 to point 1; the first tie is
// point 2. Points go round the edge in order. Errors are input.Errors with the paths "base_m" and "ties[0]".
func RunningTies(t *working.Trail, base unit.Length, ties []Tie) (Surveyed, error) {
	var errs input.Errors
	if !taped(base) {
		errs.Add("base_m", asTaped, "the first two points cannot be %g m apart", base.Metres())
		return Surveyed{}, errs
	}
	s := Surveyed{Outline: outline.Polygon{Points: []outline.Point{{}, {X: base}}}}
	var flat []int
	for i, tie := range ties {
		field, points := fmt.Sprintf("ties[%d]", i), s.Outline.Points
		if tie.A < 0 || tie.B < 0 || tie.A >= len(points) || tie.B >= len(points) || tie.A == tie.B {
			errs.Add(field, "tie each point to two that come before it",
				"point %d is tied to points %d and %d", len(points), tie.A, tie.B)
			return Surveyed{}, errs // what hangs on this point cannot be judged
		}
		a, b := points[tie.A], points[tie.B]
		between := distance(a, b)
		if !closes(&errs, field, between, tie.Shot) {
			return Surveyed{}, errs
		}
		s.Outline.Points = append(points, fix(t, a, b, tie.Shot))
		if isFlat(between, tie.Shot) {
			flat = append(flat, len(points))
		}
	}
	return finish(s, errs, flat, func(point int) string {
		if point == 0 || point == 1 {
			return "base_m"
		}
		return inList("ties", 2)(point)
	})
}

const asTaped = "give a distance between 1 mm and 1 km"

// taped says whether a tape can have read this.
func taped(l unit.Length) bool { return l.Metres() >= 1e-3 && l.Metres() <= 1e3 }

// reaches says the same of a tape from a peg, at which a point may lie.
func reaches(l unit.Length) bool { return l >= 0 && l.Metres() <= 1e3 }

// closes says whether two tapes and their base make a triangle, and notes what is wrong if not.
func closes(errs *input.Errors, field string, base unit.Length, shot Shot) bool {
	a, b, c := shot.FromA.Metres(), shot.FromB.Metres(), base.Metres()
	switch {
	case !reaches(shot.FromA) || !reaches(shot.FromB):
		errs.Add(field, "give distances up to 1 km", "the tapes cannot read %g m and %g m", a, b)
	case a+b < c:
		errs.Add(field, "measure both distances again", "tapes of %g m and %g m do not reach each other over %.4g m", a, b, c)
	case math.Abs(a-b) > c:
		errs.Add(field, "measure both distances again",
			"tapes of %g m and %g m differ by more than the %.4g m between their pegs", a, b, c)
	default:
		return true
	}
	return false
}

func fix(t *working.Trail, a, b outline.Point, shot Shot) outline.Point {
	base := distance(a, b)
	at := TwoTapeFix.Run(t, FixInput{FromA: shot.FromA, FromB: shot.FromB, Base: base})
	if shot.Right {
		at.Off = -at.Off
	}
	ux, uy := (b.X-a.X)/base, (b.Y-a.Y)/base
	return outline.Point{X: a.X + at.Along*ux - at.Off*uy, Y: a.Y + at.Along*uy + at.Off*ux}
}

func distance(a, b outline.Point) unit.Length {
	return unit.Metres(math.Hypot((b.X - a.X).Metres(), (b.Y - a.Y).Metres()))
}

// finish checks the outline as a whole. An error names the measurement that a point comes from.
func finish(s Surveyed, errs input.Errors, flat []int, measured func(point int) string) (Surveyed, error) {
	if len(errs) > 0 {
		return Surveyed{}, errs
	}
	if _, err := outline.MeasurePlan(nil, s.Outline); err != nil {
		return Surveyed{}, renamed(err, measured)
	}
	if len(flat) > 0 {
		s.Findings = append(s.Findings, flatFix(flat))
	}
	return s, nil
}

// inList names the element of a list whose first is point number first.
func inList(list string, first int) func(point int) string {
	return func(point int) string {
		if point < 0 {
			return list
		}
		return fmt.Sprintf("%s[%d]", list, point-first)
	}
}

// renamed puts measurements in place of the points of the polygon that errors are about, -1 for all of them.
func renamed(err error, measured func(point int) string) error {
	errs, ok := err.(input.Errors)
	if !ok {
		return err
	}
	for i, e := range errs {
		point := -1
		if n, scanErr := fmt.Sscanf(e.Field, "polygon.points[%d]", &point); n == 0 || scanErr != nil {
			point = -1
		}
		errs[i].Field = measured(point)
	}
	return errs
}

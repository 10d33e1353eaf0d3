package survey

import (
	"fmt"
	"math"
	"strings"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// flattest is the angle between two tapes below which, and over 180° less which, a fix is weak: an error on the tape
// moves the point by 1/sin of the angle, here twice as much.
const flattest = 30 // degrees

// isFlat says whether the tapes meet at too small or too wide an angle, by the law of cosines at the point.
// At a peg there is no angle.
func isFlat(base unit.Length, shot Shot) bool {
	a, b, c := shot.FromA.Metres(), shot.FromB.Metres(), base.Metres()
	cos := (a*a + b*b - c*c) / (2 * a * b)
	return math.Abs(cos) > math.Cos(flattest*math.Pi/180)
}

func flatFix(points []int) finding.Finding {
	names := make([]string, len(points))
	for i, p := range points {
		names[i] = fmt.Sprint(p)
	}
	return finding.Finding{
		Code: "TAPES_MEET_FLAT", Severity: finding.Note, Subject: "survey",
		Sentence: fmt.Sprintf("The two tapes meet at less than %d° or nearly in line at point %s, so that an error on the tape is more than doubled there.",
			flattest, strings.Join(names, ", ")),
		Limit:  finding.Of(flattest, "°"),
		Change: "Measure these points from pegs further apart, or check them against a neighbour.",
		Source: source.Practice,
	}
}

// A CheckTape is one more distance between two points, measured to prove the survey.
type CheckTape struct {
	From, To int
	Measured unit.Length
}

// Prove holds the outline against check tapes between its points, or those a smooth bank was drawn through: a finding for
// each that is off by more than 50 mm and 1 %. The error is an input.Errors with the path "checks[0]".
func (s Surveyed) Prove(checks []CheckTape) ([]finding.Finding, error) {
	var errs input.Errors
	var found []finding.Finding
	points := s.Outline.Points
	if s.through != nil {
		points = s.through
	}
	for i, c := range checks {
		if c.From < 0 || c.To < 0 || c.From >= len(points) || c.To >= len(points) || c.From == c.To || !taped(c.Measured) {
			errs.Add(fmt.Sprintf("checks[%d]", i), "give two points of the survey and the distance between them",
				"%g m from point %d to point %d cannot be held against the survey", c.Measured.Metres(), c.From, c.To)
			continue
		}
		drawn := distance(points[c.From], points[c.To])
		off := unit.Metres(math.Abs((drawn - c.Measured).Metres()))
		if allowed := max(unit.Millimetres(50), c.Measured/100); off > allowed {
			found = append(found, doesNotProve(c, drawn, off, allowed))
		}
	}
	return found, errs.Err()
}

func doesNotProve(c CheckTape, drawn, off, allowed unit.Length) finding.Finding {
	return finding.Finding{
		Code: "SURVEY_DOES_NOT_PROVE", Severity: finding.Caution, Subject: "survey",
		Sentence: fmt.Sprintf("From point %d to point %d the tape says %.3f m and the survey %.3f m.",
			c.From, c.To, c.Measured.Metres(), drawn.Metres()),
		Value:  finding.Of(off.Millimetres(), "mm"),
		Limit:  finding.Of(allowed.Millimetres(), "mm"),
		Change: "Measure both points again before you dig or order.",
		Source: source.Choice,
	}
}

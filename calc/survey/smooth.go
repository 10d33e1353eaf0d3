package survey

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// drawn is about how many straight sides a smooth outline is drawn with.
const drawn = 240

// Smooth draws a smooth bank through points in order round the edge, as an outline of some 240 short sides. It takes
// 4 to 120 points. The bank between points is a guess, and a finding says what it makes of the area.
func Smooth(points []outline.Point) (Surveyed, error) {
	var errs input.Errors
	if len(points) < 4 || len(points) > drawn/2 {
		errs.Add("points", fmt.Sprintf("give 4 to %d points round the edge", drawn/2), "there are %d points", len(points))
		return Surveyed{}, errs
	}
	straight, err := outline.MeasurePlan(nil, outline.Polygon{Points: points})
	if err != nil {
		return Surveyed{}, renamed(err, inList("points", 0))
	}
	s := Surveyed{Outline: throughPoints(points), through: points}
	smooth, err := outline.MeasurePlan(nil, s.Outline)
	if err != nil {
		errs.Add("points", "give more points where the bank bends sharply or comes near itself",
			"a smooth bank through these points crosses itself")
		return Surveyed{}, errs
	}
	s.Findings = []finding.Finding{guessedBank(straight.Area.SquareMetres(), smooth.Area.SquareMetres(), len(points))}
	return s, nil
}

// throughPoints is the curve with the first point as origin, so that a map grid costs no digits.
func throughPoints(points []outline.Point) outline.Polygon {
	n := len(points)
	at := func(i int) (x, y unit.Length) {
		p := points[(i+n)%n]
		return p.X - points[0].X, p.Y - points[0].Y
	}
	var p outline.Polygon
	sides := drawn / n
	for i := range n {
		var in CurveInput
		in.X0, in.Y0 = at(i - 1)
		in.X1, in.Y1 = at(i)
		in.X2, in.Y2 = at(i + 1)
		in.X3, in.Y3 = at(i + 2)
		for k := range sides {
			in.Share = float64(k) / float64(sides)
			q := CurvePoint.Eval(in)
			p.Points = append(p.Points, outline.Point{X: points[0].X + q.X, Y: points[0].Y + q.Y})
		}
	}
	return p
}

func guessedBank(straight, smooth float64, points int) finding.Finding {
	return finding.Finding{
		Code: "BANK_BETWEEN_POINTS_GUESSED", Severity: finding.Note, Subject: "outline",
		Sentence: fmt.Sprintf("A smooth bank through the %d points encloses %.2f m², straight sides %.2f m².", points, smooth, straight),
		Value:    finding.Of(100*math.Abs(smooth/straight-1), "%"),
		Change:   "Measure more points where the bank bends most.",
		Source:   source.CentripetalSpline,
	}
}

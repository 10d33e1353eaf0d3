package wire

import (
	"fmt"
	"strings"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/survey"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// An outlined message is one that gives an outline in one of the ways there are: a bay, or a survey alone.
type outlined interface {
	GetRectangle() *pb.Rectangle
	GetEllipse() *pb.Ellipse
	GetPolygon() *pb.Polygon
	GetCircle() *pb.Circle
	GetSmooth() *pb.Smooth
	GetTwoPegs() *pb.TwoPegs
	GetStringLine() *pb.StringLine
	GetRunningTies() *pb.RunningTies
	GetNotes() *pb.SurveyNotes
}

// Outline is an outline as it was measured.
type Outline struct {
	Plan     outline.Plan
	Findings []finding.Finding
	Bent     *unit.Area // by Simpson's rule, where offsets allow it

	way string // the field that gave it
}

// rename puts the way the outline was measured in place of the shape it led to.
func (o Outline) rename(err error) error {
	errs, ok := err.(input.Errors)
	if !ok || o.way == "" {
		return err
	}
	for i, e := range errs {
		shape, _, _ := strings.Cut(e.Field, ".")
		if (shape == "polygon" || shape == "ellipse") && shape != o.way {
			errs[i].Field = o.way
		}
	}
	return errs
}

// ReadOutline finds the outline that was measured. Errors carry field paths from the message on.
func ReadOutline(t *working.Trail, m outlined) (Outline, error) {
	switch {
	case m.GetRectangle() != nil:
		r := m.GetRectangle()
		return Outline{way: "rectangle", Plan: outline.Rectangle{Length: unit.Metres(r.GetLengthM()), Width: unit.Metres(r.GetWidthM())}}, nil
	case m.GetEllipse() != nil:
		e := m.GetEllipse()
		return Outline{way: "ellipse", Plan: outline.Ellipse{Length: unit.Metres(e.GetLengthM()), Width: unit.Metres(e.GetWidthM())}}, nil
	case m.GetCircle() != nil:
		d := unit.Metres(m.GetCircle().GetDiameterM())
		return Outline{way: "circle", Plan: outline.Ellipse{Length: d, Width: d}}, nil
	case m.GetPolygon() != nil:
		return Outline{way: "polygon", Plan: outline.Polygon{Points: points(m.GetPolygon().GetPoints())}}, nil
	default:
		return readSurvey(t, m)
	}
}

// readSurvey works out an outline that was taped.
func readSurvey(t *working.Trail, m outlined) (Outline, error) {
	switch {
	case m.GetSmooth() != nil:
		s, err := survey.Smooth(points(m.GetSmooth().GetPoints()))
		return proved("smooth", s, err, m.GetSmooth().GetChecks())
	case m.GetTwoPegs() != nil:
		p := m.GetTwoPegs()
		s, err := survey.TwoPegs(t, unit.Metres(p.GetBaseM()), shots(p.GetShots()))
		return proved("two_pegs", s, err, p.GetChecks())
	case m.GetStringLine() != nil:
		s, areas, err := survey.StringLine(t, offsets(m.GetStringLine().GetOffsets()))
		o, err := proved("string_line", s, err, m.GetStringLine().GetChecks())
		if areas.HasBent {
			o.Bent = &areas.Bent
		}
		return o, err
	case m.GetRunningTies() != nil:
		r := m.GetRunningTies()
		s, err := survey.RunningTies(t, unit.Metres(r.GetBaseM()), ties(r.GetTies()))
		return proved("running_ties", s, err, r.GetChecks())
	case m.GetNotes() != nil:
		s, err := survey.ReadNotes(t, m.GetNotes().GetText())
		return proved("notes", s, under("text", err), nil)
	default:
		return Outline{}, nil // refused by the request rules before it comes here, and by outline
	}
}

// proved holds a survey against its check tapes.
func proved(way string, s survey.Surveyed, err error, checks []*pb.CheckTape) (Outline, error) {
	o := Outline{way: way, Plan: s.Outline, Findings: s.Findings}
	if err != nil {
		return o, under(way, err)
	}
	tapes := make([]survey.CheckTape, len(checks))
	for i, c := range checks {
		tapes[i] = survey.CheckTape{From: int(c.GetFromPoint()), To: int(c.GetToPoint()), Measured: unit.Metres(c.GetDistanceM())}
	}
	found, err := s.Prove(tapes)
	o.Findings = append(o.Findings, found...)
	return o, under(way, err)
}

// under puts a path before the fields of an error.
func under(path string, err error) error {
	var errs input.Errors
	if err == nil || !errs.AddUnder(path, err) {
		return err
	}
	for i, e := range errs {
		if e.Field == "" {
			errs[i].Field = path
		}
	}
	return errs
}

func points(ps []*pb.Point) []outline.Point {
	made := make([]outline.Point, len(ps))
	for i, p := range ps {
		made[i] = point(p)
	}
	return made
}

func point(p *pb.Point) outline.Point {
	return outline.Point{X: unit.Metres(p.GetXM()), Y: unit.Metres(p.GetYM())}
}

// Points turns places of a plan into messages.
func Points(ps []outline.Point) []*pb.Point {
	made := make([]*pb.Point, len(ps))
	for i, p := range ps {
		made[i] = &pb.Point{XM: new(p.X.Metres()), YM: new(p.Y.Metres())}
	}
	return made
}

func shots(ss []*pb.TwoPegs_Shot) []survey.Shot {
	made := make([]survey.Shot, len(ss))
	for i, s := range ss {
		made[i] = survey.Shot{FromA: unit.Metres(s.GetFromAM()), FromB: unit.Metres(s.GetFromBM()), Right: s.GetRight()}
	}
	return made
}

func offsets(os []*pb.StringLine_Offset) []survey.Offset {
	made := make([]survey.Offset, len(os))
	for i, o := range os {
		made[i] = survey.Offset{Along: unit.Metres(o.GetAlongM()), Left: unit.Metres(o.GetLeftM()), Right: unit.Metres(o.GetRightM())}
	}
	return made
}

func ties(ts []*pb.RunningTies_Tie) []survey.Tie {
	made := make([]survey.Tie, len(ts))
	for i, t := range ts {
		made[i] = survey.Tie{
			A: int(t.GetPointA()), B: int(t.GetPointB()),
			Shot: survey.Shot{FromA: unit.Metres(t.GetFromAM()), FromB: unit.Metres(t.GetFromBM()), Right: t.GetRight()},
		}
	}
	return made
}

// readBay reads a bay for calc, with what its survey found. Errors carry field paths from the bay on.
func readBay(t *working.Trail, b *pb.Bay) (outline.Bay, Outline, error) {
	var errs input.Errors
	drawn, err := ReadOutline(t, b)
	if err != nil && !errs.AddUnder("", err) {
		return outline.Bay{}, Outline{}, err
	}
	made := outline.Bay{Plan: drawn.Plan, Depth: unit.Metres(b.GetDepthM()), Batter: unit.Ratio(b.GetBatter())}
	for _, s := range b.GetSteps() {
		made.Steps = append(made.Steps, outline.Step{
			Depth: unit.Metres(s.GetDepthM()), Width: unit.Metres(s.GetWidthM()),
			Batter: optional(s.BatterBelow, func(b float64) unit.Ratio { return unit.Ratio(b) }),
		})
	}
	for i, c := range b.GetContours() {
		area, err := contourArea(c)
		errs.AddUnder(fmt.Sprintf("contours[%d]", i), err)
		made.Contours = append(made.Contours, outline.Contour{Depth: unit.Metres(c.GetDepthM()), Area: area})
	}
	if s := b.GetSoundings(); s != nil {
		made.Soundings = &outline.Soundings{EdgeDepth: unit.Metres(s.GetEdgeDepthM())}
		for _, one := range s.GetTaken() {
			made.Soundings.Taken = append(made.Soundings.Taken, outline.Sounding{At: point(one.GetAt()), Depth: unit.Metres(one.GetDepthM())})
		}
	}
	return made, drawn, errs.Err()
}

func contourArea(c *pb.Contour) (unit.Area, error) {
	if c.GetPolygon() == nil {
		return unit.SquareMetres(c.GetAreaM2()), nil
	}
	out, err := outline.MeasurePlan(nil, outline.Polygon{Points: points(c.GetPolygon().GetPoints())})
	return out.Area, err
}

// MeasureOutline finds area and edge of an outline alone. Errors carry field paths from the message on.
func MeasureOutline(t *working.Trail, m *pb.SurveyOutlineRequest) (Outline, outline.SurfaceOutput, error) {
	drawn, err := ReadOutline(t, m)
	if err != nil {
		return Outline{}, outline.SurfaceOutput{}, err
	}
	out, err := outline.MeasurePlan(t, drawn.Plan)
	return drawn, out, drawn.rename(err)
}

package states

import (
	"fmt"

	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/level"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Stopped is what happens when the pump stands.
type Stopped struct {
	Hoses    unit.Volume // runs back out of hoses, at most: what of them lies under water stays full
	Boxes    unit.Volume // runs on out of boxes, whose level was raised
	Siphoned unit.Volume // runs back out of upper basins
	Transit  unit.Volume // comes down from falls and streams
	Rise     unit.Length // of the pond's level by all of it
	Findings []finding.Finding
}

// Total is all the water that comes back to the pond.
func (s Stopped) Total() unit.Volume { return s.Hoses + s.Boxes + s.Siphoned + s.Transit }

func (d Description) stop(t *working.Trail, running *tree.Solution) Stopped {
	s := Stopped{Transit: d.Transit}
	if !holdsBack(d.Circuit.Pump) && !intakeHolds(d.Circuit.Intake) {
		d.drain(t, d.Circuit.Delivery, &s)
	}
	for _, b := range boxesOf(d.Circuit.Delivery) {
		s.addBox(b, running)
	}
	s.Rise = level.Change.Run(t, level.ChangeInput{Volume: s.Total(), Area: d.Pond.Surface})
	s.Findings = append(s.Findings, d.rise(s))
	return s
}

// drain follows a branch away from the pump for as long as nothing keeps its water from running back.
func (d Description) drain(t *working.Trail, b tree.Branch, s *Stopped) {
	content, held := hoseContent(t, b.Parts)
	if returns(b) {
		s.Hoses += content
	}
	if held {
		return
	}
	switch end := b.End.(type) {
	case tree.Fork:
		for _, next := range end {
			d.drain(t, next, s)
		}
	case tree.Surface:
		d.siphon(b, end.Level, end.Vent, end, s)
	case tree.Outlet:
		d.siphon(b, end.Level, end.Level >= 0, tree.Surface{}, s)
	}
}

// siphon says what runs by itself when the pump stands: an upper basin back into the pond through an outlet under its
// water, or the pond out through an outlet lower than its surface.
func (d Description) siphon(b tree.Branch, height unit.Length, vented bool, end tree.Surface, s *Stopped) {
	switch {
	case vented || height == 0:
	case height > 0:
		water := unit.CubicMetres(end.Area.SquareMetres() * end.Mouth.Metres())
		s.Siphoned += water
		s.Findings = append(s.Findings, finding.Finding{
			Code: "SIPHON_EMPTIES_BASIN", Severity: finding.Stop, Subject: b.Name, Source: source.Definition,
			Sentence: fmt.Sprintf("When the pump stands, the hose that ends under the water of the upper basin siphons it back: %s.", siphoned(water, end)),
			Value:    finding.Of(water.Litres(), "L"), Change: "end the hose above the water, let air in at its highest point, or fit a check valve",
		})
	default:
		fall := min(-height, deepest(d.Circuit.Intake))
		water := d.Pond.lost(fall)
		s.Findings = append(s.Findings, finding.Finding{
			Code: "SIPHON_EMPTIES_POND", Severity: finding.Stop, Subject: b.Name, Source: source.Definition,
			Sentence: fmt.Sprintf("This outlet lies %.2f m below the pond's surface: when the pump stands, the pond siphons out through it, %s L until the intake draws air.",
				-height.Metres(), finding.Whole(water.Litres())),
			Value: finding.Of(water.Litres(), "L"), Change: "close it with a valve, let air in at the highest point, or raise it above the pond",
		})
	}
}

func siphoned(water unit.Volume, end tree.Surface) string {
	if water == 0 {
		return "how much is not known without the depth of its mouth and the surface of the basin"
	}
	return fmt.Sprintf("%s L, the %.2f m above its mouth", finding.Whole(water.Litres()), end.Mouth.Metres())
}

// rise holds the level after stopping against the edge.
func (d Description) rise(s Stopped) finding.Finding {
	f := finding.Finding{
		Code: "LEVEL_RISES", Severity: finding.Note, Subject: "pond", Source: source.Definition,
		Sentence: fmt.Sprintf("When the pump stops, up to %s L come back and the level rises by %.0f mm.", finding.Whole(s.Total().Litres()), s.Rise.Millimetres()),
		Value:    finding.Of(s.Rise.Millimetres(), "mm"),
	}
	if edge := d.Pond.Freeboard; edge > 0 {
		f.Limit = finding.Of(edge.Millimetres(), "mm")
		if s.Rise > edge {
			f.Code, f.Severity = "RISES_OVER_EDGE", finding.Stop
			f.Sentence = fmt.Sprintf("When the pump stops, up to %s L come back and the level rises by %.0f mm, over the lowest edge %.0f mm above it.",
				finding.Whole(s.Total().Litres()), s.Rise.Millimetres(), edge.Millimetres())
			f.Change = "keep the level lower while the pump runs, fit a check valve, or raise the edge"
		}
	}
	return f
}

// addBox adds what runs on out of a box until its level is at rest.
func (s *Stopped) addBox(b tree.Branch, running *tree.Solution) {
	area := b.End.(tree.Box).Area
	if running == nil || area == 0 {
		s.Findings = append(s.Findings, finding.Finding{
			Code: "BOX_NOT_COUNTED", Severity: finding.Note, Subject: b.Name, Source: source.Definition,
			Sentence: "What runs on out of the box when the pump stops is not counted, because its surface or its level is not known.",
			Change:   "give the surface of the water in the box",
		})
		return
	}
	for _, filled := range running.Boxes {
		if filled.Branch == b.Name {
			s.Boxes += unit.CubicMetres(area.SquareMetres() * filled.Stands.Metres())
		}
	}
}

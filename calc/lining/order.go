package lining

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// An Edge is what the lining does above the water, on each side.
type Edge struct {
	Freeboard   unit.Length // from the water up to the rim, at the batter of the sides
	Overlap     unit.Length // beyond the rim
	TrenchDepth unit.Length // of an anchor trench behind the overlap, if there is one
	TrenchWidth unit.Length
}

// What is usual where nothing is said: common practice, no source.
const (
	UsualFreeboard = unit.Length(0.05)
	UsualOverlap   = unit.Length(0.30)
	UsualThickness = unit.Length(0.001)
)

// beyond is the sheet beyond the rim: over it, down into the trench and across its floor.
func (e Edge) beyond() unit.Length { return e.Overlap + e.TrenchDepth + e.TrenchWidth }

// A Sheet is a rectangle of lining, the longer side first.
type Sheet struct{ Length, Width unit.Length }

// Area of the sheet.
func (s Sheet) Area() unit.Area { return unit.SquareMetres(s.Length.Metres() * s.Width.Metres()) }

// An Order is the sheet for a pond, found in two ways, and what becomes of it.
type Order struct {
	Developed Sheet     // by the section the ground takes: the least that will do; none where only contours or soundings are known
	Rule      Sheet     // by the simple rule, for comparison
	Covered   unit.Area // the ground the lining lies on, edge and trench with it
	Waste     unit.Ratio
	Findings  []finding.Finding
}

// Sheet is what to order: the developed section where it is known, the rule's sheet where not.
func (o Order) Sheet() Sheet {
	if o.Developed.Length > 0 {
		return o.Developed
	}
	return o.Rule
}

// Size finds the sheet for a bay. Its sides are those of the smallest rectangle around the plan, which need not lie
// north and south. The error is an input.Errors: that of outline.Measure, or one with the path "edge.overlap_m" and so on.
func Size(t *working.Trail, b outline.Bay, e Edge) (Order, error) {
	m, err := outline.Measure(nil, b)
	if err != nil {
		return Order{}, err
	}
	if err := e.check().Err(); err != nil {
		return Order{}, err
	}
	batter := unit.Length(b.Batter)
	onSlope := unit.Length(math.Hypot(1, b.Batter.Float())) * e.Freeboard
	run, slope := b.Section()
	run, slope = run+batter*e.Freeboard, slope+onSlope
	var o Order
	size := func(water unit.Length) (developed, rule unit.Length) {
		rim := water + 2*batter*e.Freeboard // that much longer and wider than the water
		rule = SimpleRule.Run(t, RuleInput{Span: rim, Depth: m.Depth() + e.Freeboard, Edge: e.beyond()})
		if !hasSides(b) {
			return 0, rule
		}
		return DevelopedSection.Run(t, SectionInput{Span: rim, Run: run, Slope: slope, Edge: e.beyond()}), rule
	}
	o.Developed.Length, o.Rule.Length = size(m.Length())
	o.Developed.Width, o.Rule.Width = size(m.Width())
	o.Covered = m.Wetted + unit.SquareMetres(m.Perimeter.Metres()*(onSlope+e.beyond()).Metres())
	o.Waste = max(0, 1-unit.Ratio(o.Covered/o.Sheet().Area()))
	o.Findings = append(o.findings(), e.findings(m)...)
	return o, nil
}

// hasSides says whether the section of the bay is known.
func hasSides(b outline.Bay) bool { return len(b.Contours) == 0 && b.Soundings == nil }

func (e Edge) check() input.Errors {
	var errs input.Errors
	for _, part := range []struct {
		field string
		l     unit.Length
	}{
		{"edge.freeboard_m", e.Freeboard}, {"edge.overlap_m", e.Overlap},
		{"edge.trench_depth_m", e.TrenchDepth}, {"edge.trench_width_m", e.TrenchWidth},
	} {
		if m := part.l.Metres(); !(m >= 0 && m <= 10) {
			errs.Add(part.field, "give a length between 0 and 10 m", "it cannot be %g m", m)
		}
	}
	return errs
}

// findings sets the two ways side by side where they differ by a hand's breadth.
func (o Order) findings() []finding.Finding {
	if o.Developed.Length == 0 {
		return []finding.Finding{{
			Code: "LINING_BY_RULE", Severity: finding.Note, Subject: "lining",
			Sentence: "Contours and soundings do not tell the section, so the sheet is by the simple rule, which is generous for a single basin and short over a ridge or an island.",
			Change:   "Tape across the hole both ways before you order.",
			Source:   source.Practice,
		}}
	}
	over := o.Rule.Length - o.Developed.Length
	const hand = unit.Length(0.1)
	if over < hand {
		return nil
	}
	return []finding.Finding{{
		Code: "RULE_IS_GENEROUS", Severity: finding.Note, Subject: "lining",
		Sentence: fmt.Sprintf("The simple rule asks for %.2f x %.2f m. The ground takes %.2f x %.2f m, as the sides slope.",
			o.Rule.Length.Metres(), o.Rule.Width.Metres(), o.Developed.Length.Metres(), o.Developed.Width.Metres()),
		Value:  finding.Of(over.Metres(), "m"),
		Change: "Order the smaller sheet only when the hole has been dug and taped across.",
		Source: source.Practice,
	}}
}

// findings warns of a rim that rain can reach. A freeboard of 0 is a level that is not known.
func (e Edge) findings(m outline.Measured) []finding.Finding {
	const least = unit.Length(0.05)
	if e.Freeboard == 0 || e.Freeboard >= least {
		return nil
	}
	return []finding.Finding{{
		Code: "FREEBOARD_SMALL", Severity: finding.Caution, Subject: "lining",
		Sentence: fmt.Sprintf("A rim %.0f mm above the water holds %s L of rain and of water that runs back when the pump stops.",
			e.Freeboard.Millimetres(), finding.Whole(unit.CubicMetres(m.Area.SquareMetres()*e.Freeboard.Metres()).Litres())),
		Value: finding.Of(e.Freeboard.Millimetres(), "mm"), Limit: finding.Of(least.Millimetres(), "mm"),
		Change: "Raise the rim, or lead an overflow to where water does no harm.",
		Source: source.Practice,
	}}
}

package sheet

import (
	"fmt"
	"strings"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// Plan is a whole job in the few lines that a terminal has room for: the rest is for a page.
func Plan(plan *pondwrightv1.PlanJobResponse, o Options) string {
	s := &sheet{Page: page.New(o.Width, o.Colour)}
	s.Title(titleOf(plan.GetAsked().GetJob().GetBrief().GetTitle()))
	s.figures(plan.GetFigures())
	if care := plan.GetFindings(); len(care) > 0 {
		s.Heading("Of the job as a whole")
		s.findings(care)
	}
	if care := plan.GetCautions(); len(care) > 0 {
		s.Heading("Before anybody digs")
		s.findings(care)
	}
	return s.String()
}

func titleOf(title string) string {
	if title == "" {
		return "A pond without a name"
	}
	return title
}

func (s *sheet) figures(list []*pondwrightv1.PlanFigure) {
	s.Heading("The job in figures")
	for _, f := range list {
		said := f.GetWord()
		if _, number := f.GetIs().(*pondwrightv1.PlanFigure_Number); number {
			said = withUnit(f.GetNumber(), f.GetUnit())
		}
		s.Row(capital(f.GetName()), page.Plain(said))
	}
}

func withUnit(x float64, unit string) string {
	if unit == "" {
		return figure.Number(x)
	}
	return figure.With(x, unit)
}

// Beside shows what changes from one job to another.
func Beside(names [2]string, c *pondwrightv1.ComparePlansResponse, o Options) string {
	s := &sheet{Page: page.New(o.Width, o.Colour)}
	s.Title("What changes")
	s.Row("From", page.Plain(titleOf(names[0])))
	s.Row("To", page.Plain(titleOf(names[1])))
	s.differences(c.GetDifferences(), c.GetSameCount(), "From", "To")
	for _, group := range []struct {
		isNew   bool
		heading string
	}{{true, "New with the second"}, {false, "Gone with the first"}} {
		var list []*pondwrightv1.Finding
		for _, f := range c.GetFindingDifferences() {
			if f.GetIsNew() == group.isNew {
				list = append(list, f.GetFinding())
			}
		}
		if len(list) > 0 {
			s.Heading(group.heading)
			s.findings(list)
		}
	}
	if len(c.GetFindings()) > 0 {
		s.Heading("Of both")
		s.findings(c.GetFindings())
	}
	return s.String()
}

func (s *sheet) differences(list []*pondwrightv1.PlanDifference, same int32, before, after string) {
	s.Heading("Figures")
	if len(list) == 0 {
		s.Text(2, page.Plainf("All %d figures are the same.", same))
		return
	}
	rows := [][]page.Span{{page.Plain(""), page.Strong(before), page.Strong(after), page.Strong("Change")}}
	for _, d := range list {
		change := ""
		if d.ChangePercent != nil {
			change = fmt.Sprintf("%+.3g", d.GetChangePercent()) + figure.Space + "%"
		}
		rows = append(rows, []page.Span{page.Plain(capital(d.GetName())), page.Plain(sideOf(d.Before, d.GetWordBefore(), d.GetUnit())),
			page.Plain(sideOf(d.After, d.GetWordAfter(), d.GetUnit())), page.Plain(change)})
	}
	s.Columns(rows)
	s.Text(2, page.Plainf("Figures that are the same: %d.", same))
}

func sideOf(number *float64, word, unit string) string {
	switch {
	case number != nil:
		return withUnit(*number, unit)
	case word != "":
		return word
	}
	return "–"
}

// Again shows what is different in a plan that was made again.
func Again(r *pondwrightv1.RecheckPlanResponse, o Options) string {
	s := &sheet{Page: page.New(o.Width, o.Colour)}
	s.Title(titleOf(r.GetPlan().GetAsked().GetJob().GetBrief().GetTitle()))
	switch {
	case r.GetSameAnswer():
		s.Text(0, page.Good("The same to the last bit. "), page.Plain("The plan that was kept still holds."))
	case !r.GetSameQuestion():
		s.Text(0, page.Warn("Another question. "), page.Plain("The plan that was kept is not the answer to the question it holds: one of them was changed."))
	default:
		s.Text(0, page.Warn("Not the same any more. "), page.Plain("What is different stands below."))
	}
	if r.GetOtherMethodSet() {
		s.Row("Methods", page.Plain("Formulas, constants or rules are others than then."))
	}
	for _, c := range r.GetCatalogueDifferences() {
		s.Row("Catalogue", page.Plainf("%s: revision %s then, %s now", c.GetCatalogue(), orNone(c.GetRevisionBefore()), orNone(c.GetRevisionAfter())))
	}
	s.differences(r.GetDifferences(), r.GetSameCount(), "Then", "Now")
	if len(r.GetFindings()) > 0 {
		s.Heading("Why")
		s.findings(r.GetFindings())
	}
	return s.String()
}

func orNone(word string) string {
	if word == "" {
		return "none"
	}
	return word
}

// Visit shows what was measured against the design, and what to do.
func Visit(asked *pondwrightv1.AssessVisitRequest, r *pondwrightv1.AssessVisitResponse, o Options) string {
	s := &sheet{Page: page.New(o.Width, o.Colour)}
	s.Title("Visit: " + titleOf(asked.GetJob().GetBrief().GetTitle()))
	for _, row := range VisitRows(r) {
		s.Row(row[0], page.Plain(row[1]))
	}
	if len(r.GetFindings()) > 0 {
		s.Heading("What it means, likeliest cause first")
		s.inOrder(r.GetFindings())
	}
	if len(r.GetNextSteps()) > 0 {
		s.Heading("What to do, in order")
		for i, step := range r.GetNextSteps() {
			s.Hang(4, page.Plainf("%d", i+1), page.Plain(sentence(step)))
		}
	}
	return s.String()
}

// inOrder prints findings as they come.
func (s *sheet) inOrder(list []*pondwrightv1.Finding) {
	for _, f := range list {
		s.findings([]*pondwrightv1.Finding{f})
	}
}

// VisitRows are the figures of a visit, each with its name.
func VisitRows(r *pondwrightv1.AssessVisitResponse) [][2]string {
	var rows [][2]string
	add := func(name, format string, values ...any) {
		rows = append(rows, [2]string{name, fmt.Sprintf(format, values...)})
	}
	if f := r.GetFlow(); f != nil {
		add("Flow", "%s of the %s expected of a clean circuit", figure.With(f.GetIndexPercent(), "%"), figure.With(f.GetExpectedLPerH(), "L/h"))
	}
	if l := r.GetLevel(); l != nil {
		add("Evaporation takes", "%s a day", figure.With(l.GetEvaporationMmPerDay(), "mm"))
		add("Not explained", "%s a day, give or take %s: %s a day", figure.With(l.GetUnexplainedMmPerDay(), "mm"), figure.With(l.GetUnexplainedUnsureMmPerDay(), "mm"),
			figure.With(l.GetUnexplainedLPerDay(), "L"))
		if l.FallShareLPerDay != nil {
			add("Lost by the fall", "%s a day: %s a day", figure.With(l.GetFallShareMmPerDay(), "mm"), figure.With(l.GetFallShareLPerDay(), "L"))
		}
	}
	for _, h := range r.GetWater() {
		word := "at most"
		if h.GetIsLeast() {
			word = "at least"
		}
		if h.GetValue() != nil && h.GetLimit() != nil {
			add(nameOf(h.GetName()), "%s, %s %s", withUnit(h.GetValue().GetValue(), h.GetValue().GetUnit()), word, withUnit(h.GetLimit().GetValue(), h.GetLimit().GetUnit()))
		}
	}
	if l := r.GetLamp(); l != nil {
		add("Lamps", "%s of their life used, %s of the light left; new ones in %s of burning", figure.With(l.GetUsedLifePercent(), "%"),
			figure.With(l.GetLightLeftPercent(), "%"), figure.With(max(l.GetDueInH(), 0), "h"))
	}
	return rows
}

// nameOf begins with a capital, but for pH.
func nameOf(name string) string {
	if strings.HasPrefix(name, "pH") {
		return name
	}
	return capital(name)
}

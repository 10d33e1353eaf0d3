// Package sheet lays out an answer of the engine as a job sheet: what the pond holds and needs, the kit that does it and
// why, and what to take care of, in the words of the trade.
package sheet

import (
	"fmt"
	"slices"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// Options say how the sheet is laid out.
type Options struct {
	Width    int  // characters a line
	Colour   bool // on a terminal that wants it
	Workings bool // every step at the end
}

// Render lays out the answer to a brief.
func Render(brief *pondwrightv1.Brief, answer *pondwrightv1.SuggestKitsResponse, o Options) string {
	s := &sheet{Page: page.New(o.Width, o.Colour), brief: brief, answer: answer}
	s.head()
	s.water()
	s.fish()
	s.flow()
	s.kits()
	s.search()
	s.pondFindings()
	if o.Workings {
		s.workings()
	}
	s.provenance()
	return s.String()
}

type sheet struct {
	*page.Page
	brief  *pondwrightv1.Brief
	answer *pondwrightv1.SuggestKitsResponse
}

// head says the outcome in a line or two, for those who read no further.
func (s *sheet) head() {
	title := s.brief.GetTitle()
	if title == "" {
		title = "A pond without a name"
	}
	s.Title(title)
	switch kits := s.answer.GetKits(); {
	case len(kits) > 0 && s.stopped():
		s.Text(0, page.Bad("Stop: "), page.Plain("the kit would work, but the pond would not. See below, before you buy or dig."))
	case len(kits) > 0:
		s.Text(0, page.Good("It can be done. "), page.Plain(s.outcome(kits[0])))
	case s.answer.GetNearestMiss() != nil:
		s.Text(0, page.Bad("Nothing in the catalogue does it. "), page.Plain("The nearest miss, and what stops it, stands below."))
	default:
		s.Text(0, page.Bad("Nothing in the catalogue does it."))
	}
}

// stopped says whether something about the pond itself must not be.
func (s *sheet) stopped() bool {
	return slices.ContainsFunc(s.answer.GetFindings(), func(f *pondwrightv1.Finding) bool {
		return f.GetSeverity() == pondwrightv1.Severity_SEVERITY_STOP
	})
}

func (s *sheet) outcome(k *pondwrightv1.Kit) string {
	text := "The best kit"
	if d := dutyIn(k, pondwrightv1.RunningState_RUNNING_STATE_DUE); d != nil {
		text += " brings " + figure.With(d.GetFlowLPerH().GetExpected(), "L/h")
		if s.cleaned() {
			text += ", even when the filter is due for cleaning"
		}
		text += ";"
	}
	c := k.GetCost()
	if c == nil {
		return text + " what it costs is not known."
	}
	text += " it costs " + figure.Money(c.GetCurrency(), c.GetPrice()) + " to buy"
	if c.EnergyCostPerYear != nil {
		text += " and " + figure.Money(c.GetCurrency(), c.GetEnergyCostPerYear()) + " a year for electricity"
	}
	return text + "."
}

// cleaned says whether the kits have a filter, so that there is a difference between clean and due for cleaning.
func (s *sheet) cleaned() bool {
	return slices.ContainsFunc(append(s.answer.GetKits(), s.answer.GetNearestMiss()), func(k *pondwrightv1.Kit) bool {
		return k.GetFilter() != nil
	})
}

func dutyIn(k *pondwrightv1.Kit, state pondwrightv1.RunningState) *pondwrightv1.Duty {
	for _, s := range k.GetStates() {
		if s.GetState() == state {
			return s.GetDuty()
		}
	}
	return nil
}

// search says how many sets were looked at, and what ruled the others out.
func (s *sheet) search() {
	searched := s.answer.GetSearched()
	if searched == nil {
		return
	}
	s.Heading("How it was chosen")
	for i, why := range s.answer.GetWhyFirst() {
		label := ""
		if i == 0 {
			label = "First before second"
		}
		s.Row(label, page.Plain(why))
	}
	s.Row("Sets looked at", page.Plainf("%s, of which %s work", figure.Count(searched.GetSets()), figure.Count(searched.GetWorking())))
	for i, out := range searched.GetRuledOut() {
		label := ""
		if i == 0 {
			label = "Ruled out"
		}
		s.Row(label, page.Plainf("%s: %s", figure.Count(out.GetSets()), inWords(out.GetCode())))
	}
}

// provenance says what the answer rests on.
func (s *sheet) provenance() {
	p := s.answer.GetProvenance()
	if p == nil {
		return
	}
	s.Heading("What this rests on")
	s.Row("Engine", page.Plainf("%s, methods %s", p.GetEngineVersion(), p.GetMethodSet()))
	for _, c := range p.GetCatalogues() {
		text := fmt.Sprintf("%s, revision %s", c.GetCatalogue(), c.GetRevision())
		s.Row("Catalogue", page.Plain(text))
		if c.GetNotice() != "" {
			s.Under(page.Strong(c.GetNotice()))
		}
	}
	s.Row("Request", page.Faint(p.GetRequestDigest()))
}

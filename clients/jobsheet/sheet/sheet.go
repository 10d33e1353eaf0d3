// Package sheet lays out an answer of the engine as a job sheet: what the pond holds and needs, the kit that does it and
// why, and what to take care of, in the words of the trade.
package sheet

import (
	"fmt"
	"strings"

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
	case len(kits) > 0 && anyStop(s.answer.GetFindings()): // about the pond itself
		s.Text(0, page.Bad("Stop: "), page.Plain("the kit would work, but the pond would not. See below, before you buy or dig."))
	case len(kits) > 0:
		s.Text(0, page.Good("It can be done. "), page.Plain(s.outcome(kits[0])))
	case s.answer.GetNearestMiss() != nil:
		s.Text(0, page.Bad("Nothing in the catalogue does it. "), page.Plain("The nearest miss, and what stops it, stands below."))
	default:
		s.Text(0, page.Bad("Nothing in the catalogue does it."))
	}
}

func (s *sheet) outcome(k *pondwrightv1.Kit) string {
	text := "The best kit"
	state, when := pondwrightv1.RunningState_RUNNING_STATE_CLEAN, ""
	if hasFilter(k) {
		state, when = pondwrightv1.RunningState_RUNNING_STATE_DUE, ", even when the filter is due for cleaning"
	}
	if d := dutyIn(k, state); d != nil {
		text += " brings " + figure.With(d.GetFlowLPerH().GetExpected(), "L/h") + when + ";"
	}
	if !costed(k) {
		return text + " what it costs is not known."
	}
	c := k.GetCost()
	text += " it costs " + figure.Money(c.GetCurrency(), c.GetPrice()) + " to buy"
	if c.EnergyCostPerYear != nil {
		text += " and " + figure.Money(c.GetCurrency(), c.GetEnergyCostPerYear()) + " a year for electricity"
	}
	return text + "."
}

// search says how many sets there are, and how each was dealt with.
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
	s.Row("Sets there are", page.Plainf("%s, of which %s were calculated one by one and %s of those work",
		figure.Count(searched.GetSets()), figure.Count(searched.GetCalculated()), figure.Count(searched.GetWorking())))
	if searched.GetBeaten() > 0 {
		s.Row("No better", page.Plainf("%s, proven without calculating each: one that works beats them on price, running cost and headroom together",
			figure.Count(searched.GetBeaten())))
	}
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
		s.doubts(c)
	}
	s.Row("Request", page.Faint(p.GetRequestDigest()))
}

// doubts say what of a catalogue was not read.
func (s *sheet) doubts(c *pondwrightv1.CatalogueRevision) {
	var texts []string
	if c.GetFault() != "" {
		texts = append(texts, "the last reading failed: "+strings.TrimSuffix(c.GetFault(), ".")+"; what was read before is used")
	}
	switch n := c.GetQuarantinedCount(); {
	case n == 1:
		texts = append(texts, "1 item left out")
	case n > 1:
		texts = append(texts, figure.Count(n)+" items left out")
	}
	for _, text := range texts {
		s.Under(page.Warn("Caution: "), page.Plain(text+"."))
	}
}

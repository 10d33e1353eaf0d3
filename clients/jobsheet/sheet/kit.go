package sheet

import (
	"fmt"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// sideBySide is the width from which kits stand beside each other.
const sideBySide = 100

// kits shows those that work, best first, or else the nearest miss.
func (s *sheet) kits() {
	kits := s.answer.GetKits()
	if len(kits) == 0 {
		s.nearestMiss()
		return
	}
	s.Heading("The kits, best first")
	s.howMany()
	together := s.Width() >= sideBySide && len(kits) > 1 && len(kits) <= 3
	if together {
		s.Blank()
		s.Columns(s.compared(kits))
	}
	shared := sharedFindings(kits)
	for i, k := range kits {
		s.Heading(kitName(i, len(kits)))
		if !together {
			s.facts(k)
		}
		s.details(k)
		if own := without(k.GetFindings(), shared); len(own) > 0 {
			s.Blank()
			s.findings(own)
		}
	}
	if len(shared) > 0 {
		s.Heading("Of all these kits")
		s.findings(shared)
	}
}

// howMany says which of the sets that work are shown.
func (s *sheet) howMany() {
	shown, searched := int64(len(s.answer.GetKits())), s.answer.GetSearched()
	if searched.GetWorking() <= shown && searched.GetBeaten() == 0 {
		s.Text(2, page.Plain("Every set that works is shown."))
		return
	}
	s.Text(2, page.Plainf("%s shown, each with another pump, filter or lamp unit: of the %s sets there are, none that works beats one of them "+
		"on price, running cost and headroom together.", figure.Count(shown), figure.Count(searched.GetSets())))
}

func kitName(i, n int) string {
	name := fmt.Sprintf("Kit %d of %d", i+1, n)
	if i == 0 && n > 1 {
		name += ": the best"
	}
	return name
}

func (s *sheet) nearestMiss() {
	k := s.answer.GetNearestMiss()
	if k == nil {
		return
	}
	s.Heading("The nearest miss")
	s.facts(k)
	s.details(k)
	s.Subheading("What stops it")
	s.findings(k.GetFindings())
}

// A fact is one line of a kit.
type fact struct {
	label string
	value page.Span
}

func (s *sheet) facts(k *pondwrightv1.Kit) {
	for _, f := range s.factsOf(k) {
		s.Row(f.label, f.value)
	}
}

// compared sets the facts of several kits side by side.
func (s *sheet) compared(kits []*pondwrightv1.Kit) [][]page.Span {
	head := []page.Span{page.Plain("")}
	var rows [][]page.Span
	for i, k := range kits {
		head = append(head, page.Strong(fmt.Sprintf("Kit %d", i+1)))
		for j, f := range s.factsOf(k) {
			if i == 0 {
				rows = append(rows, []page.Span{page.Plain(f.label)})
			}
			rows[j] = append(rows[j], f.value)
		}
	}
	return append([][]page.Span{head}, rows...)
}

// factsOf are the same lines for every kit of an answer, in the same order.
func (s *sheet) factsOf(k *pondwrightv1.Kit) []fact {
	facts := []fact{
		{"Pump", item(k.GetPump())},
		{"Hose", hose(k)},
		{"Filter", item(k.GetFilter())},
		{"Lamp unit", item(k.GetLampUnit())},
	}
	facts = append(facts, s.runningFacts(k)...)
	facts = append(facts, s.costFacts(k)...)
	if room := headroom(k); room != "" {
		facts = append(facts, fact{"Headroom", page.Plain(room)})
	}
	return facts
}

func item(c *pondwrightv1.CataloguedItem) page.Span {
	if c.GetItem() == nil {
		return page.Plain("none wanted")
	}
	return page.Plain(c.GetItem().GetItemNumber() + ", " + c.GetItem().GetDescription())
}

func hose(k *pondwrightv1.Kit) page.Span {
	it := k.GetHose().GetItem()
	if it == nil {
		return page.Plain("none")
	}
	return page.Plain(figure.With(k.GetHoseLengthM(), "m") + " of " + figure.With(it.GetHose().GetBoreMm(), "mm") + " bore: " +
		it.GetItemNumber() + ", " + it.GetDescription())
}

// headroom says how far the tightest limit is away. Of a kit that breaks it, the findings say more than a share could.
func headroom(k *pondwrightv1.Kit) string {
	switch room := k.GetHeadroomPercent(); {
	case room >= 0:
		return figure.Digits(room, 2) + figure.Space + "% to the tightest limit, " + k.GetTightest()
	case anyStop(k.GetFindings()):
		return ""
	}
	return "none, it breaks a limit: " + k.GetTightest()
}

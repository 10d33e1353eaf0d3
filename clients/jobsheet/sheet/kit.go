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
	together := s.Width() >= sideBySide && len(kits) > 1 && len(kits) <= 3
	if together {
		s.Heading("The kits, best first")
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
	c := k.GetCost()
	return append(facts,
		fact{"Price", page.Plain(figure.Money(c.GetCurrency(), c.GetPrice()))},
		fact{"Electricity", page.Plain(electricity(c))},
		fact{overYears(c), page.Plain(figure.Money(c.GetCurrency(), c.GetTotal()) + " in all")},
		fact{"In hand", page.Plain(inHand(k))},
	)
}

// runningFacts say how the kit runs: in two states where there is a filter to clean, in one where there is none.
func (s *sheet) runningFacts(k *pondwrightv1.Kit) []fact {
	where := " at the fall"
	if s.brief.GetFall() == nil {
		where = " at the outlet"
	}
	clean := dutyIn(k, pondwrightv1.RunningState_RUNNING_STATE_CLEAN)
	due := dutyIn(k, pondwrightv1.RunningState_RUNNING_STATE_DUE)
	if !s.cleaned() {
		return []fact{
			{"Flow", page.Strong(flow(clean) + where)},
			{"Head", page.Plain(head(clean))},
			{"Power", page.Plain(power(clean) + " for the pump")},
			{"Speed in the hose", page.Plain(speed(clean))},
		}
	}
	return []fact{
		{"Flow, clean", page.Strong(flow(clean) + where)},
		{"Flow, due", page.Strong(flow(due) + where + " when the filter is due for cleaning")},
		{"Head", page.Plain(head(clean) + " clean, " + head(due) + " due")},
		{"Power", page.Plain(power(clean) + " clean, " + power(due) + " due, for the pump")},
		{"Speed in the hose", page.Plain(speed(clean))},
	}
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

func flow(d *pondwrightv1.Duty) string {
	if d == nil {
		return "unknown"
	}
	return band(d.GetFlowLPerH(), "L/h")
}

func head(d *pondwrightv1.Duty) string {
	if d == nil {
		return "unknown"
	}
	return metres(d.GetHeadM().GetExpected())
}

func speed(d *pondwrightv1.Duty) string {
	if d == nil {
		return "unknown"
	}
	return figure.Fixed(d.GetVelocityMPerS(), 2) + figure.Space + "m/s"
}

func metres(x float64) string { return figure.Fixed(x, 2) + figure.Space + "m" }

// band writes low, expected and high.
func band(b *pondwrightv1.Band, unit string) string {
	expected := figure.With(b.GetExpected(), unit)
	if b.GetLow() == b.GetExpected() && b.GetHigh() == b.GetExpected() {
		return expected
	}
	return expected + " (" + figure.Number(b.GetLow()) + " to " + figure.Number(b.GetHigh()) + ")"
}

func power(d *pondwrightv1.Duty) string {
	if d == nil || d.PowerW == nil {
		return "unknown"
	}
	return figure.With(d.GetPowerW(), "W")
}

func electricity(c *pondwrightv1.KitCost) string {
	text := figure.With(c.GetEnergyKwhPerYear(), "kWh") + " a year"
	if c != nil && c.EnergyCostPerYear != nil {
		text += ", " + figure.Money(c.GetCurrency(), c.GetEnergyCostPerYear())
	}
	return text
}

func overYears(c *pondwrightv1.KitCost) string {
	if c.GetYears() == 1 {
		return "Over one year"
	}
	return "Over " + figure.Digits(c.GetYears(), 3) + " years"
}

func inHand(k *pondwrightv1.Kit) string {
	room := k.GetHeadroomPercent()
	if room < 0 {
		return "nothing: " + figure.Digits(-room, 2) + figure.Space + "% beyond the tightest limit, " + k.GetTightest()
	}
	return figure.Digits(room, 2) + figure.Space + "% to the tightest limit, " + k.GetTightest()
}

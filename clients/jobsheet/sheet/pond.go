package sheet

import (
	"fmt"
	"strings"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// misleading is how much more than the water its box may hold before a reader is warned of it: a twentieth.
const misleading = 1.05

// water says how much there is, and how that was found.
func (s *sheet) water() {
	m := s.answer.GetPond()
	if m == nil {
		return
	}
	s.Heading("The water")
	s.Row("Volume", page.Strong(figure.Volume(m.GetVolumeL())))
	s.Row("Surface", page.Plainf("%s, %s deep on average", figure.With(m.GetSurfaceM2(), "m²"), figure.With(m.GetMeanDepthM(), "m")))
	for i, b := range m.GetBays() {
		s.Row(bayName(b, i), page.Plainf("%s. %s", figure.With(b.GetVolumeL(), "L"), sentence(b.GetMethod())), page.Faint(errorOf(b)))
	}
	if box, v := m.GetBoxVolumeL(), m.GetVolumeL(); v > 0 && box > misleading*v {
		s.Row("By the box rule", page.Plainf("%s, length times width times depth. That misleads: it is %s times what is there.",
			figure.With(box, "L"), figure.Digits(box/v, 2)))
	}
}

func bayName(b *pondwrightv1.BayMeasures, i int) string {
	if b.GetName() != "" {
		return capital(b.GetName())
	}
	return fmt.Sprintf("Bay %d", i+1)
}

// errorOf says how far the sum can be off, to a hundred-thousandth: no pond is measured that well.
func errorOf(b *pondwrightv1.BayMeasures) string {
	if b.GetVolumeErrorPercent() <= 0 {
		return ""
	}
	percent := max(b.GetVolumeErrorPercent(), 0.001)
	return " Numerical error " + figure.Digits(percent, 1) + figure.Space + "% at most; what the tape errs comes on top."
}

// fish sets the fish of today beside the grown ones, which is what the filter is chosen for.
func (s *sheet) fish() {
	now, grown := s.answer.GetFishNow(), s.answer.GetFishGrown()
	if now == nil && grown == nil {
		return
	}
	s.Heading("The fish")
	daily := func(label string, of func(*pondwrightv1.FishLoad) float64) []page.Span {
		return []page.Span{page.Plain(label), page.Plain(figure.With(of(now), "g a day")), page.Plain(figure.With(of(grown), "g a day"))}
	}
	rows := [][]page.Span{
		{page.Plain(""), page.Strong("Now"), page.Strong("Grown")},
		{page.Plain("Fish"), page.Plain(figure.Count(now.GetCount())), page.Plain(figure.Count(grown.GetCount()))},
		{page.Plain("Together"), page.Plain(figure.With(now.GetMassKg(), "kg")), page.Plain(figure.With(grown.GetMassKg(), "kg"))},
	}
	if v := waterOf(s.answer.GetPond()); v > 0 {
		rows = append(rows, []page.Span{page.Plain("Per" + figure.Space + "1,000" + figure.Space + "L"),
			page.Plain(figure.With(1000*now.GetMassKg()/v, "kg")), page.Plain(figure.With(1000*grown.GetMassKg()/v, "kg"))})
	}
	s.Columns(append(rows,
		daily("Feed", (*pondwrightv1.FishLoad).GetFeedGPerDay),
		daily("Ammonia, as nitrogen", (*pondwrightv1.FishLoad).GetTanGPerDay),
		daily("Oxygen they use", (*pondwrightv1.FishLoad).GetOxygenGPerDay),
		daily("Solids", (*pondwrightv1.FishLoad).GetSolidsGPerDay),
	))
}

// waterOf is the water in the pond in litres, less what stone and baskets take the place of.
func waterOf(m *pondwrightv1.PondMeasures) float64 {
	if m.GetNetVolumeL() > 0 {
		return m.GetNetVolumeL()
	}
	return m.GetVolumeL()
}

// flow says what flow is looked for, and every need it comes from.
func (s *sheet) flow() {
	w := s.answer.GetWanted()
	if w == nil {
		return
	}
	s.Heading("The flow it needs")
	s.Row("Wanted", page.Strong(span(w.GetLeastLPerH(), w.MostLPerH)))
	for _, n := range w.GetNeeds() {
		s.Row("For "+inWords(n.GetNeed()), page.Plainf("%s. %s", span(n.GetLeastLPerH(), n.MostLPerH), sentence(n.GetSentence())),
			page.Faint(inBrackets(n.GetSource())))
	}
}

// span words a flow with or without a limit from above.
func span(least float64, most *float64) string {
	switch {
	case most == nil:
		return "at least " + figure.With(least, "L/h")
	case least == 0:
		return "at most " + figure.With(*most, "L/h")
	}
	return figure.Number(least) + " to " + figure.With(*most, "L/h")
}

// inWords makes a code readable: "flow below wanted" of FLOW_BELOW_WANTED.
func inWords(code string) string { return strings.ReplaceAll(strings.ToLower(code), "_", " ") }

// sentence begins with a capital and ends with a stop.
func sentence(text string) string {
	text = capital(strings.TrimSpace(text))
	if text == "" || strings.ContainsAny(text[len(text)-1:], ".!?") {
		return text
	}
	return text + "."
}

func capital(text string) string {
	for i, c := range text {
		return strings.ToUpper(string(c)) + text[i+len(string(c)):]
	}
	return text
}

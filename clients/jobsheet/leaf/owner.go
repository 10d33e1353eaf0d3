package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/figure"
)

// owner is the page that stays with the owner, in simple words.
func (l *leaf) owner() (part, error) {
	p := part{ID: "owner", Title: "For the owner of the pond", Apart: true}
	h := l.plan.GetHandover()
	if h == nil {
		return p, nil
	}
	p.Blocks = append(p.Blocks, block{Strong: "Any depth of water can drown a child. Switch everything off at the house before hands go into the water. UV lamps burn eyes and skin: never look into one that burns."})
	rows := []pair{{"Your pond holds", fmt.Sprintf("%s, give or take %s until it is metered. Write the metered volume here: ………………", figure.Volume(h.GetVolumeL()), figure.With(h.GetVolumeUncertaintyPercent(), "%"))}}
	for _, b := range h.GetBaselines() {
		if b.GetName() == "volume" {
			continue
		}
		rows = append(rows, pair{capital(b.GetName()), quantity(b.GetValue()) + ". " + sentence(b.GetHow()) + " ………………"})
	}
	p.Blocks = append(p.Blocks, block{Heading: "Numbers to know", Rows: rows})
	p.Blocks = append(p.Blocks, l.calendar()...)
	t := columns("What to do if …", "What happens", "Do now", "Then")
	for _, w := range h.GetWhatIf() {
		t.row(w.GetHappens(), sentence(w.GetDoNow()), sentence(w.GetThen()))
	}
	p.Blocks = append(p.Blocks, t.block("")...)
	if len(h.GetSwitches()) > 0 {
		p.Blocks = append(p.Blocks, block{Heading: "What each switch does", List: h.GetSwitches()})
	}
	if len(h.GetSpares()) > 0 {
		p.Blocks = append(p.Blocks, block{Heading: "Keep in the shed", List: h.GetSpares()})
	}
	doses := columns("How much of a product makes a dose in this pond", "Dose, mg/L", "Reads", ">amount, g", ">were the pond smaller, g", ">were it larger, g")
	for _, d := range h.GetDoses() {
		doses.row(figure.Number(d.GetDoseMgPerL()), d.GetReading(), figure.Number(d.GetAmountG()), figure.Number(d.GetLeastG()), figure.Number(d.GetMostG()))
	}
	doses.Note = "The label of the product decides the dose. For sick fish see a vet."
	p.Blocks = append(p.Blocks, doses.block("Doses")...)
	p.Blocks = append(p.Blocks, l.grave(h.GetFindings(), l.plan.GetCalendar().GetFindings())...)
	return p, nil
}

// calendar is what is done when: by the water, and dated where its temperatures are known.
func (l *leaf) calendar() []block {
	c := l.plan.GetCalendar()
	t := columns("The year at the pond", "When", "What", "How")
	for _, e := range c.GetEntries() {
		when := ""
		if e.GetDay() != "" {
			when = "about " + dayOfYear(e.GetDay())
		}
		if e.AtWaterC != nil {
			turn := "cools to "
			if e.GetWarming() {
				turn = "warms to "
			}
			if when != "" {
				when += ": "
			}
			when += "the water " + turn + figure.With(e.GetAtWaterC(), "°C")
		}
		t.row(when, e.GetName(), sentence(e.GetSentence()))
	}
	// The first column may be empty for what goes by the season; the name is then what the row is about.
	for i, row := range t.Rows {
		if row[0] == "" {
			t.Rows[i][0] = "in its season"
		}
	}
	if c.GetDated() {
		t.Note = "Dates are those of an ordinary year. The thermometer decides."
	}
	return t.block("Calendar")
}

package leaf

import (
	"strings"

	"example.com/pondwright/clients/internal/figure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A Line is one thing to buy, cart or dig.
type Line struct {
	Name     string
	Quantity float64
	Unit     string
	Note     string
}

// Lines are everything the plan needs, kit first.
func Lines(plan *pb.PlanJobResponse) []Line {
	var made []Line
	k := plan.GetKit().GetKit()
	for _, c := range kitItems(k) {
		one := Line{Name: c.name + " " + c.item.GetItem().GetItemNumber(), Quantity: 1, Unit: "piece", Note: c.item.GetItem().GetDescription()}
		if c.name == "hose" {
			one.Quantity, one.Unit = k.GetHoseLengthM(), "m"
		}
		made = append(made, one)
	}
	for _, f := range plan.GetAsked().GetJob().GetBrief().GetDelivery().GetFittings() {
		if k != nil {
			made = append(made, Line{Name: "fitting, " + kindInWords(f.GetKind()), Quantity: float64(f.GetCount()), Unit: "pieces", Note: "in the bore of the hose"})
		}
	}
	for _, q := range plan.GetQuantities().GetLines() {
		note := q.GetNote()
		if q.WastePercent != nil {
			note = strings.TrimPrefix(note+"; ", "; ") + figure.Digits(q.GetWastePercent(), 2) + figure.Space + "% above what it covers"
		}
		made = append(made, Line{q.GetName(), q.GetQuantity(), q.GetUnit(), note})
	}
	return made
}

func kindInWords(k pb.FittingKind) string {
	return strings.ReplaceAll(strings.ToLower(strings.TrimPrefix(k.String(), "FITTING_KIND_")), "_", " ")
}

// shopping is what to order, with room to tick it off.
func (l *leaf) shopping() (part, error) {
	p := part{ID: "shopping", Title: "What to order, cart and dig", Apart: true}
	t := columns("Quantities", "What", ">quantity", "Unit", "Note", "Done")
	for _, line := range Lines(l.plan) {
		t.row(capital(line.Name), figure.Number(line.Quantity), line.Unit, line.Note, "☐")
	}
	p.Blocks = append(p.Blocks, t.block("")...)
	q := l.plan.GetQuantities()
	lists := [][]*pb.Finding{q.GetFindings(), q.GetDig().GetFindings(), q.GetStone().GetFindings()}
	for _, one := range q.GetLinings() {
		lists = append(lists, one.GetLining().GetFindings())
	}
	p.Blocks = append(p.Blocks, l.grave(lists...)...)
	return p, nil
}

package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/figure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// glance says the outcome in a few lines, for those who read no further.
func (l *leaf) glance() (part, error) {
	p := part{ID: "glance", Title: "The job at a glance"}
	var rows []pair
	add := func(name, format string, values ...any) {
		rows = append(rows, pair{name, fmt.Sprintf(format, values...)})
	}
	if w := l.plan.GetWater().GetPond(); w != nil {
		add("Water", "%s; %s of surface, %s deep on average", figure.Volume(w.GetNetVolumeL()), figure.With(w.GetSurfaceM2(), "m²"), figure.With(w.GetMeanDepthM(), "m"))
	}
	if d := l.plan.GetQuantities().GetDig(); d != nil {
		add("Dig", "%s as it lies, %s to cart, %s", figure.With(d.GetTotalM3(), "m³"), figure.With(d.GetCartedLooseM3(), "m³ loose"), figure.With(d.GetCartedMassKg()/1000, "t"))
	}
	if k := l.plan.GetKit().GetKit(); k != nil {
		add("Kit", "%s", kitInWords(k))
		add("Flow", "%s", flowInWords(k))
	}
	if c := l.plan.GetCosts(); c != nil && c.GetBuildTotal() > 0 {
		words := figure.Money(c.GetCurrency(), c.GetBuildTotal()) + " to build and " + figure.Money(c.GetCurrency(), c.GetYearlyTotal()) + " a year"
		if n := len(c.GetWithoutPrice()); n > 0 {
			words += fmt.Sprintf("; %d lines have no price and are in neither", n)
		}
		add("Cost", "%s", words)
	}
	if w := l.plan.GetWork(); w != nil {
		words := fmt.Sprintf("%s of work over %s on site", figure.With(w.GetWorkH(), "h"), figure.With(float64(w.GetBuildDays()), "days"))
		if w.GetFirstDay() != "" {
			words += ", from " + day(w.GetFirstDay()) + " to " + day(w.GetLastDay())
		}
		add("Time", "%s", words)
	}
	var blocks []block
	for _, f := range l.stops() {
		blocks = append(blocks, block{Strong: "Stop, " + f.Subject + ": " + f.Sentence + " " + f.Change})
	}
	if len(rows) > 0 {
		blocks = append(blocks, block{Rows: rows})
	}
	p.Blocks = blocks
	return p, nil
}

func kitInWords(k *pb.Kit) string {
	words := ""
	for i, c := range kitItems(k) {
		if i > 0 {
			words += "; "
		}
		words += c.name + " " + c.item.GetItem().GetItemNumber()
	}
	return words
}

type kitItem struct {
	name string
	item *pb.CataloguedItem
}

// kitItems are those that the kit has, in the order the water takes them.
func kitItems(k *pb.Kit) []kitItem {
	var made []kitItem
	for _, c := range []kitItem{{"pump", k.GetPump()}, {"hose", k.GetHose()}, {"lamp unit", k.GetLampUnit()}, {"filter", k.GetFilter()}} {
		if c.item.GetItem() != nil {
			made = append(made, c)
		}
	}
	return made
}

var stateNames = map[pb.RunningState]string{pb.RunningState_RUNNING_STATE_CLEAN: "clean", pb.RunningState_RUNNING_STATE_DUE: "due for cleaning"}

func flowInWords(k *pb.Kit) string {
	words := ""
	for i, s := range k.GetStates() {
		if i > 0 {
			words += "; "
		}
		f := s.GetDuty().GetFlowLPerH()
		words += fmt.Sprintf("%s %s (%s to %s)", stateNames[s.GetState()], figure.With(f.GetExpected(), "L/h"), figure.Number(f.GetLow()), figure.Number(f.GetHigh()))
	}
	return words
}

// stops are what does not work on this job, wherever it was found: it goes before everything.
func (l *leaf) stops() []finding {
	if l.plan.GetKit() != nil && l.plan.GetKit().GetKit() == nil { // what stops the nearest miss stands with it
		return findings(pb.Severity_SEVERITY_STOP, l.plan.GetFindings(), l.plan.GetKit().GetFindings())
	}
	return findings(pb.Severity_SEVERITY_STOP, allFindings(l.plan))
}

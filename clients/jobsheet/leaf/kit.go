package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/chart"
	"example.com/pondwright/clients/internal/figure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// kit is what was chosen, how pump and circuit meet in each state, and where the head goes.
func (l *leaf) kit() (part, error) {
	p := part{ID: "kit", Title: "Pump, hose, filter and lamp unit", Apart: true}
	planned := l.plan.GetKit()
	if planned == nil {
		return p, nil
	}
	k, name := planned.GetKit(), ""
	if k == nil {
		if k = planned.GetSuggested().GetNearestMiss(); k == nil {
			p.Blocks = []block{{Strong: "No set of the catalogues does it."}}
			return p, nil
		}
		name = "The nearest miss, which does not do it"
	}
	t := columns("The kit", "What", "Item", "Description", ">price")
	for _, c := range kitItems(k) {
		it := c.item.GetItem()
		price := "not known"
		if it.Price != nil {
			price = figure.Fixed(it.GetPrice(), 2)
		} else if h := it.GetHose(); h != nil && h.PricePerM != nil {
			price = figure.Fixed(h.GetPricePerM(), 2) + " a metre"
		}
		words := it.GetDescription()
		if c.name == "hose" {
			words = figure.With(k.GetHoseLengthM(), "m") + " of " + words
		}
		t.row(capital(c.name), it.GetItemNumber(), words, price)
	}
	p.Blocks = append(p.Blocks, t.block(name)...)
	p.Blocks = append(p.Blocks, block{Rows: wantedRows(planned.GetSuggested().GetWanted(), k)})
	picture, err := curvesOf(planned).Draw()
	if p.Blocks, err = withPicture(p.Blocks, picture, err, "curves", ""); err != nil {
		return p, err
	}
	picture, err = headBars(k).Draw()
	if p.Blocks, err = withPicture(p.Blocks, picture, err, "head", ""); err != nil {
		return p, err
	}
	if planned.GetKit() == nil {
		p.Blocks = append(p.Blocks, block{Heading: "What stops it", Findings: findings(pb.Severity_SEVERITY_CAUTION, k.GetFindings())})
		return p, nil
	}
	p.Blocks = append(p.Blocks, l.grave(planned.GetFindings(), k.GetFindings(), planned.GetSuggested().GetFindings())...)
	return p, nil
}

func wantedRows(w *pb.WantedFlow, k *pb.Kit) []pair {
	var rows []pair
	if w != nil {
		words := "at least " + figure.With(w.GetLeastLPerH(), "L/h")
		if w.MostLPerH != nil {
			words = span(w.GetLeastLPerH(), w.GetMostLPerH(), "L/h")
		}
		rows = append(rows, pair{"Flow wanted", words})
	}
	for _, s := range k.GetStates() {
		d := s.GetDuty()
		rows = append(rows, pair{"Flow, " + stateNames[s.GetState()], fmt.Sprintf("%s (%s) at %s, %s, %s in the hose", figure.With(d.GetFlowLPerH().GetExpected(), "L/h"),
			span(d.GetFlowLPerH().GetLow(), d.GetFlowLPerH().GetHigh(), "L/h"), figure.With(d.GetHeadM().GetExpected(), "m"), figure.With(d.GetPowerW(), "W"),
			figure.With(d.GetVelocityMPerS(), "m/s"))})
	}
	if v := k.GetFilterVerdict(); v != nil {
		c := v.GetCapacityTanGPerDay()
		rows = append(rows, pair{"Filter carries", fmt.Sprintf("%s (%s to %s) of ammonia nitrogen a day; %s wanted for the grown fish with the margin",
			figure.With(c.GetExpected(), "g"), figure.Number(c.GetLow()), figure.Number(c.GetHigh()), figure.With(v.GetWantedTanGPerDay(), "g"))})
	}
	return rows
}

func heads(list []*pb.HeadAtFlow) []chart.Point {
	made := make([]chart.Point, len(list))
	for i, h := range list {
		made[i] = chart.Point{X: h.GetFlowLPerH(), Y: h.GetHeadM()}
	}
	return made
}

func curvesOf(planned *pb.PlannedKit) chart.PumpAndCircuit {
	d := chart.PumpAndCircuit{Title: "Pump and circuit in each state", FlowUnit: "L/h", HeadUnit: "m"}
	for _, c := range planned.GetCurves() {
		if d.Pump == nil {
			d.Pump = heads(c.GetPump())
		}
		d.Demands = append(d.Demands, chart.Line{Name: c.GetState(), Points: heads(c.GetCircuit())})
		if c.GetDuty() != nil {
			d.Duties = append(d.Duties, chart.Mark{Name: c.GetState(), At: heads([]*pb.HeadAtFlow{c.GetDuty()})[0]})
		}
	}
	for _, m := range planned.GetKit().GetPump().GetItem().GetPump().GetCurve() {
		d.Measured = append(d.Measured, chart.Point{X: m.GetFlowLPerH(), Y: m.GetHeadM()})
	}
	if w := planned.GetSuggested().GetWanted(); w != nil {
		d.WantedLeast, d.WantedMost = w.GetLeastLPerH(), w.GetMostLPerH()
	}
	return d
}

func headBars(k *pb.Kit) chart.Bars {
	b := chart.Bars{Title: "Where the head goes", Unit: "m"}
	rows := map[string]int{}
	for i, s := range k.GetStates() {
		b.Series = append(b.Series, stateNames[s.GetState()])
		for j := range b.Rows {
			b.Rows[j].Values = append(b.Rows[j].Values, 0)
		}
		for _, share := range s.GetDuty().GetHeadShares() {
			at, ok := rows[share.GetElement()]
			if !ok {
				at = len(b.Rows)
				rows[share.GetElement()] = at
				b.Rows = append(b.Rows, chart.Row{Name: share.GetElement(), Values: make([]float64, i+1)})
			}
			b.Rows[at].Values[i] = max(share.GetHeadM(), 0)
		}
	}
	return b
}

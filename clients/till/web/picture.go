package web

import (
	"html/template"
	"slices"

	"example.com/pondwright/clients/internal/chart"
	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/till/form"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// pictures of a kit: the pump against its circuit, and where the head goes. What cannot be drawn is left out: everything in a
// picture stands in words beside it.
func (v viewer) pictures(k *pb.Kit, id string, wanted *pb.WantedFlow) []template.HTML {
	var made []template.HTML
	states, picture, title := k.GetStates(), k.GetPicture(), "Pump against circuit"
	if second := k.GetSecondPump(); len(second.GetStates()) > 0 {
		made = v.add(made, id+"-duty-fall", v.duty(second.GetPicture(), second.GetStates(), true, "Pump for the fall against its circuit", wanted).Draw)
		title, wanted = "Pump for the filter against its circuit", nil
	}
	filtered := k.GetFilter() != nil
	made = v.add(made, id+"-duty", v.duty(picture, states, filtered, title, wanted).Draw)
	return v.add(made, id+"-head", v.heads(states, filtered).Draw)
}

func (v viewer) add(made []template.HTML, id string, draw func() (chart.Picture, error)) []template.HTML {
	p, err := draw()
	if err != nil {
		return made
	}
	html, err := p.Figure(id)
	if err != nil {
		return made
	}
	return append(made, html)
}

func (v viewer) duty(p *pb.KitPicture, states []*pb.StateDuty, filtered bool, title string, wanted *pb.WantedFlow) chart.PumpAndCircuit {
	d := chart.PumpAndCircuit{
		Title: title, FlowUnit: v.system.Unit(form.Flow).Symbol, HeadUnit: v.system.Unit(form.Length).Symbol,
		Pump: v.points(p.GetPump()), Measured: v.points(p.GetMeasured()), Weak: v.points(p.GetWeakPump()), Strong: v.points(p.GetStrongPump()),
		WantedLeast: v.system.From(form.Flow, wanted.GetLeastLPerH()), WantedMost: v.system.From(form.Flow, wanted.GetMostLPerH()),
	}
	shown := together(states)
	for _, demand := range p.GetDemands() {
		// A state that is told together with another has no line of its own.
		if i := slices.IndexFunc(shown, func(s state) bool { return s.GetState() == demand.GetState() }); i >= 0 {
			d.Demands = append(d.Demands, chart.Line{Name: shown[i].name(filtered), Points: v.points(demand.GetPoints())})
		}
	}
	for _, s := range shown {
		d.Duties = append(d.Duties, chart.Mark{Name: s.name(filtered), At: chart.Point{
			X: v.system.From(form.Flow, s.GetDuty().GetFlowLPerH().GetExpected()), Y: v.system.From(form.Length, s.GetDuty().GetHeadM().GetExpected()),
		}})
	}
	return d
}

func (v viewer) points(points []*pb.HeadPoint) []chart.Point {
	var made []chart.Point
	for _, p := range points {
		made = append(made, chart.Point{X: v.system.From(form.Flow, p.GetFlowLPerH()), Y: v.system.From(form.Length, p.GetHeadM())})
	}
	return made
}

func (v viewer) heads(states []*pb.StateDuty, filtered bool) chart.Bars {
	b := chart.Bars{Title: "Where the head goes", Unit: v.system.Unit(form.Length).Symbol, Figure: func(x float64) string { return figure.Digits(x, 2) }}
	for i, s := range together(states) {
		b.Series = append(b.Series, s.name(filtered))
		for _, share := range s.GetDuty().GetHeadShares() {
			at := slices.IndexFunc(b.Rows, func(r chart.Row) bool { return r.Name == share.GetElement() })
			if at < 0 {
				b.Rows = append(b.Rows, chart.Row{Name: share.GetElement()})
				at = len(b.Rows) - 1
			}
			for len(b.Rows[at].Values) < i {
				b.Rows[at].Values = append(b.Rows[at].Values, 0)
			}
			b.Rows[at].Values = append(b.Rows[at].Values, max(v.system.From(form.Length, share.GetHeadM()), 0))
		}
	}
	for i := range b.Rows {
		for len(b.Rows[i].Values) < len(b.Series) {
			b.Rows[i].Values = append(b.Rows[i].Values, 0)
		}
	}
	return b
}

// ruledOut draws how many sets each limit stopped.
func ruledOut(s *pb.SearchCount) (template.HTML, bool) {
	b := chart.Bars{Title: "What stops the sets that do not work", Unit: "sets", Series: []string{""}, Figure: func(x float64) string { return figure.Count(int64(x)) }}
	for _, r := range s.GetRuledOut() {
		b.Rows = append(b.Rows, chart.Row{Name: stop(r.GetCode()), Values: []float64{float64(r.GetSets())}})
	}
	slices.SortStableFunc(b.Rows, func(x, y chart.Row) int { return int(y.Values[0] - x.Values[0]) })
	p, err := b.Draw()
	if err != nil {
		return "", false
	}
	html, err := p.Figure("stops")
	return html, err == nil
}

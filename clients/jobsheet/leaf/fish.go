package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/chart"
	"example.com/pondwright/clients/internal/figure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// fish is what lives in the water and what carries it: load, filter, ripening, stocking and the warmest night.
func (l *leaf) fish() (part, error) {
	p := part{ID: "fish", Title: "Fish and filter", Apart: true}
	f := l.plan.GetFiltration()
	if f == nil {
		return p, nil
	}
	if now, grown := f.GetFish().GetNow(), f.GetFish().GetGrown(); now != nil && grown != nil {
		t := columns("The load", "What", ">now", ">grown")
		t.row("fish", figure.Count(now.GetCount()), figure.Count(grown.GetCount()))
		add := func(name string, of func(*pb.FishLoad) float64, unit string) {
			t.row(name, figure.With(of(now), unit), figure.With(of(grown), unit))
		}
		add("together", (*pb.FishLoad).GetMassKg, "kg")
		add("feed a day", (*pb.FishLoad).GetFeedGPerDay, "g")
		add("ammonia nitrogen a day", (*pb.FishLoad).GetTanGPerDay, "g")
		add("oxygen for the feed, a day", (*pb.FishLoad).GetOxygenGPerDay, "g")
		add("solids a day, dry", (*pb.FishLoad).GetSolidsGPerDay, "g")
		p.Blocks = append(p.Blocks, t.block("")...)
	}
	if rules := f.GetFish().GetRules(); len(rules) > 0 {
		t := columns("Rules of the trade, which disagree", "Rule", ">now", ">grown", ">it allows")
		for _, r := range rules {
			t.row(r.GetName(), quantity(r.GetValue()), quantity(r.GetGrown()), quantity(r.GetLimit()))
		}
		t.Note = "All of them are common practice without a source. The answer here rests on the weight of the fish and what they are fed."
		p.Blocks = append(p.Blocks, t.block("")...)
	}
	blocks, err := ripening(f)
	if err != nil {
		return p, err
	}
	p.Blocks = append(p.Blocks, blocks...)
	if blocks, err = oxygen(f.GetOxygen()); err != nil {
		return p, err
	}
	p.Blocks = append(p.Blocks, blocks...)
	p.Blocks = append(p.Blocks, cleaning(f.GetCleaning())...)
	p.Blocks = append(p.Blocks, winter(f.GetWinter())...)
	p.Blocks = append(p.Blocks, l.grave(f.GetFindings(), f.GetFish().GetFindings(), f.GetFilter().GetFindings(), f.GetBalance().GetFindings(),
		f.GetRipening().GetFindings(), f.GetCleaning().GetFindings(), f.GetOxygen().GetFindings(), f.GetWinter().GetFindings())...)
	return p, nil
}

// ripening is how ammonia and nitrite rise and fall in a new filter, and how the fish go in.
func ripening(f *pb.PlannedFiltration) ([]block, error) {
	var blocks []block
	r := f.GetRipening()
	var tan, nitrite []chart.Point
	for _, d := range r.GetDays() {
		tan = append(tan, chart.Point{X: float64(d.GetDay()), Y: d.GetTanMgPerL()})
		nitrite = append(nitrite, chart.Point{X: float64(d.GetDay()), Y: d.GetNitriteNMgPerL()})
	}
	lines := chart.Lines{
		Title: "A new filter ripens, with all of today's fish put in at once", X: chart.Axis{Name: "after the start", Unit: "days"}, Y: chart.Axis{Name: "nitrogen", Unit: "mg/L"},
		Lines: []chart.Line{{Name: "ammonia", Points: tan}, {Name: "nitrite", Points: nitrite}}, Height: 200,
	}
	if s := r.GetFirstStocking(); s != nil {
		lines.Limits = []chart.Limit{{Name: "limit of ammonia", Y: s.GetTanLimitMgPerL()}, {Name: "limit of nitrite", Y: s.GetNitriteNLimitMgPerL()}}
	}
	picture, err := lines.Draw()
	if blocks, err = withPicture(blocks, picture, err, "ripening", ""); err != nil {
		return nil, err
	}
	if e := r.GetExpected(); e != nil {
		words := "not within the days followed"
		switch early, late := r.GetEarly(), r.GetLate(); {
		case early != nil && late != nil && early.RipeDay != nil && late.RipeDay != nil:
			words = fmt.Sprintf("between day %s and day %s: a span, never a date", figure.Digits(early.GetRipeDay(), 2), figure.Digits(late.GetRipeDay(), 2))
		case e.RipeDay != nil:
			words = fmt.Sprintf("about day %s, it may be much later", figure.Digits(e.GetRipeDay(), 2))
		}
		blocks = append(blocks, block{Rows: []pair{{"Ripe", words}}})
	}
	t := columns("The fish go in by steps", "Step", ">days after the filter runs", ">fish in all", ">feed a day, g", "When")
	for _, s := range f.GetStocking() {
		t.row(fmt.Sprint(s.GetStep()), fmt.Sprint(s.GetAfterDays()), fmt.Sprint(s.GetFishInAll()), figure.Number(s.GetFeedGPerDay()), s.GetSentence())
	}
	return append(blocks, t.block("")...), nil
}

func oxygen(o *pb.BalanceOxygenResponse) ([]block, error) {
	if o == nil {
		return nil, nil
	}
	var blocks []block
	var low, high, middle, pumpOff, powerOff []chart.Point
	for _, h := range o.GetHours() {
		at := func(y float64) chart.Point { return chart.Point{X: h.GetAfterH(), Y: max(y, 0)} }
		low, high = append(low, at(h.GetLowMgPerL())), append(high, at(h.GetHighMgPerL()))
		middle = append(middle, at((h.GetLowMgPerL()+h.GetHighMgPerL())/2))
		pumpOff, powerOff = append(pumpOff, at(h.GetPumpOffMgPerL())), append(powerOff, at(h.GetPowerOffMgPerL()))
	}
	lines := chart.Lines{
		Title: "Oxygen on the warmest night, with the fish grown", X: chart.Axis{Name: "after dusk", Unit: "h"}, Y: chart.Axis{Name: "oxygen", Unit: "mg/L"}, Height: 200,
		Lines: []chart.Line{{Name: "everything runs", Points: middle, Low: low, High: high}, {Name: "pump off", Points: pumpOff}},
	}
	if o.GetDawnPowerOffMgPerL() != o.GetDawnPumpOffMgPerL() {
		lines.Lines = append(lines.Lines, chart.Line{Name: "no power at all", Points: powerOff})
	}
	for _, h := range o.GetHeld() {
		if h.GetLimit() != nil {
			lines.Limits = append(lines.Limits, chart.Limit{Name: h.GetName(), Y: h.GetLimit().GetValue()})
		}
	}
	picture, err := lines.Draw()
	if blocks, err = withPicture(blocks, picture, err, "oxygen", ""); err != nil {
		return nil, err
	}
	var rows []pair
	if o.PumpOffLastsH != nil {
		rows = append(rows, pair{"Without the pump it lasts", hours(o.GetPumpOffLastsH())})
	}
	if o.PowerOffLastsH != nil {
		rows = append(rows, pair{"Without power it lasts", hours(o.GetPowerOffLastsH())})
	}
	if len(rows) > 0 {
		blocks = append(blocks, block{Rows: rows})
	}
	return blocks, nil
}

func cleaning(c *pb.PlanCleaningResponse) []block {
	t := columns("Cleaning through the year", "Month", ">water, °C", ">solids a day, g", ">days between cleanings", ">water flushed, L")
	for _, m := range c.GetMonths() {
		water := "not known"
		if m.WaterL != nil {
			water = figure.Number(m.GetWaterL())
		}
		i := m.GetIntervalDays()
		t.row(month(m.GetMonth()), figure.Number(m.GetWaterTemperatureC()), figure.Number(m.GetSolidsGPerDay()), figure.Digits(i.GetLow(), 2)+" to "+figure.Digits(i.GetHigh(), 2), water)
	}
	t.Note = "How much of the dirt fouls the filter evenly is a guess, hence the width. The flow decides: clean when it comes down to the flow due for cleaning."
	return t.block("")
}

func winter(w *pb.PlanWinterResponse) []block {
	if w == nil {
		return nil
	}
	rows := []pair{{"Ice, hardest spell", span(w.GetIceCm(), w.GetIceMostCm(), "cm")}, {"Water left under the ice", figure.With(w.GetRefugeM(), "m")}}
	if w.GetIceMostCm() == 0 {
		rows = rows[1:]
	}
	if w.RefugeWantedM != nil {
		rows = append(rows, pair{"These fish are wintered in", figure.With(w.GetRefugeWantedM(), "m") + " (common practice)"})
	}
	if w.FlowLeastLPerH != nil && w.FlowMostLPerH != nil {
		rows = append(rows, pair{"Flow to keep the filter alive", span(w.GetFlowLeastLPerH(), w.GetFlowMostLPerH(), "L/h") + " (common practice)"})
	}
	if w.GetFeedingStopsC() > 0 {
		rows = append(rows, pair{"Feeding stops below", figure.With(w.GetFeedingStopsC(), "°C")})
	}
	return []block{{Heading: "Winter", Rows: rows}}
}

package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/figure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// states are the circuit as it runs through the year, and when it does not.
func (l *leaf) states() (part, error) {
	p := part{ID: "states", Title: "How it runs, stops and fails"}
	planned := l.plan.GetStates()
	s := planned.GetStates()
	if s == nil {
		return p, nil
	}
	t := columns("The circuit in each state", "State", ">flow, L/h", ">head, m", ">power, W")
	run := func(name string, one *pb.StateSolution) {
		if one.GetSolution() == nil {
			return
		}
		power := "not known"
		if one.GetSolution().PowerW != nil {
			power = figure.Number(one.GetSolution().GetPowerW())
		}
		t.row(name, figure.Number(one.GetSolution().GetFlowLPerH()), figure.Number(one.GetSolution().GetHeadM()), power)
	}
	run("clean", s.GetClean())
	run("due for cleaning", s.GetDue())
	run("winter place", s.GetWinter())
	run("flushing the filter", s.GetFlush().GetRunning())
	p.Blocks = append(p.Blocks, t.block("")...)
	p.Blocks = append(p.Blocks, block{Rows: stateRows(planned)})
	if c := planned.GetCascade(); len(c.GetLandings()) > 0 {
		t := columns("The fall with the filter clean, from the top down", "Sill", ">L/h on each cm", ">head over it, mm", ">at the very edge, mm", ">throw, m")
		for i, landing := range c.GetLandings() {
			head := "not known"
			if landing.HeadMm != nil {
				head = figure.Digits(landing.GetHeadMm(), 2)
			}
			t.row(fmt.Sprint(i+1), figure.Number(landing.GetFlowLPerHPerCm()), head, figure.Digits(landing.GetBrinkMm(), 2), figure.Digits(landing.GetThrowM(), 2))
		}
		p.Blocks = append(p.Blocks, t.block("")...)
	}
	if r := planned.GetStream(); len(r.GetReaches()) > 0 {
		t := columns("The stream, from the top down", "Reach", ">depth, mm", ">speed, m/s", ">water in it, L")
		for i, reach := range r.GetReaches() {
			t.row(fmt.Sprint(i+1), span(reach.GetDepthLowMm(), reach.GetDepthHighMm(), ""), figure.Number(reach.GetVelocityMPerS()), figure.Number(reach.GetHeldL()))
		}
		p.Blocks = append(p.Blocks, t.block("")...)
	}
	p.Blocks = append(p.Blocks, l.grave(planned.GetFindings(), s.GetFindings(), s.GetClean().GetFindings(), s.GetDue().GetFindings(), s.GetWinter().GetFindings(),
		s.GetStopped().GetFindings(), s.GetHoseOff().GetFindings(), planned.GetCascade().GetFindings(), planned.GetStream().GetFindings())...)
	return p, nil
}

func stateRows(planned *pb.PlannedStates) []pair {
	var rows []pair
	add := func(name, format string, values ...any) {
		rows = append(rows, pair{name, fmt.Sprintf(format, values...)})
	}
	if planned.StartDropMm != nil {
		add("When the fall starts", "the level falls by %s: %s are on their way", figure.With(planned.GetStartDropMm(), "mm"), figure.With(planned.GetTransitL(), "L"))
	}
	if s := planned.GetStates().GetStopped(); s != nil {
		back := s.GetFromHosesL() + s.GetFromBoxesL() + s.GetSiphonedL() + s.GetFromTransitL()
		add("When the pump stops", "up to %s come back and the level rises by %s", figure.With(back, "L"), figure.With(s.GetLevelRiseMm(), "mm"))
	}
	if f := planned.GetStates().GetFlush(); f != nil && f.LostL != nil {
		words := figure.With(f.GetLostL(), "L") + " go to waste"
		if f.LevelDropMm != nil {
			words += " and the level falls by " + figure.With(f.GetLevelDropMm(), "mm")
		}
		add("When the filter is flushed", "%s", words)
	}
	if h := planned.GetStates().GetHoseOff(); h != nil && h.LostL != nil {
		words := figure.With(h.GetLostL(), "L") + " go"
		if h.TimeH != nil {
			words += " in some " + hours(h.GetTimeH())
		}
		if h.LeftL != nil {
			words += "; " + figure.With(h.GetLeftL(), "L") + " are left"
		}
		add("If a hose comes off", "%s", words)
	}
	return rows
}

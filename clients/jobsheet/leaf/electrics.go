package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/figure"
)

// electrics is what a licensed electrician is given.
func (l *leaf) electrics() (part, error) {
	p := part{ID: "electrics", Title: "Load list for the electrician"}
	e := l.plan.GetElectrics()
	if e == nil || len(e.GetLoads()) == 0 {
		return p, nil
	}
	t := columns("Loads", "What", ">power, W", ">power factor", ">current, A", ">hours a day", ">kWh a year", "Fish depend on it")
	for _, one := range e.GetLoads() {
		t.row(capital(one.GetName()), figure.Number(one.GetPowerW()), figure.Number(one.GetPowerFactor()), figure.Digits(one.GetCurrentA(), 2),
			figure.Number(one.GetHoursPerDay()), figure.Number(one.GetEnergyKwhPerYear()), yes(one.GetKeepsFishAlive()))
	}
	t.Foot = []string{"together", figure.Number(e.GetPowerW()), "", figure.Digits(e.GetCurrentA(), 2), "", "", ""}
	p.Blocks = append(p.Blocks, t.block("")...)
	drops := columns("Fall of the voltage along the cable", "Conductor, mm²", ">fall, V", ">fall, %", ">by wiring tables, %", "Within the limit")
	for _, c := range e.GetCables() {
		table := "none there"
		if c.TableDropPercent != nil {
			table = figure.Digits(c.GetTableDropPercent(), 2)
		}
		drops.row(figure.Number(c.GetConductorMm2()), figure.Digits(c.GetDropV(), 2), figure.Digits(c.GetDropPercent(), 2), table, yes(c.GetWithinLimit()))
	}
	drops.Note = fmt.Sprintf("Of %s, with a limit of %s.", figure.With(e.GetVoltageV(), "V"), figure.With(e.GetDropLimitPercent(), "%"))
	p.Blocks = append(p.Blocks, drops.block("")...)
	p.Blocks = append(p.Blocks, l.grave(e.GetFindings())...)
	return p, nil
}

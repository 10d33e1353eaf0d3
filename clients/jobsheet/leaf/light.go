package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/figure"
)

// light is what the lamp unit does to the green water.
func (l *leaf) light() (part, error) {
	p := part{ID: "light", Title: "Lamp unit and green water"}
	planned := l.plan.GetLight()
	if planned == nil {
		return p, nil
	}
	var rows []pair
	if d := l.plan.GetKit().GetKit().GetLampDose(); d != nil {
		rows = append(rows, pair{"Dose, lamps at the end of their life", fmt.Sprintf("%s a day for the whole pond, %s wanted; %s in one pass",
			figure.With(d.GetDailyMjPerCm2(), "mJ/cm²"), figure.With(d.GetWantedDailyMjPerCm2(), "mJ/cm²"), figure.With(d.GetPassMeanMjPerCm2(), "mJ/cm²"))})
	}
	if s := planned.GetSeason(); s != nil {
		rows = append(rows, pair{"Season of the lamps", fmt.Sprintf("%s, %s of burning, %s", figure.With(s.GetSeasonDays(), "days"), figure.With(s.GetBurningH(), "h"), figure.With(s.GetEnergyKwh(), "kWh"))})
		words := "after " + figure.With(s.GetDueInH(), "h") + " of burning, " + figure.With(s.GetDueInSeasons(), "seasons")
		if s.GetDueDay() != "" {
			words += ", about " + day(s.GetDueDay())
		}
		rows = append(rows, pair{"New lamps", words})
	}
	if len(rows) > 0 {
		p.Blocks = append(p.Blocks, block{Rows: rows})
	}
	p.Blocks = append(p.Blocks, l.grave(planned.GetFindings(), planned.GetDose().GetFindings(), planned.GetClearing().GetFindings(), planned.GetSeason().GetFindings())...)
	return p, nil
}

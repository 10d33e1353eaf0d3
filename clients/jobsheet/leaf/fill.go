package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/figure"
)

// fill is the first filling, and making tap water safe.
func (l *leaf) fill() (part, error) {
	p := part{ID: "fill", Title: "Filling and treating"}
	f := l.plan.GetFill()
	if f == nil {
		return p, nil
	}
	rows := []pair{{"To fill", figure.With(f.GetVolumeL(), "L") + " in " + hours(f.GetFillH())}}
	if f.WaterCost != nil {
		rows = append(rows, pair{"Water costs", figure.Money(l.plan.GetCosts().GetCurrency(), f.GetWaterCost())})
	}
	if f.GetChlorineG() > 0 {
		t := f.GetThiosulphateG()
		rows = append(rows, pair{"Chlorine in it", figure.With(f.GetChlorineG(), "g")},
			pair{"Bound by sodium thiosulphate (pentahydrate)", fmt.Sprintf("%s by chemistry at the least, %s as the trade doses; the label of the product decides",
				figure.With(t.GetLow(), "g"), figure.With(t.GetHigh(), "g"))})
	}
	if f.TanLeftMgPerL != nil {
		rows = append(rows, pair{"Ammonia nitrogen left by chloramine", figure.With(f.GetTanLeftMgPerL(), "mg/L")})
	}
	if f.GetTenthChlorineMgPerL() > 0 {
		rows = append(rows, pair{"A tenth topped up untreated", figure.With(f.GetTenthChlorineMgPerL(), "mg/L") + " of chlorine in the pond, before any decays"})
	}
	if f.GetSaltTenthPercentKg() > 0 {
		rows = append(rows, pair{"Salt for 0.1 %", figure.With(f.GetSaltTenthPercentKg(), "kg") + ", to measure the volume with, or as the vet says"})
	}
	p.Blocks = append(p.Blocks, block{Rows: rows})
	p.Blocks = append(p.Blocks, l.grave(f.GetFindings())...)
	return p, nil
}

package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/chart"
	"example.com/pondwright/clients/internal/figure"
)

// year is the water and the bills through the months.
func (l *leaf) year() (part, error) {
	p := part{ID: "year", Title: "The year", Apart: true}
	y := l.plan.GetYear()
	if y == nil || len(y.GetMonths()) == 0 {
		return p, nil
	}
	var water []chart.Point
	energy := chart.Bars{Title: "Electricity by month", Unit: "kWh", Series: []string{""}}
	t := columns("Month by month", "Month", ">water, °C", ">electricity, kWh", ">it costs")
	for i, m := range y.GetMonths() {
		water = append(water, chart.Point{X: float64(i) + 0.5, Y: m.GetWaterTemperatureC()})
		energy.Rows = append(energy.Rows, chart.Row{Name: month(m.GetMonth()), Values: []float64{m.GetEnergyKwh()}})
		cost := "not known"
		if m.EnergyCost != nil {
			cost = figure.Fixed(m.GetEnergyCost(), 2)
		}
		t.row(month(m.GetMonth()), figure.Number(m.GetWaterTemperatureC()), figure.Number(m.GetEnergyKwh()), cost)
	}
	t.Foot = []string{"the year", "", figure.Number(y.GetEnergyKwhPerYear()), ""}
	if y.EnergyCostPerYear != nil {
		t.Foot[3] = figure.Fixed(y.GetEnergyCostPerYear(), 2)
	}
	var ticks []chart.Tick
	for i, m := range y.GetMonths() {
		ticks = append(ticks, chart.Tick{At: float64(i) + 0.5, Name: month(m.GetMonth())[:3]})
	}
	blocks, err := season(y.GetSeason())
	if err != nil {
		return p, err
	}
	p.Blocks = blocks
	var picture chart.Picture
	if len(blocks) == 0 {
		picture, err = chart.Lines{
			Title: "Water temperature through the year", X: chart.Axis{Name: "month", Ticks: ticks, Min: new(0.0), Max: new(float64(len(ticks)))},
			Y: chart.Axis{Name: "water", Unit: "°C"}, Lines: []chart.Line{{Name: "water", Points: water, Measured: true}}, Height: 180,
		}.Draw()
		if p.Blocks, err = withPicture(p.Blocks, picture, err, "water-year", ""); err != nil {
			return p, err
		}
	}
	picture, err = columnsOf(energy, ticks).Draw()
	if p.Blocks, err = withPicture(p.Blocks, picture, err, "energy-year", ""); err != nil {
		return p, err
	}
	if len(blocks) == 0 { // else the months stand in the table of the weather
		p.Blocks = append(p.Blocks, t.block("")...)
	}
	p.Blocks = append(p.Blocks, l.grave(y.GetFindings(), y.GetSeason().GetFindings())...)
	return p, nil
}

// columnsOf are the months as steps along the year.
func columnsOf(b chart.Bars, ticks []chart.Tick) chart.Lines {
	var line []chart.Point
	table := chart.Table{Head: []string{"Month", b.Unit}}
	for i, r := range b.Rows {
		line = append(line, chart.Point{X: float64(i), Y: r.Values[0]}, chart.Point{X: float64(i + 1), Y: r.Values[0]})
		table.Rows = append(table.Rows, []string{r.Name, figure.Number(r.Values[0])})
	}
	return chart.Lines{
		Title: b.Title, X: chart.Axis{Name: "month", Ticks: ticks, Min: new(0.0), Max: new(float64(len(ticks)))}, Y: chart.Axis{Name: "electricity", Unit: b.Unit},
		Lines: []chart.Line{{Name: "electricity", Points: line}}, Height: 180, Table: &table,
		Sentence: fmt.Sprintf("Most in %s, least in %s.", most(b.Rows, 1), most(b.Rows, -1)),
	}
}

func most(rows []chart.Row, sign float64) string {
	best := rows[0]
	for _, r := range rows {
		if sign*r.Values[0] > sign*best.Values[0] {
			best = r
		}
	}
	return best.Name + ", " + figure.With(best.Values[0], "kWh")
}

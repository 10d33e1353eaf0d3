package leaf

import (
	"fmt"

	"example.com/pondwright/clients/internal/chart"
	"example.com/pondwright/clients/internal/figure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// season is the year as the weather of the site makes it: water, level and top-ups, and the days that go with them.
func season(s *pb.SimulateYearResponse) ([]block, error) {
	if len(s.GetMonths()) == 0 {
		return nil, nil
	}
	var blocks []block
	var mean, least, most, level, topped []chart.Point
	var ticks []chart.Tick
	t := columns("Month by month, as the weather has it", "Month", ">water, °C", ">evaporation, mm", ">rain, mm", ">topped up, L", ">times", ">level at its lowest, mm", ">electricity, kWh", ">it costs")
	for i, m := range s.GetMonths() {
		at := func(y float64) chart.Point { return chart.Point{X: float64(i) + 0.5, Y: y} }
		mean, least, most = append(mean, at(m.GetWaterC())), append(least, at(m.GetWaterLeastC())), append(most, at(m.GetWaterMostC()))
		level, topped = append(level, at(m.GetLevelLeastMm())), append(topped, at(m.GetToppedUpL()))
		ticks = append(ticks, chart.Tick{At: float64(i) + 0.5, Name: month(m.GetMonth())[:3]})
		cost := "not known"
		if m.EnergyCost != nil {
			cost = figure.Fixed(m.GetEnergyCost(), 2)
		}
		t.row(fmt.Sprintf("%s %d", month(m.GetMonth()), m.GetYear()), figure.Number(m.GetWaterC()), figure.Number(m.GetEvaporationMm()), figure.Number(m.GetRainMm()),
			figure.Number(m.GetToppedUpL()), figure.Count(m.GetTopUps()), figure.Digits(m.GetLevelLeastMm(), 2), figure.Number(m.GetEnergyKwh()), cost)
	}
	t.Foot = []string{"the year", "", "", "", figure.Number(s.GetWater().GetToppedUpL()), figure.Count(len(s.GetTopUp().GetDays())), "", figure.Number(s.GetEnergy().GetYearKwh()), ""}
	if s.GetEnergy() != nil && s.GetEnergy().YearCost != nil {
		t.Foot[len(t.Foot)-1] = figure.Fixed(s.GetEnergy().GetYearCost(), 2)
	}
	along := chart.Axis{Name: "month", Ticks: ticks, Min: new(0.0), Max: new(float64(len(ticks)))}
	for _, one := range []struct {
		id    string
		lines chart.Lines
	}{
		{"water-season", chart.Lines{Title: "Water through the year: mean of each month, and its coldest and warmest hour", X: along, Y: chart.Axis{Name: "water", Unit: "°C"},
			Lines: []chart.Line{{Name: "mean of the month", Points: mean, Low: least, High: most, Measured: true}}, Height: 180}},
		{"level-season", chart.Lines{Title: "Level through the year, at its lowest in each month", X: along, Y: chart.Axis{Name: "from full", Unit: "mm"},
			Lines: []chart.Line{{Name: "lowest level", Points: level, Measured: true}}, Height: 170,
			Limits: []chart.Limit{{Name: "topped up at", Y: -s.GetTopUp().GetAllowanceMm()}}}},
		{"topped-season", chart.Lines{Title: "Water topped up in each month", X: along, Y: chart.Axis{Name: "topped up", Unit: "L"},
			Lines: []chart.Line{{Name: "topped up", Points: topped, Measured: true}}, Height: 170}},
	} {
		picture, err := one.lines.Draw()
		if blocks, err = withPicture(blocks, picture, err, one.id, ""); err != nil {
			return nil, err
		}
	}
	blocks = append(blocks, t.block("")...)
	return append(blocks, block{Rows: seasonRows(s)}), nil
}

func seasonRows(s *pb.SimulateYearResponse) []pair {
	var rows []pair
	add := func(name, format string, values ...any) {
		rows = append(rows, pair{name, fmt.Sprintf(format, values...)})
	}
	between := func(name string, span *pb.SeasonSpan) {
		if span != nil {
			add(name, "%s to %s, %d days", day(span.GetFirstDay()), day(span.GetLastDay()), span.GetDays())
		}
	}
	if u := s.GetTopUp(); u != nil {
		add("Topping up", "%s each time, %s in the year", figure.With(u.GetEachL(), "L"), figure.With(u.GetYearL(), "L"))
		if u.ShortestIntervalDays != nil {
			rows[len(rows)-1].Said += "; in the driest month every " + figure.With(u.GetShortestIntervalDays(), "days") + " without rain"
		}
	}
	between("Fish are fed", s.GetFeeding())
	between("Lamps are worth their power", s.GetLamp())
	between("Pump in its winter place", s.GetWinterPlace())
	between("Ice", s.GetIce())
	if s.GetIceMostCm() > 0 {
		add("Ice at its thickest", "%s, without snow on a stirred pond", figure.With(s.GetIceMostCm(), "cm"))
	}
	add("Warmest and coldest day", "%s and %s", day(s.GetWarmestDay()), day(s.GetColdestDay()))
	for _, f := range s.GetFilterStarts() {
		words := "not ripe within the " + fmt.Sprint(f.GetFollowedDays()) + " days followed"
		if f.RipeOn != nil {
			words = "ripe about " + day(f.GetRipeOn()) + "; nobody knows how many bacteria there are at the start"
		}
		add("Filter begun "+day(f.GetBuiltOn()), "%s", words)
	}
	for _, load := range s.GetEnergy().GetLoads() {
		words := figure.With(load.GetKwh(), "kWh") + " on " + fmt.Sprint(load.GetDays()) + " days"
		if load.Cost != nil {
			words += ", costing " + figure.Fixed(load.GetCost(), 2)
		}
		add("Electricity, "+load.GetName(), "%s", words)
	}
	if days := s.GetCleaningDays(); len(days) > 0 {
		add("Cleaning of the filter", "%d times; first about %s, last about %s", len(days), day(days[0]), day(days[len(days)-1]))
	}
	return rows
}

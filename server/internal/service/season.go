package service

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"time"

	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/season"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/climates"
	"example.com/pondwright/server/internal/wire"
)

type seasons struct {
	pb.UnimplementedSeasonServiceServer
	engine *Engine
}

// usualFirst is the first day of a year that nobody dated.
const usualFirst = "2026-01-01"

func (s seasons) SimulateYear(ctx context.Context, req *pb.SimulateYearRequest) (*pb.SimulateYearResponse, error) {
	t := trail(req.GetWorkings())
	a, err := s.ask(ctx, t, req)
	if err != nil {
		return nil, stopped(ctx, refused(err, ""))
	}
	year, err := season.Simulate(t, a.in)
	if err != nil {
		return nil, stopped(ctx, refused(ofPond(err), ""))
	}
	resp := a.dates.Year(a.in, year)
	if req.GetDays() {
		resp.Days = a.dates.Days(year)
	}
	a.found = append(a.found, year.Findings...)
	if err := a.live(t, req, &year, resp); err != nil {
		return nil, stopped(ctx, refused(ofPond(err), ""))
	}
	resp.Findings, resp.Workings = wire.Findings(merged(nil, a.found)), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

// seasonAsked is what was asked of a year, read.
type seasonAsked struct {
	in    season.Input
	dates wire.SeasonDates
	found []finding.Finding
}

// ask reads the request. Every fault is told at once, with its field from the request on.
func (s seasons) ask(ctx context.Context, t *working.Trail, req *pb.SimulateYearRequest) (seasonAsked, error) {
	var errs input.Errors
	var a seasonAsked
	first := usualFirst
	if req.FirstDay != nil {
		first = req.GetFirstDay()
	}
	date, err := wire.Date("first_day", first)
	errs.AddUnder("", err)
	a.dates = wire.SeasonDates{First: date}
	built, err := climates.Read()
	if err != nil {
		return a, fmt.Errorf("built-in climates: %w", err)
	}
	weather, err := wire.ReadClimate(req.GetClimate(), built, date)
	errs.AddUnder("climate", err)
	shape, found, err := wire.SeasonShape(stopper(ctx), t, req.GetPond())
	if err != nil && !errs.AddUnder("pond", err) {
		return a, err
	}
	fish, grown, err := wire.FishThen(t, req.GetStock(), req.FishAfterYears)
	if err != nil && !errs.AddUnder("stock", err) {
		return a, err
	}
	for i, day := range req.GetBuiltOn() {
		_, err := wire.Date(fmt.Sprintf("built_on[%d]", i), day)
		errs.AddUnder("", err)
	}
	if len(errs) > 0 {
		return a, errs
	}
	asked := wire.SeasonYear(t, req, weather, shape)
	a.in = asked.Input
	a.in.Fish, a.in.Stop = fish, stopper(ctx)
	bed, dry := wire.SeasonBed(req, statedRatio(req.GetFilter()))
	a.in.Bed = bed
	a.found = slices.Concat(asked.Findings, found, grown, dry)
	return a, nil
}

// ofPond names what was sent where calc speaks of its own input.
func ofPond(err error) error {
	var all input.Errors
	if !errors.As(err, &all) {
		return err
	}
	made := slices.Clone(all)
	for i, e := range made {
		switch e.Field {
		case "pond_volume_l":
			made[i].Field = "pond"
		case "fish_oxygen_g_per_day", "tan_g_per_day":
			made[i].Field, made[i].Change = "stock", "give fewer or smaller fish"
		}
		if len(e.Field) > 4 && e.Field[:4] == "load" {
			made[i].Field, made[i].Change = "stock", "give fewer or smaller fish, or more water"
		}
	}
	return made
}

// live adds what lives in the pond: the warmest night, what the filter carries from month to month, and how new filters ripen.
func (a *seasonAsked) live(t *working.Trail, req *pb.SimulateYearRequest, year *season.Year, resp *pb.SimulateYearResponse) error {
	usual, hot, found, err := year.WarmestNight(t, a.in, season.NightInput{Falls: wire.OxygenFalls(req.GetFalls()), Air: wire.OxygenAir(req.GetAir())})
	if err != nil {
		return err
	}
	resp.WarmestNight, resp.HotSpellNight = a.dates.Night(usual), a.dates.Night(hot)
	a.found = append(a.found, found...)
	if len(a.in.Fish) == 0 {
		return nil
	}
	a.found = append(a.found, stock.Welfare())
	start := wire.NewFilter(req)
	a.found = append(a.found, start.Findings...)
	if req.GetFilter() != nil {
		if err := a.carries(req, start.Input, year, resp); err != nil {
			return err
		}
	}
	for _, built := range a.starts(req) {
		from := start.Input
		from.Built = (wire.DayOfYear(built) - year.Days[0].Sky.Day.Date + climate.YearDays) % climate.YearDays
		t.About("filter built on " + built.Format(time.DateOnly))
		made, err := year.Ripen(t, a.in, from)
		if err != nil {
			return err
		}
		t.About("")
		resp.FilterStarts = append(resp.FilterStarts, wire.FilterStart(built, made))
		for _, f := range made.Findings() {
			// Each start has its own peaks.
			if f.Severity > finding.Note {
				f.Subject = "filter built on " + built.Format(time.DateOnly)
			}
			a.found = append(a.found, f)
		}
	}
	return nil
}

// carries tells what a ripe filter takes up from month to month, at the ammonia fish are kept under in its water.
func (a *seasonAsked) carries(req *pb.SimulateYearRequest, start season.FilterInput, year *season.Year, resp *pb.SimulateYearResponse) error {
	for i, m := range year.Months {
		water := min(max(m.Water, 1), 30)
		share := filter.UnionisedShare.Eval(filter.UnionisedShareInput{Temperature: water, PH: start.PH})
		limit := filter.TANLimit.Eval(filter.TANLimitInput{Unionised: filter.UnionisedLimit, Total: filter.TotalLimit, Share: share})
		low, expected, high, found, err := filter.Capacity(nil, wire.Medium(req.GetFilter()), water, limit)
		if err != nil {
			return err
		}
		resp.Months[i].FilterTanGPerDay = &pb.Band{Low: low.GramsPerDay(), Expected: expected.GramsPerDay(), High: high.GramsPerDay()}
		if m.From <= year.Warmest && year.Warmest < m.To {
			a.found = append(a.found, found...)
		}
		if m.TAN > expected {
			a.found = append(a.found, finding.Finding{
				Code: "FILTER_FALLS_SHORT", Severity: finding.Caution, Subject: "filter",
				Sentence: fmt.Sprintf("In month %d the fish give off %s g of ammonia nitrogen a day, and the ripe filter takes up %s.", m.Month+1, finding.Figures(m.TAN.GramsPerDay()), finding.Figures(expected.GramsPerDay())),
				Value:    finding.Of(expected.GramsPerDay(), "g/day"), Limit: finding.Of(m.TAN.GramsPerDay(), "g/day"),
				Change: "Take a larger filter or fewer fish, and feed less in that month.", Source: filter.RateOf(wire.Medium(req.GetFilter()).Medium).Source,
			})
		}
	}
	return nil
}

// starts are the days on which a new filter may start: as asked, or one in mid autumn and one in mid spring.
func (a *seasonAsked) starts(req *pb.SimulateYearRequest) []time.Time {
	var days []time.Time
	for _, text := range req.GetBuiltOn() {
		day, err := time.Parse(time.DateOnly, text)
		if err == nil { // read before
			days = append(days, day)
		}
	}
	if len(days) > 0 {
		return days
	}
	autumn, spring := time.October, time.April
	if a.in.Site.Latitude < 0 {
		autumn, spring = spring, autumn
	}
	within := func(month time.Month) time.Time {
		day := time.Date(a.dates.First.Year(), month, 15, 0, 0, 0, 0, time.UTC)
		if day.Before(a.dates.First) {
			day = day.AddDate(1, 0, 0)
		}
		return day
	}
	return []time.Time{within(autumn), within(spring)}
}

func (s seasons) ListClimates(context.Context, *pb.ListClimatesRequest) (*pb.ListClimatesResponse, error) {
	built, err := climates.Read()
	if err != nil {
		return nil, fmt.Errorf("built-in climates: %w", err)
	}
	return &pb.ListClimatesResponse{Climates: wire.NamedClimates(built)}, nil
}

func (s seasons) CalculateEvaporation(_ context.Context, req *pb.CalculateEvaporationRequest) (*pb.CalculateEvaporationResponse, error) {
	t := trail(req.GetWorkings())
	var errs input.Errors
	date, err := wire.Date("day", req.GetDay())
	errs.AddUnder("", err)
	site, found := wire.EvaporationSite(req)
	errs.AddUnder("", site.Check())
	day := wire.Day(t, req.GetWeather())
	day.Date = date.YearDay()
	errs.AddUnder("weather", day.Check())
	if len(errs) > 0 {
		return nil, refused(errs, "")
	}
	sky := site.Under(t, day)
	resp := wire.Evaporation(sky, site)
	if day.Radiation == nil && day.Sunshine > sky.Daylight+unit.Hours(0.1) {
		found = append(found, finding.Finding{
			Code: "MORE_SUN_THAN_DAYLIGHT", Severity: finding.Caution, Subject: "climate",
			Sentence: fmt.Sprintf("The sun is said to have shone %.1f h, and the day has %.1f h.", day.Sunshine.Hours(), sky.Daylight.Hours()),
			Value:    finding.Of(day.Sunshine.Hours(), "h"), Limit: finding.Of(sky.Daylight.Hours(), "h"), Change: "Look at day and latitude.",
			Source: climate.Daylight.Source,
		})
	}
	resp.Findings, resp.Workings = wire.Findings(found), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

package wire

import (
	"math"
	"slices"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/season"
	"example.com/pondwright/calc/solids"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// SeasonShape reads the water whose level is followed. Problems are an input.Errors with fields from the pond on.
func SeasonShape(stop func() bool, t *working.Trail, m *pb.SeasonPond) (season.Shape, []finding.Finding, error) {
	if drawn := m.GetPond(); drawn != nil {
		pond, err := MeasurePondUntil(stop, t, drawn)
		if err != nil {
			return season.Shape{}, nil, under("pond", err)
		}
		return season.FromDrawing(pond.Volume, pond.Joined), pond.Findings, nil
	}
	water := m.GetMeasures()
	levels := make([]season.AtLevel, len(water.GetLevels()))
	for i, l := range water.GetLevels() {
		levels[i] = season.AtLevel{Fallen: unit.Metres(l.GetFallenM()), Surface: unit.SquareMetres(l.GetSurfaceM2())}
	}
	shape, err := season.FromTable(unit.Litres(water.GetVolumeL()), unit.SquareMetres(water.GetSurfaceM2()), levels)
	var found []finding.Finding
	if len(levels) == 0 {
		found = append(found, assume.Note("pond", "The surface of the water at every level", water.GetSurfaceM2(), "m²", "give the surface at some levels, or draw the pond: shelves make it shrink"))
	}
	return shape, found, under("measures", err)
}

// overflowUsual is how far above full a pond runs over where nobody says so: an assumption.
const overflowUsual = unit.Length(0.020)

// usualHotSpell is how much warmer than the usual year a hot spell is, in °C: an assumption.
const usualHotSpell = 5.0

// SeasonYear reads a pond's year, but for its fish.
func SeasonYear(t *working.Trail, req *pb.SimulateYearRequest, w Weather, shape season.Shape) Asked[season.Input] {
	asked := Asked[season.Input]{Findings: w.Findings, Input: season.Input{
		Site: w.Site, Days: w.Days, Usual: w.Usual, Shape: shape, WetStone: unit.SquareMetres(req.GetWetStoneM2()), FallsRest: req.GetFallsRestInWinter(),
		Catchment: unit.SquareMetres(req.GetCatchmentM2()), Leak: unit.LitresPerHour(req.GetLeakLPerDay() / 24), Protein: unit.Percent(req.GetStock().GetProteinPercent()),
	}}
	in := &asked.Input
	in.Splash = splash(t, &asked, req)
	in.Allowance = assumed(&asked, Millimetres(req.LevelAllowanceMm), outline.TopUpSoon,
		assume.Note("level", "The fall of the level at which it is topped up", outline.TopUpSoon.Millimetres(), "mm", "say how much may be missing; 50 to 75 mm is the habit of the trade"))
	in.Overflow = assumed(&asked, Millimetres(req.OverflowMm), overflowUsual,
		assume.Note("level", "How far above full the pond runs over", overflowUsual.Millimetres(), "mm", "measure from the level to the overflow"))
	in.RunOff = 0.9
	if req.GetCatchmentM2() > 0 {
		in.RunOff = assumed(&asked, optional(req.RunOffPercent, unit.Percent), 0.9, assume.Note("level", "The share of rain on roof or paving that arrives", 90, "%", "say how much, less for rough or planted ground"))
	}
	mean := meanAir(w)
	in.Tap = assumed(&asked, Celsius(req.TapTemperatureC), mean, assume.Note("tap water", "The temperature of the tap water", mean.Celsius(), "°C", "measure it; the mean of the year's air was taken"))
	in.Change = unit.PerDay(weeklyChange(&asked, req.WeeklyChangePercent).Float() / 7)
	in.HotSpell = assumed(&asked, req.HotSpellK, usualHotSpell, assume.Note("climate", "How much warmer than usual a hot spell is", usualHotSpell, "°C", "look up the hottest week of the last years"))
	in.Loads, in.Tariff = seasonLoads(req.GetLoads()), seasonTariff(req.GetTariff())
	return asked
}

// meanAir is the mean air of the year to a tenth of a degree, within what a tap gives.
func meanAir(w Weather) unit.Temperature {
	sum := unit.Temperature(0)
	for _, d := range w.Days {
		sum += (d.Least + d.Most) / 2
	}
	mean := float64(sum) / float64(max(1, len(w.Days)))
	return unit.Celsius(min(max(math.Round(10*mean)/10, 4), 30)) // no finer than the note tells it
}

// splash is what the falls throw beside the pond, said or by habit.
func splash(t *working.Trail, n noter, req *pb.SimulateYearRequest) unit.Flow {
	if req.SplashLPerDay != nil {
		return unit.LitresPerHour(req.GetSplashLPerDay() / 24)
	}
	var drop unit.Length
	for _, f := range OxygenFalls(req.GetFalls()) {
		drop += unit.Length(f.Steps) * f.Drop
	}
	if drop == 0 {
		return 0
	}
	q := season.Splash.Run(t, season.SplashInput{Drop: drop})
	f := assume.Note("fall", "The water splashed beside the pond", q.LitresPerDay(), "L a day", "watch the stones around the fall for a day; 1 to 10 L a day for each metre is the habit of the trade")
	n.note(f)
	return q
}

var loadSeasons = map[pb.LoadSeason]season.When{
	pb.LoadSeason_LOAD_SEASON_UNSPECIFIED:   season.AllYear,
	pb.LoadSeason_LOAD_SEASON_ALL_YEAR:      season.AllYear,
	pb.LoadSeason_LOAD_SEASON_NOT_IN_WINTER: season.NotInWinter,
	pb.LoadSeason_LOAD_SEASON_WINTER:        season.Winter,
	pb.LoadSeason_LOAD_SEASON_LAMP:          season.LampSeason,
	pb.LoadSeason_LOAD_SEASON_FEEDING:       season.Feeding,
}

func seasonLoads(loads []*pb.ElectricLoad) []season.Load {
	made := make([]season.Load, len(loads))
	for i, l := range loads {
		made[i] = season.Load{
			Name: l.GetName(), Power: unit.Watts(l.GetPowerW()), When: loadSeasons[l.GetSeason()], WarmsPond: l.GetWarmsPond(),
			Clock: season.Window{From: unit.Hours(l.GetFromH()), To: unit.Hours(l.GetToH())},
		}
	}
	return made
}

func seasonTariff(bands []*pb.TariffBand) []season.Tariff {
	made := make([]season.Tariff, len(bands))
	for i, b := range bands {
		made[i] = season.Tariff{Name: b.GetName(), Price: b.GetPricePerKwh(), Clock: season.Window{From: unit.Hours(b.GetFromH()), To: unit.Hours(b.GetToH())}}
	}
	return made
}

// SeasonBed reads the filter as far as it fouls, at the head ratio its stated losses have; nil with a finding where it does not.
func SeasonBed(req *pb.SimulateYearRequest, ratio unit.Ratio) (*solids.Input, []finding.Finding) {
	f := req.GetFilter()
	if f == nil {
		return nil, nil
	}
	medium := media[f.GetMedium()]
	if !slices.Contains([]filter.Medium{filter.Foam, filter.Matting, filter.FloatingBead, filter.Granular}, medium) {
		return nil, []finding.Finding{season.DryMedia(medium.String())}
	}
	return &solids.Input{Medium: medium, Volume: unit.Litres(f.GetMediumL()), HeadRatio: ratio, Flush: unit.Litres(f.GetFlushL())}, nil
}

// NewFilter reads what a new filter starts in.
func NewFilter(req *pb.SimulateYearRequest) Asked[season.FilterInput] {
	var asked Asked[season.FilterInput]
	in := &asked.Input
	in.PH = assumed(&asked, req.Ph, assume.PH, assume.Note("water", "The pH of the water", assume.PH, "", "measure it at dusk, when it is highest"))
	in.Oxygen = dissolvedOxygen(&asked, nil)
	in.TapTAN, in.TapNitrate = tapNitrogen(&asked, req.GetTap())
	in.Seeded = req.GetSeeded()
	return asked
}

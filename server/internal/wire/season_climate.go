package wire

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/climates"
)

// Weather is a site and the days of its year.
type Weather struct {
	Site     climate.Site
	Days     []climate.Day // in order, First first
	First    time.Time     // as it is on the calendar
	Usual    bool          // spread from months
	Findings []finding.Finding
}

func (w *Weather) note(found ...finding.Finding) { w.Findings = append(w.Findings, found...) }

// DayOfYear is the number of a date in a common year, 1 for 1 January; 29 February counts as 28.
func DayOfYear(date time.Time) int {
	day := date.Day()
	if date.Month() == time.February {
		day = min(day, 28)
	}
	return time.Date(2026, date.Month(), day, 0, 0, 0, 0, time.UTC).YearDay()
}

// Date reads a day as 2026-07-14. Problems are an input.Errors with that field.
func Date(field, text string) (time.Time, error) {
	date, err := time.Parse(time.DateOnly, text)
	if err != nil {
		return time.Time{}, input.Errors{{Field: field, Problem: fmt.Sprintf("%q is no day of the calendar", text), Change: "write it as 2026-07-14"}}
	}
	return date, nil
}

// DateAfter is a day of the year that was followed, as text: 29 February is left out of it.
func DateAfter(first time.Time, i int) string {
	day := DayOfYear(first) - 1 + i
	year := first.Year() + day/climate.YearDays
	date := time.Date(2026, time.January, 1+day%climate.YearDays, 0, 0, 0, 0, time.UTC)
	return fmt.Sprintf("%04d-%02d-%02d", year, int(date.Month()), date.Day())
}

// ReadClimate reads a site and its year from a day on. Problems are an input.Errors with fields from the climate on.
func ReadClimate(m *pb.SiteClimate, built []climates.Climate, first time.Time) (Weather, error) {
	w := Weather{First: first}
	var errs input.Errors
	months, daily := m.GetMonthly().GetMonths(), m.GetDaily().GetDays()
	prefix := "monthly."
	latitude, altitude, height, share := m.LatitudeDeg, m.AltitudeM, m.WindHeightM, m.WindAtPondPercent
	if name := m.GetNamed(); name != "" {
		i := slices.IndexFunc(built, func(c climates.Climate) bool { return c.Name == name })
		if i < 0 {
			return w, input.Errors{{Field: "named", Problem: fmt.Sprintf("there is no climate %q", name), Change: "take one of ListClimates"}}
		}
		c := built[i]
		months, prefix = c.Months, "named."
		latitude, altitude, height, share = cmp.Or(latitude, &c.Latitude), cmp.Or(altitude, &c.Altitude), cmp.Or(height, &c.WindHeight), cmp.Or(share, &c.WindAtPond)
		w.note(namedClimate(c))
	}
	if latitude == nil {
		errs.Add("latitude_deg", "give it, north positive: the sun hangs on it", "no latitude")
		latitude = new(0.0)
	}
	w.Site = climate.Site{Latitude: unit.Degrees(*latitude), Shade: unit.Percent(m.GetShadePercent())}
	w.Site.Altitude = assumed(&w, optional(altitude, unit.Metres), 0, assume.Note("climate", "The height above the sea", 0, "m", "give it, if the pond lies high"))
	w.Site.WindHeight = assumed(&w, optional(height, unit.Metres), stationHeight, assume.Note("climate", "The height at which wind was measured", stationHeight.Metres(), "m", "look it up; weather stations measure at ten metres"))
	w.Site.WindShare = assumed(&w, optional(share, unit.Percent), gardenWind, assume.Note("climate", "The wind over the pond, of that in the open", gardenWind.Percent(), "%", "take 30 in a walled garden, 60 with low hedges, 100 in the open"))
	if len(daily) > 0 {
		w.daily(&errs, daily)
	} else {
		w.monthly(&errs, prefix, months)
	}
	errs.AddUnder("", w.Site.Check())
	return w, errs.Err()
}

// What stands in for a site that was not described. Source: common practice: gardens have 30 to 60 % of the wind in the open.
const (
	stationHeight = unit.Length(10)
	gardenWind    = unit.Ratio(0.5)
)

func namedClimate(c climates.Climate) finding.Finding {
	f := finding.Finding{
		Code: "NAMED_CLIMATE", Severity: finding.Note, Subject: "climate", Sentence: c.About + ".",
		Change: "Give the monthly weather of the nearest station.", Source: source.Choice,
	}
	if !c.Invented {
		f.Source = source.ClimateAtlas
	}
	return f
}

// monthly spreads months over the days of the year.
func (w *Weather) monthly(errs *input.Errors, prefix string, months []*pb.WeatherMonth) {
	var made climate.Months
	for i, m := range months[:12] {
		made[i] = climate.Month{
			Least: unit.Celsius(m.GetAirMinC()), Most: unit.Celsius(m.GetAirMaxC()), Wind: unit.MetresPerSecond(m.GetWindMPerS()),
			Sunshine: unit.Hours(m.GetSunshineH()), Rain: unit.Millimetres(m.GetRainMm()),
		}
		made[i].Vapour = vapour(nil, made[i].Least, made[i].Most, m)
		if m.RainDays != nil {
			made[i].RainDays = new(int(m.GetRainDays()))
		}
	}
	w.Usual = true
	if err := made.Check(); err != nil {
		errs.AddUnder(prefix[:len(prefix)-1], err)
		return
	}
	days, from := made.Days(), DayOfYear(w.First)-1
	w.Days = append(slices.Clone(days[from:]), days[:from]...)
}

// daily reads the days as they are.
func (w *Weather) daily(errs *input.Errors, days []*pb.WeatherDay) {
	from := DayOfYear(w.First) - 1
	for i, d := range days {
		day := Day(nil, d)
		day.Date = (from+i)%climate.YearDays + 1
		errs.AddUnder(fmt.Sprintf("daily.days[%d]", i), day.Check())
		w.Days = append(w.Days, day)
	}
}

// Day reads the weather of one day, but for its date.
func Day(t *working.Trail, d *pb.WeatherDay) climate.Day {
	day := climate.Day{
		Least: unit.Celsius(d.GetAirMinC()), Most: unit.Celsius(d.GetAirMaxC()), Wind: unit.MetresPerSecond(d.GetWindMPerS()),
		Sunshine: unit.Hours(d.GetSunshineH()), Rain: unit.Millimetres(d.GetRainMm()),
	}
	day.Vapour = vapour(t, day.Least, day.Most, d)
	if _, measured := d.GetSun().(*pb.WeatherDay_RadiationMjPerM2); measured {
		day.Radiation = new(unit.MegajoulesPerSquareMetreDay(d.GetRadiationMjPerM2()))
	}
	return day
}

// damp is how a message says how damp the air is; what it does not say is 0.
type damp interface {
	GetHumidityPercent() float64
	GetDewPointC() float64
	GetVapourPressureKpa() float64
}

func vapour(t *working.Trail, least, most unit.Temperature, m damp) unit.Pressure {
	switch {
	case m.GetHumidityPercent() > 0:
		return climate.VapourFromHumidity.Run(t, climate.HumidityInput{Least: least, Most: most, Humidity: unit.Percent(m.GetHumidityPercent())})
	case m.GetVapourPressureKpa() > 0:
		return unit.Kilopascals(m.GetVapourPressureKpa())
	default: // a dew point of 0 °C is one, too
		return climate.Saturation.Run(t, climate.AirInput{Temperature: unit.Celsius(m.GetDewPointC())})
	}
}

// NamedClimates turns the built-in climates into messages.
func NamedClimates(built []climates.Climate) []*pb.NamedClimate {
	made := make([]*pb.NamedClimate, len(built))
	for i, c := range built {
		from := source.Choice
		if !c.Invented {
			from = source.ClimateAtlas
		}
		made[i] = &pb.NamedClimate{
			Name: c.Name, About: c.About, LatitudeDeg: c.Latitude, AltitudeM: c.Altitude, WindHeightM: c.WindHeight, WindAtPondPercent: c.WindAtPond,
			Months: c.Months, Source: Source(from),
		}
	}
	return made
}

// Evaporation turns the sky of a day into a message without findings.
func Evaporation(s climate.Sky, site climate.Site) *pb.CalculateEvaporationResponse {
	return &pb.CalculateEvaporationResponse{
		PenmanMm: s.Penman.MillimetresPerDay(), ByReferenceMm: s.Shallow.MillimetresPerDay(), ReferenceMm: s.Reference.MillimetresPerDay(),
		PressureKpa: s.Pressure.Kilopascals(), PsychrometricKpaPerK: s.Psychrometric.KilopascalsPerKelvin(), SaturationKpa: s.Saturation.Kilopascals(),
		VapourKpa: s.Day.Vapour.Kilopascals(), SlopeKpaPerK: s.Slope.KilopascalsPerKelvin(), Wind_2MMPerS: s.Wind.MetresPerSecond(), DaylightH: s.Daylight.Hours(),
		ExtraterrestrialMjPerM2: s.Top.MegajoulesPerSquareMetreDay(), ClearSkyMjPerM2: s.Clear.MegajoulesPerSquareMetreDay(),
		SunlightMjPerM2: s.Sunlight.MegajoulesPerSquareMetreDay(), SunlightAtPondMjPerM2: (1 - site.Shade.Float()) * s.Sunlight.MegajoulesPerSquareMetreDay(),
		NetLongWaveMjPerM2: s.Long.MegajoulesPerSquareMetreDay(), NetRadiationMjPerM2: s.Net.MegajoulesPerSquareMetreDay(),
	}
}

// EvaporationSite reads where a day's evaporation is asked for.
func EvaporationSite(req *pb.CalculateEvaporationRequest) (climate.Site, []finding.Finding) {
	var w Weather
	site := climate.Site{
		Latitude: unit.Degrees(req.GetLatitudeDeg()), Altitude: unit.Metres(req.GetAltitudeM()), Shade: unit.Percent(req.GetShadePercent()), WindShare: 1,
	}
	site.WindHeight = assumed(&w, optional(req.WindHeightM, unit.Metres), stationHeight, assume.Note("climate", "The height at which wind was measured", stationHeight.Metres(), "m", "look it up; weather stations measure at ten metres"))
	if req.WindAtPondPercent != nil {
		site.WindShare = unit.Percent(req.GetWindAtPondPercent())
	}
	return site, w.Findings
}

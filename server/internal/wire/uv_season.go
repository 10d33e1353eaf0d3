package wire

import (
	"time"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// LampSeason reads the days of a season, both of them counted, and gives its first.
func LampSeason(req *pb.PlanLampSeasonRequest) (first time.Time, length unit.Time, err error) {
	var errs input.Errors
	first, last := date(&errs, "first_day", req.GetFirstDay()), date(&errs, "last_day", req.GetLastDay())
	if len(errs) > 0 {
		return first, 0, errs
	}
	days := last.Sub(first).Hours()/24 + 1
	if days < 1 || days > 366 {
		errs.Add("last_day", "give the last day of one season, which comes again every year", "%.0f days from %s on are no season", days, req.GetFirstDay())
	}
	return first, unit.Days(days), errs.Err()
}

func date(errs *input.Errors, field, text string) time.Time {
	day, err := time.Parse(time.DateOnly, text)
	if err != nil {
		errs.Add(field, "give it as 2026-04-01", "%q is no day of the calendar", text)
	}
	return day
}

// PlanLampSeason turns a season into a message, without what every answer carries.
func PlanLampSeason(first time.Time, length unit.Time, s uv.Season) *pb.PlanLampSeasonResponse {
	return &pb.PlanLampSeasonResponse{
		SeasonDays: length.Days(), BurningH: s.Burning.Hours(), UsedLifeStartPercent: s.AgeStart.Percent(), UsedLifeEndPercent: s.AgeEnd.Percent(),
		LightLeftStartPercent: s.LeftStart.Percent(), LightLeftEndPercent: s.LeftEnd.Percent(),
		DueInH: s.BurningLeft.Hours(), DueInSeasons: s.SeasonsLeft.Float(), DueDay: dueDay(first, s),
		EnergyKwh: s.Energy.KilowattHours(), EnergyCost: s.EnergyCost, LampCost: s.LampCost,
	}
}

// dueDay is the day on which the lamps reach the end of their rated life, or nothing where it is too far off to name.
func dueDay(first time.Time, s uv.Season) string {
	const farthest = 50
	if s.WholeSeasons > farthest {
		return ""
	}
	const rounding = 1e-6 // of a day
	return first.AddDate(s.WholeSeasons, 0, int(s.DaysIntoSeason.Days()+rounding)).Format(time.DateOnly)
}

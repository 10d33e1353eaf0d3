package wire

import (
	"example.com/pondwright/calc/greenwater"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

var clearing = map[greenwater.Verdict]pb.ClearingVerdict{
	greenwater.Unlikely: pb.ClearingVerdict_CLEARING_VERDICT_UNLIKELY,
	greenwater.Possible: pb.ClearingVerdict_CLEARING_VERDICT_POSSIBLE,
	greenwater.Likely:   pb.ClearingVerdict_CLEARING_VERDICT_LIKELY,
}

// ClearingVerdict turns a verdict into a message.
func ClearingVerdict(v greenwater.Verdict) pb.ClearingVerdict { return clearing[v] }

// TurnoverRoad turns the road of turnover into a message; the lamp's power makes watts of the least lamp.
func TurnoverRoad(f greenwater.Forecast, power unit.Power) *pb.TurnoverRoad {
	return &pb.TurnoverRoad{
		PassesPerDay: f.Passes.Float(), Hopeful: clearingCase(f.Hopeful, power), Expected: clearingCase(f.Expected, power),
		Careful: clearingCase(f.Careful, power),
	}
}

func clearingCase(c greenwater.Case, power unit.Power) *pb.ClearingCase {
	made := &pb.ClearingCase{
		GrowthPerDay: c.Growth.PerDay(), LossPerDay: c.Loss.PerDay(), PassMjPerCm2: c.Pass.MillijoulesPerSquareCentimetre(),
		TakenPerPassPercent: c.Share.Percent(), RemovalPerDay: c.Removal.PerDay(),
		LeastLampW:     optional(c.LeastLamp, func(factor unit.Ratio) float64 { return factor.Float() * power.Watts() }),
		LeastFlowLPerH: optional(c.LeastFlow, unit.Flow.LitresPerHour),
	}
	if c.Clearing.Clears {
		made.ClearsInDays = days(&c.Clearing.Time)
	}
	return made
}

// DailyDoseRoad turns the road of the daily dose into a message.
func DailyDoseRoad(f greenwater.Forecast) *pb.DailyDoseRoad {
	return &pb.DailyDoseRoad{
		DailyMjPerCm2: f.Daily.MillijoulesPerSquareCentimetre(), Lowest: DoseResponse(&f.Lowest), Stop: DoseResponse(&f.Stop),
		DailyOverLowest: f.OverLowest.Float(), DailyOverStop: f.OverStop.Float(),
	}
}

// ClearingOutlooks turns forecasts for other seasons into messages.
func ClearingOutlooks(all []greenwater.Outlook) []*pb.ClearingOutlook {
	made := make([]*pb.ClearingOutlook, len(all))
	for i, o := range all {
		made[i] = &pb.ClearingOutlook{
			TemperatureC: o.Temperature.Celsius(), Light: pb.PondLight_POND_LIGHT_SHADE, Verdict: clearing[o.Verdict],
			SoonestDays: days(o.Soonest), LatestDays: days(o.Latest),
		}
		if o.FullSun {
			made[i].Light = pb.PondLight_POND_LIGHT_FULL_SUN
		}
	}
	return made
}

func days(t *unit.Time) *float64 { return optional(t, unit.Time.Days) }

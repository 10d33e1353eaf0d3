package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/oxygen"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Night reads a pond on a night, but for its fish and what brings it air.
func Night(req *pb.BalanceOxygenRequest) Asked[oxygen.NightInput] {
	asked := Asked[oxygen.NightInput]{Input: oxygen.NightInput{
		Pond: unit.Litres(req.GetPondVolumeL()), Surface: unit.SquareMetres(req.GetSurfaceM2()),
		Salinity: unit.Ratio(req.GetSaltGPerKg() / 1000), Wind: unit.MetresPerSecond(req.GetWindMPerS()),
	}}
	in := &asked.Input
	in.Temperature = assumed(&asked, optional(req.WaterTemperatureC, unit.Celsius), oxygen.WarmNight,
		assume.Note("water", "The temperature of the water on the warmest night", oxygen.WarmNight.Celsius(), "°C", "measure it in a hot spell"))
	in.Altitude = assumed(&asked, optional(req.AltitudeM, unit.Metres), 0,
		assume.Note("pond", "The height above the sea", 0, "m", "give it, if the pond lies high"))
	in.Dusk = assumed(&asked, optional(req.DuskPercent, unit.Percent), 1,
		assume.Note("water", "The oxygen at dusk", 100, "% of saturation", "measure it at dusk"))
	in.Night = assumed(&asked, optional(req.NightH, unit.Hours), oxygen.ShortNight,
		assume.Note("pond", "The length of the night", oxygen.ShortNight.Hours(), "h", "give the hours without light"))
	return asked
}

// OxygenFalls reads the falls.
func OxygenFalls(falls []*pb.OxygenFall) []oxygen.Fall {
	made := make([]oxygen.Fall, len(falls))
	for i, f := range falls {
		made[i] = oxygen.Fall{
			Drop: unit.Metres(f.GetDropM()), Steps: max(1, int(f.GetSteps())), Flow: unit.LitresPerHour(f.GetFlowLPerH()),
			Sill: unit.Centimetres(f.GetSillWidthCm()), Pool: unit.Centimetres(f.GetPoolDepthCm()),
		}
	}
	return made
}

// OxygenAir reads the air pump; nothing without one.
func OxygenAir(a *pb.OxygenAir) oxygen.Air {
	return oxygen.Air{Flow: unit.LitresPerMinute(a.GetFlowLPerMin()), Depth: unit.Metres(a.GetDepthM()), Fine: a.GetIsFine()}
}

// OxygenNight turns a night into a message without findings.
func OxygenNight(in oxygen.NightInput, n oxygen.Night) *pb.BalanceOxygenResponse {
	made := &pb.BalanceOxygenResponse{
		SaturationMgPerL:  n.Saturation.MilligramsPerLitre(),
		Dawn:              &pb.OxygenSpan{Low: n.Low.MilligramsPerLitre(), High: n.High.MilligramsPerLitre()},
		DawnPumpOffMgPerL: n.PumpOff.MilligramsPerLitre(), DawnPowerOffMgPerL: n.PowerOff.MilligramsPerLitre(),
		LastsH: lasting(n.Lasts), PumpOffLastsH: lasting(n.PumpOffLasts), PowerOffLastsH: lasting(n.PowerOffLasts),
		Hours: oxygenHours(n.Hours), Held: oxygenHeld(n),
	}
	if in.Falls.Flow > 0 {
		made.FallsPercent = &pb.OxygenSpan{Low: in.Falls.Low.Percent(), High: in.Falls.High.Percent()}
	}
	for _, s := range n.Supplies {
		made.SuppliesGPerDay = append(made.SuppliesGPerDay, &pb.OxygenShare{Name: s.Name, Low: s.Low.GramsPerDay(), High: s.High.GramsPerDay()})
	}
	for _, d := range n.Demands {
		made.DemandsGPerDay = append(made.DemandsGPerDay, &pb.OxygenShare{Name: d.Name, Low: d.Low.GramsPerDay(), High: d.High.GramsPerDay()})
	}
	return made
}

func oxygenHours(hours []oxygen.Hour) []*pb.OxygenHour {
	made := make([]*pb.OxygenHour, len(hours))
	for i, h := range hours {
		made[i] = &pb.OxygenHour{
			AfterH: h.After.Hours(), LowMgPerL: h.Low.MilligramsPerLitre(), HighMgPerL: h.High.MilligramsPerLitre(),
			PumpOffMgPerL: h.PumpOff.MilligramsPerLitre(), PowerOffMgPerL: h.PowerOff.MilligramsPerLitre(),
		}
	}
	return made
}

func oxygenHeld(n oxygen.Night) []*pb.HeldLimit {
	var made []*pb.HeldLimit
	for _, l := range oxygen.Limits() {
		made = append(made, &pb.HeldLimit{
			Name: l.Name, Value: quantity(finding.Of(n.Low.MilligramsPerLitre(), "mg/L")), Limit: quantity(finding.Of(l.Least.MilligramsPerLitre(), "mg/L")),
			IsLeast: true, Source: Source(l.Source),
		})
	}
	return made
}

// lasting is a time, or nothing where it is for good.
func lasting(t unit.Time) *float64 {
	if t < 0 {
		return nil
	}
	h := t.Hours()
	return &h
}

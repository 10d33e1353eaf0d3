package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/balance"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// WaterBalance reads a pond with a ripe filter, but for the load of its fish.
func WaterBalance(req *pb.BalanceWaterRequest, w Water) Asked[balance.Input] {
	asked := Asked[balance.Input]{Findings: w.Findings, Input: balance.Input{
		Pond: unit.Litres(req.GetPondVolumeL()), Filter: Medium(req.GetFilter()), Temperature: w.Temperature, PH: w.PH,
		Flow: unit.LitresPerHour(req.GetFlowLPerH()),
	}}
	in := &asked.Input
	in.Oxygen = dissolvedOxygen(&asked, req.OxygenMgPerL)
	in.WeeklyChange = weeklyChange(&asked, req.WeeklyChangePercent)
	in.TapTAN, in.TapNitrate = tapNitrogen(&asked, req.GetTap())
	in.Alkalinity = alkalinity(&asked, "pond", req.AlkalinityMgPerL)
	var tap *float64
	if req.GetTap() != nil {
		tap = req.Tap.AlkalinityMgPerL
	}
	in.TapAlkalinity = alkalinity(&asked, "tap water", tap)
	return asked
}

func alkalinity(n noter, of string, said *float64) unit.Concentration {
	return assumed(n, optional(said, unit.MilligramsPerLitre), balance.UsualAlkalinity,
		assume.Note(of, "The carbonate hardness of the "+of, balance.UsualAlkalinity.MilligramsPerLitre(), "mg/L", "test it; one German degree is 17.8 mg/L"))
}

// SettledWater turns what water comes to into a message.
func SettledWater(in balance.Input, w balance.Water) *pb.SettledWater {
	made := &pb.SettledWater{
		AlkalinityUseGPerDay: w.AlkalinityUse.GramsPerDay(), NitriteNMgPerL: milligrams(w.Nitrite),
	}
	if w.Rests {
		made.TanMgPerL, made.UnionisedMgPerL = milligrams(&w.TAN), milligrams(&w.Unionised)
	}
	if w.HighRests {
		made.TanHighMgPerL = milligrams(&w.TANHigh)
	}
	if in.WeeklyChange > 0 {
		made.NitrateNAfterChangeMgPerL, made.NitrateNBeforeChangeMgPerL = milligrams(&w.Nitrate.After), milligrams(&w.Nitrate.Before)
		made.NitrateNTrickledMgPerL = milligrams(&w.NitrateTrickled)
	}
	if w.AlkalinityLasts >= 0 {
		days := w.AlkalinityLasts.Days()
		made.AlkalinityLastsDays = &days
	}
	return made
}

func milligrams(c *unit.Concentration) *float64 {
	return optional(c, unit.Concentration.MilligramsPerLitre)
}

// HeldLimits turns what was held against limits into messages.
func HeldLimits(held []balance.Held) []*pb.HeldLimit {
	made := make([]*pb.HeldLimit, len(held))
	for i, h := range held {
		made[i] = &pb.HeldLimit{Name: h.Name, Value: quantity(h.Value), Limit: quantity(&h.Limit), IsLeast: h.Least, Source: Source(h.Source)}
	}
	return made
}

package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Ripening reads a pond with a new filter, but for what it is loaded with. The pond is filled from the tap.
func Ripening(req *pb.RipenFilterRequest, w Water) Asked[ripening.Input] {
	asked := Asked[ripening.Input]{Findings: w.Findings, Input: ripening.Input{
		Pond: unit.Litres(req.GetPondVolumeL()), Temperature: w.Temperature, PH: w.PH, Start: ripening.NewFilter(),
	}}
	in := &asked.Input
	if req.GetSeeded() {
		in.Start = ripening.SeededFilter()
	}
	in.Oxygen = dissolvedOxygen(&asked, req.OxygenMgPerL)
	in.Exchange = unit.PerDay(weeklyChange(&asked, req.WeeklyChangePercent).Float() / 7)
	in.TapTAN, in.TapNitrate = tapNitrogen(&asked, req.GetTap())
	in.Start.TAN, in.Start.Nitrate = in.TapTAN, in.TapNitrate
	days := assumed(&asked, req.Days, int32(ripening.UsualSpan.Days()),
		assume.Note("filter", "How long to follow it", ripening.UsualSpan.Days(), "days", "give the days"))
	in.Until = unit.Days(float64(days))
	return asked
}

// FirstLimits reads what the first stocking is to stay below; nothing where it is not said.
func FirstLimits(req *pb.RipenFilterRequest) ripening.Limits {
	return ripening.Limits{
		TAN: unit.MilligramsPerLitre(req.GetTanLimitMgPerL()), Nitrite: unit.MilligramsPerLitre(req.GetNitriteNLimitMgPerL()),
	}
}

// RipeningRun turns one run into a message.
func RipeningRun(r ripening.Result) *pb.RipeningRun {
	made := &pb.RipeningRun{
		PeakTanMgPerL: r.TAN.Value.MilligramsPerLitre(), PeakTanDay: r.TAN.At.Days(),
		PeakNitriteNMgPerL: r.Nitrite.Value.MilligramsPerLitre(), PeakNitriteNDay: r.Nitrite.At.Days(),
	}
	if r.Ripe {
		day := r.RipeAt.Days()
		made.RipeDay = &day
	}
	return made
}

// RipeningDays turns the days of a run into messages.
func RipeningDays(days []ripening.State, w Water) []*pb.RipeningDay {
	share := filter.UnionisedShare.Eval(filter.UnionisedShareInput{Temperature: w.Temperature, PH: w.PH}).Float()
	made := make([]*pb.RipeningDay, len(days))
	for i, s := range days {
		tan := s.TAN.MilligramsPerLitre()
		made[i] = &pb.RipeningDay{
			Day: int32(i), TanMgPerL: tan, UnionisedMgPerL: share * tan,
			NitriteNMgPerL: s.Nitrite.MilligramsPerLitre(), NitrateNMgPerL: s.Nitrate.MilligramsPerLitre(),
		}
	}
	return made
}

// FirstStocking turns the largest first stocking into a message, beside the last load asked for.
func FirstStocking(first, feed, last unit.MassRate, below ripening.Limits) *pb.FirstStocking {
	made := &pb.FirstStocking{
		TanGPerDay: first.GramsPerDay(), FeedGPerDay: feed.GramsPerDay(),
		TanLimitMgPerL: below.TAN.MilligramsPerLitre(), NitriteNLimitMgPerL: below.Nitrite.MilligramsPerLitre(),
	}
	if last > 0 {
		share := 100 * float64(first/last)
		made.SharePercent = &share
	}
	return made
}

// RipeningRest turns where a run comes to rest into a message.
func RipeningRest(s ripening.Steady) *pb.RipeningRest {
	return &pb.RipeningRest{
		TanMgPerL: s.TAN.MilligramsPerLitre(), NitriteNMgPerL: s.Nitrite.MilligramsPerLitre(), NitrateNMgPerL: s.Nitrate.MilligramsPerLitre(),
	}
}

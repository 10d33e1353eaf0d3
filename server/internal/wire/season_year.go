package wire

import (
	"time"

	"example.com/pondwright/calc/season"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// SeasonDates writes days of a year that was followed as dates.
type SeasonDates struct{ First time.Time }

func (d SeasonDates) day(i int) string { return DateAfter(d.First, i) }

func (d SeasonDates) days(list []int) []string {
	made := make([]string, len(list))
	for i, day := range list {
		made[i] = d.day(day)
	}
	return made
}

func (d SeasonDates) span(s *season.Span) *pb.SeasonSpan {
	if s == nil {
		return nil
	}
	return &pb.SeasonSpan{FirstDay: d.day(s.First), LastDay: d.day(s.Last), Days: int32(s.Days)}
}

// Year turns a year into a message without nights, filters and findings.
func (d SeasonDates) Year(in season.Input, y season.Year) *pb.SimulateYearResponse {
	made := &pb.SimulateYearResponse{
		Water: seasonWater(in, y), Feeding: d.span(y.Feeding), Lamp: d.span(y.Lamp), WinterPlace: d.span(y.WinterPlace), Ice: d.span(y.Ice),
		IceMostCm: y.IceMost.Centimetres(), CleaningDays: d.days(y.Cleanings), WarmestDay: d.day(y.Warmest), ColdestDay: d.day(y.Coldest),
		TopUp: &pb.SeasonTopUp{
			AllowanceMm: in.Allowance.Millimetres(), EachL: y.TopUpEach.Litres(), Days: d.days(y.TopUps), YearL: y.Moves.ToppedUp.Litres(),
			ReserveLPerDay: y.Reserve.LitresPerDay(), ShortestIntervalDays: interval(y.Shortest),
		},
		Energy: seasonEnergy(in, y.Energy),
	}
	for i, m := range y.Months {
		made.Months = append(made.Months, d.month(m, y.Energy.Months[i], y.Energy.Cost != nil))
	}
	return made
}

// interval is a time in days; unset for never.
func interval(t unit.Time) *float64 {
	if t < 0 {
		return nil
	}
	return new(t.Days())
}

func (d SeasonDates) month(m season.Month, use season.MonthUse, priced bool) *pb.SeasonMonth {
	year, _ := time.Parse(time.DateOnly, d.day(m.From))
	made := &pb.SeasonMonth{
		Year: int32(year.Year()), Month: int32(m.Month + 1), DayCount: int32(m.To - m.From), AirC: m.Air.Celsius(), WaterC: m.Water.Celsius(),
		WaterLeastC: m.Least.Celsius(), WaterMostC: m.Most.Celsius(), EvaporationMm: m.Evaporation.Millimetres(), PenmanMm: m.Penman.Millimetres(),
		ByReferenceMm: m.Shallow.Millimetres(), RainMm: m.Rain.Millimetres(), EvaporationL: m.Moves.Evaporation.Litres(), RainL: m.Moves.Rain.Litres(),
		SplashL: m.Moves.Splash.Litres(), LeakL: m.Moves.Leak.Litres(), FlushedL: m.Moves.Flushed.Litres(), OverflowL: m.Moves.Overflow.Litres(),
		ToppedUpL: m.Moves.ToppedUp.Litres(), TopUps: int32(m.TopUps), DryIntervalDays: interval(m.DryInterval), LevelLeastMm: m.LevelLeast.Millimetres(),
		LevelEndMm: m.LevelEnd.Millimetres(), FeedGPerDay: m.Feed.GramsPerDay(), TanGPerDay: m.TAN.GramsPerDay(), FeedingDays: int32(m.FeedingDays),
		Cleanings: int32(m.Cleanings), LampDays: int32(m.LampDays), WinterPlaceDays: int32(m.WinterDays), IceMostCm: m.Ice.Centimetres(),
		EnergyKwh: use.Energy.KilowattHours(), AlgaeDoublingsPerDay: m.AlgaeDoublings,
	}
	if priced {
		made.EnergyCost = new(use.Cost)
	}
	return made
}

// Days turns every day into a message.
func (d SeasonDates) Days(y season.Year) []*pb.SeasonDay {
	made := make([]*pb.SeasonDay, len(y.Days))
	for i, one := range y.Days {
		made[i] = &pb.SeasonDay{
			Day: d.day(i), AirC: one.Sky.Mean.Celsius(), WaterC: one.Mean.Celsius(), WaterLeastC: one.Least.Celsius(), WaterMostC: one.Most.Celsius(),
			EvaporationMm: one.Evaporation.Millimetres(), PenmanMm: one.Sky.Penman.MillimetresPerDay(), RainMm: one.Sky.Day.Rain.Millimetres(),
			LevelMm: one.Level.Millimetres(), ToppedUpL: one.Moves.ToppedUp.Litres(), OverflowL: one.Moves.Overflow.Litres(), FeedG: one.Feed.GramsPerDay(), IceCm: one.Ice.Centimetres(),
		}
	}
	return made
}

func seasonWater(in season.Input, y season.Year) *pb.SeasonWater {
	m := y.Moves
	return &pb.SeasonWater{
		FullL: in.Shape.Full().Litres(), StartL: y.Start.Litres(), EndL: y.End.Litres(), RainL: m.Rain.Litres(), ToppedUpL: m.ToppedUp.Litres(),
		EvaporationL: m.Evaporation.Litres(), SplashL: m.Splash.Litres(), LeakL: m.Leak.Litres(), FlushedL: m.Flushed.Litres(),
		OverflowL: m.Overflow.Litres(), ChangedL: m.Changed.Litres(), Error: y.Error.Float(),
	}
}

func seasonEnergy(in season.Input, e season.Energy) *pb.SeasonEnergy {
	made := &pb.SeasonEnergy{YearKwh: e.Year.KilowattHours(), YearCost: e.Cost}
	for i, l := range e.Loads {
		one := &pb.LoadEnergy{Name: in.Loads[i].Name, Days: int32(l.Days), Kwh: l.Energy.KilowattHours()}
		if e.Cost != nil {
			one.Cost = new(l.Cost)
		}
		made.Loads = append(made.Loads, one)
	}
	for i, t := range e.Tariff {
		made.Tariff = append(made.Tariff, &pb.TariffEnergy{Name: in.Tariff[i].Name, Kwh: t.Energy.KilowattHours(), Cost: t.Cost})
	}
	return made
}

// Night turns a warm night into a message.
func (d SeasonDates) Night(n season.Night) *pb.WarmNight {
	return &pb.WarmNight{
		Day: d.day(n.Day), WaterC: n.Water.Celsius(), NightH: n.Length.Hours(), SaturationMgPerL: n.Oxygen.Saturation.MilligramsPerLitre(),
		DawnMgPerL:        &pb.OxygenSpan{Low: n.Oxygen.Low.MilligramsPerLitre(), High: n.Oxygen.High.MilligramsPerLitre()},
		DawnPumpOffMgPerL: n.Oxygen.PumpOff.MilligramsPerLitre(), DawnPowerOffMgPerL: n.Oxygen.PowerOff.MilligramsPerLitre(),
	}
}

// FilterStart turns a new filter, built on a date of its own, into a message.
func FilterStart(built time.Time, s season.FilterStart) *pb.FilterStart {
	made := &pb.FilterStart{
		BuiltOn: built.Format(time.DateOnly), WaterC: s.Water.Celsius(), Early: RipeningRun(s.Span.Early), Expected: RipeningRun(s.Span.Expected), Late: RipeningRun(s.Span.Late),
		FedDays: int32(s.FedDays), FollowedDays: int32(s.Followed), WakesLate: s.Wakes,
	}
	if s.Span.Expected.Ripe {
		ripe := DateAfter(built, int(s.Span.Expected.RipeAt.Days()))
		made.RipeOn = &ripe
	}
	return made
}

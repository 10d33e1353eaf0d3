package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/solids"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/winter"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Cleaning reads a filter and the year it works through. The head ratio of its stated losses serves where none is asked for.
func Cleaning(req *pb.PlanCleaningRequest, fish []stock.Group, stated unit.Ratio) solids.Input {
	in := solids.Input{
		Medium: media[req.GetFilter().GetMedium()], Volume: unit.Litres(req.GetFilter().GetMediumL()), Clean: unit.Percent(req.GetOpenPercent()),
		HeadRatio: stated, Flush: unit.Litres(req.GetFilter().GetFlushL()), Pond: unit.Litres(req.GetPondVolumeL()),
		Fish: fish, Protein: unit.Percent(req.GetStock().GetProteinPercent()),
	}
	if req.HeadRatio != nil {
		in.HeadRatio = unit.Ratio(req.GetHeadRatio())
	}
	copy(in.Months[:], Temperatures(req.GetWaterTemperaturesC()))
	return in
}

// Temperatures reads temperatures.
func Temperatures(celsius []float64) []unit.Temperature {
	made := make([]unit.Temperature, len(celsius))
	for i, c := range celsius {
		made[i] = unit.Celsius(c)
	}
	return made
}

// Cleanings turns a year of cleaning into a message without findings.
func Cleanings(in solids.Input, y solids.Year) *pb.PlanCleaningResponse {
	made := &pb.PlanCleaningResponse{FlushesPerYear: y.Flushes}
	if in.Flush > 0 {
		made.WaterLPerYear, made.WaterPercentOfPondPerYear = given(y.Water.Litres()), given(y.Share.Percent())
	}
	for i, m := range y.Months {
		month := &pb.CleaningMonth{
			Month: int32(i + 1), WaterTemperatureC: in.Months[i].Celsius(), SolidsGPerDay: m.Solids.GramsPerDay(),
			IntervalDays: &pb.Band{Low: m.Early.Days(), Expected: m.Expected.Days(), High: m.Late.Days()}, Flushes: m.Flushes,
		}
		if in.Flush > 0 {
			month.WaterL, month.WeeklyChangePercent = given(m.Water.Litres()), given(m.WeeklyShare.Percent())
		}
		made.Months = append(made.Months, month)
	}
	return made
}

// Frost reads a pond in a hard frost.
func Frost(req *pb.PlanWinterRequest, kind filter.Stocking) Asked[winter.Input] {
	asked := Asked[winter.Input]{Input: winter.Input{
		Pond: unit.Litres(req.GetPondVolumeL()), Surface: unit.SquareMetres(req.GetSurfaceM2()), Depth: unit.Metres(req.GetDepthM()), Stocking: kind,
		FreezingDays: req.GetFreezingDegreeDays(), DeepPump: req.GetDeepPump(),
		Flow: unit.LitresPerHour(req.GetFlowLPerH()), FallFlow: unit.LitresPerHour(req.GetFallFlowLPerH()),
	}}
	if req.FreezingDegreeDays == nil {
		asked.note(winter.FrostNotGiven())
	}
	asked.Input.Loss = assumed(&asked, optional(req.HeatLossWPerM2, unit.HeatWattsPerSquareMetre), winter.ColdDay,
		assume.Note("pond", "The heat open water loses in frost", winter.ColdDay.WattsPerSquareMetre(), "W/m²", "take 150 for clear frosty nights"))
	return asked
}

// Winter turns what a frost does, and the months of the year, into a message without findings.
func Winter(in winter.Input, f winter.Frost, celsius []float64, months []winter.Month) *pb.PlanWinterResponse {
	wanted, _, _ := winter.RefugePractice(in.Stocking)
	made := &pb.PlanWinterResponse{
		IceCm: f.Ice.Centimetres(), IceMostCm: f.IceMost.Centimetres(), RefugeM: f.Refuge.Metres(), RefugeWantedM: given(wanted.Metres()),
		DeepWaterC: winter.DensestWater.Celsius(), TopColdDays: f.TopCold.Days(), AllColdDays: f.AllCold.Days(),
		FlowLeastLPerH: given(f.FlowLeast.LitresPerHour()), FlowMostLPerH: given(f.FlowMost.LitresPerHour()),
		FallHeatWPerK: given(f.FallHeat.Watts()), FeedingStopsC: stock.FeedingStops.Celsius(),
	}
	for i, m := range months {
		made.Months = append(made.Months, &pb.WinterMonth{
			Month: int32(i + 1), WaterTemperatureC: celsius[i], FeedGPerDay: m.Feed.GramsPerDay(), FilterRatePercent: m.FilterRate.Percent(),
		})
	}
	return made
}

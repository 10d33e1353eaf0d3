package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/balance"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Asked is the input of a calculation with what was assumed in it.
type Asked[Input any] struct {
	Input    Input
	Findings []finding.Finding
}

func (a *Asked[Input]) note(found ...finding.Finding) { a.Findings = append(a.Findings, found...) }

// FilterMargin reads what a filter is to carry above its load, said or assumed.
func FilterMargin(said *float64) (unit.Ratio, []finding.Finding) {
	return assume.Value(optional(said, unit.Percent), assume.FilterMargin,
		assume.Note("filter", "What the filter is to carry above its load", assume.FilterMargin.Percent(), "%", "say how much larger it is to be"))
}

// dissolvedOxygen reads the oxygen of the water, said or assumed.
func dissolvedOxygen(n noter, said *float64) unit.Concentration {
	return assumed(n, optional(said, unit.MilligramsPerLitre), ripening.UsualOxygen,
		assume.Note("water", "The oxygen of the water", ripening.UsualOxygen.MilligramsPerLitre(), "mg/L", "measure it at dawn"))
}

// weeklyChange reads the share of water changed each week, said or assumed.
func weeklyChange(n noter, said *float64) unit.Ratio {
	return assumed(n, optional(said, unit.Percent), balance.UsualWeeklyChange,
		assume.Note("water", "How much water is changed each week", balance.UsualWeeklyChange.Percent(), "%", "say how much, 0 for none"))
}

// tapNitrogen reads ammonia and nitrate of new water, said or assumed.
func tapNitrogen(n noter, m *pb.TapWater) (tan, nitrate unit.Concentration) {
	if m == nil {
		m = &pb.TapWater{}
	}
	const change = "look up the supplier's analysis"
	tan = assumed(n, optional(m.TanMgPerL, unit.MilligramsPerLitre), 0, assume.Note("tap water", "The ammonia of the tap water", 0, "mg/L", change))
	nitrate = assumed(n, optional(m.NitrateNMgPerL, unit.MilligramsPerLitre), 0, assume.Note("tap water", "The nitrate of the tap water", 0, "mg/L", change))
	return tan, nitrate
}

// MediaRate turns the rate of a kind of media, as an assessment used it, into a message.
func MediaRate(r filter.Rate, a filter.Assessment) *pb.MediaRate {
	return &pb.MediaRate{
		Medium:                     r.Name,
		ArealLowGPerM2PerDay:       given(r.ArealLow.GramsPerSquareMetreDay()),
		ArealHighGPerM2PerDay:      given(r.ArealHigh.GramsPerSquareMetreDay()),
		VolumetricLowGPerM3PerDay:  given(r.VolumetricLow.GramsPerCubicMetreDay()),
		VolumetricHighGPerM3PerDay: given(r.VolumetricHigh.GramsPerCubicMetreDay()),
		SurfaceLowM2PerM3:          r.SurfaceLow.SquareMetresPerCubicMetre(), SurfaceHighM2PerM3: r.SurfaceHigh.SquareMetresPerCubicMetre(),
		TemperatureC: r.Temperature.Celsius(), TanMgPerL: r.TAN.MilligramsPerLitre(),
		TemperatureFactor: a.TemperatureFactor.Float(), AmmoniaFactor: a.AmmoniaFactor.Float(), Source: Source(r.Source),
	}
}

// FilterClaims turns what stands beside a filter's capacity into a message.
func FilterClaims(b filter.Beside) *pb.FilterClaims {
	made := &pb.FilterClaims{
		CleanHeadM: given(b.CleanHead.Metres()), DueHeadM: given(b.DueHead.Metres()),
		TurnoverPerH: given(b.Turnover.PerHour()), TurnoverLeastPerH: given(b.TurnoverLeast.PerHour()), TurnoverMostPerH: given(b.TurnoverMost.PerHour()),
	}
	for _, r := range b.Label {
		made.Label = append(made.Label, &pb.LabelRule{
			Stocking: r.Stocking.String(), SharePercent: r.Share.Percent(), SuitsL: r.Suits.Litres(), CarriesThisPond: r.Carries, Source: Source(r.Source),
		})
	}
	return made
}

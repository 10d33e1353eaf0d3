package wire

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// LitUnit reads a lamp unit and its state, in water of a known transmittance. Where the life used is not said, it is that
// given.
func LitUnit(l *eq.LampUnit, m *pb.LampCondition, transmittance, otherwise unit.Ratio) (uv.Unit, uv.Condition) {
	u := LampUnit(l)
	u.BallastLoss = unit.Percent(m.GetBallastLossPercent())
	c := uv.Condition{
		Transmittance: transmittance, Age: otherwise, Sleeve: unit.Percent(m.GetSleeveTransmittancePercent()),
		Film: unit.Percent(m.GetFilmTransmittancePercent()), EndOfLife: unit.Percent(m.GetEndOfLifeOutputPercent()),
	}
	if m != nil && m.UsedLifePercent != nil {
		c.Age = unit.Percent(m.GetUsedLifePercent())
	}
	return u, c
}

// LampDose turns a dose into a message.
func LampDose(d uv.Dose) *pb.LampDose {
	return &pb.LampDose{
		Output_254NmW: d.Output.Watts(), FluenceRateMwPerCm2: d.FluenceRate.MilliwattsPerSquareCentimetre(),
		ResidenceS: d.Residence.Seconds(), PassMeanMjPerCm2: d.Mean.MillijoulesPerSquareCentimetre(),
		PassLeastMjPerCm2: d.Fastest.MillijoulesPerSquareCentimetre(), DailyMjPerCm2: d.Daily.MillijoulesPerSquareCentimetre(),
		PassesPerDay: d.PassesPerDay.Float(), Light: LampLight(d.Light), PowerWPerM3: given(d.PowerPerVolume.WattsPerCubicMetre()),
	}
}

// LampLight turns the light on its way into the water into a message.
func LampLight(l uv.Light) *pb.LampLight {
	return &pb.LampLight{
		NewW: l.New.Watts(), AgedW: l.Aged.Watts(), PastSleeveW: l.InSleeve.Watts(), IntoWaterW: l.IntoWater.Watts(),
	}
}

// FullSun reads how much sun a pond gets; left open it is full sun, and a finding says so.
func FullSun(l pb.PondLight) (bool, []finding.Finding) {
	if l != pb.PondLight_POND_LIGHT_UNSPECIFIED {
		return l == pb.PondLight_POND_LIGHT_FULL_SUN, nil
	}
	return true, []finding.Finding{sunAssumed}
}

// LampRules turns rules of the trade into messages.
func LampRules(rules []uv.Rule) []*pb.LampRule {
	made := make([]*pb.LampRule, len(rules))
	for i, r := range rules {
		made[i] = &pb.LampRule{
			Name: r.Name, Basis: r.Basis, Value: quantity(r.Value), Low: quantity(r.Low), High: quantity(r.High), Source: Source(r.Source),
		}
	}
	return made
}

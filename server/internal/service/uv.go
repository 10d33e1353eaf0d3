package service

import (
	"context"
	"slices"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

type uvLight struct {
	pb.UnimplementedUvServiceServer
	engine *Engine
}

const newLamp, spentLamp = unit.Ratio(0), unit.Ratio(1) // share of the rated life used

func (s uvLight) CalculateDose(_ context.Context, req *pb.CalculateDoseRequest) (*pb.CalculateDoseResponse, error) {
	t := trail(req.GetWorkings())
	w := wire.LitWater(req.GetWater())
	daily, found := lampRuns(req.HoursPerDay, w.Findings)
	sun, assumed := wire.FullSun(req.GetRules().GetLight())
	doses, err := dosesByAge(t, req, w.Transmittance, daily)
	if err != nil {
		return nil, refused(err, "")
	}
	found = slices.Concat(found, assumed, aboveLamp(req), doses[1].Findings, uv.CautionsFor(t, wire.LampUnit(req.GetLampUnit())))
	suppression, _ := uv.SuppressionDaily()
	p, err := s.engine.provenance(req, nil)
	resp := &pb.CalculateDoseResponse{
		NewLamp: wire.LampDose(doses[0]), AgedLamp: wire.LampDose(doses[1]),
		SuppressionMjPerCm2PerDay: suppression.MillijoulesPerSquareCentimetre(),
		Rules:                     lampRules(req, daily, sun, req.GetRules().GetKoi()),
		Findings:                  wire.Findings(found), Workings: wire.Workings(t), Provenance: p,
	}
	if len(doses) > 2 {
		resp.LampToday = wire.LampDose(doses[2])
	}
	return resp, err
}

// dosesByAge works out the dose with new lamps, with lamps at the end of their life and, where it is known, today.
func dosesByAge(t *working.Trail, req *pb.CalculateDoseRequest, transmittance unit.Ratio, daily unit.Time) ([]uv.Dose, error) {
	u, c := wire.LitUnit(req.GetLampUnit(), req.GetCondition(), transmittance, newLamp)
	ages := []unit.Ratio{newLamp, spentLamp}
	if req.GetCondition() != nil && req.GetCondition().UsedLifePercent != nil {
		ages = append(ages, c.Age)
	}
	doses := make([]uv.Dose, len(ages))
	for i, age := range ages {
		t.About([]string{"new lamps", "lamps at the end of their life", "lamps today"}[i])
		c.Age = age
		dose, err := uv.DoseAt(t, uv.DoseInput{
			Unit: u, Condition: c, Flow: unit.LitresPerHour(req.GetFlowLPerH()),
			PondVolume: unit.Litres(req.GetPondVolumeL()), HoursPerDay: daily,
		})
		if err != nil {
			return nil, err
		}
		doses[i] = dose
	}
	return doses, nil
}

// aboveLamp says where more water runs than the unit is made for.
func aboveLamp(req interface {
	GetFlowLPerH() float64
	lampRequest
}) []finding.Finding {
	return uv.AboveMade(unit.LitresPerHour(req.GetFlowLPerH()), unit.LitresPerHour(req.GetLampUnit().GetMaxFlowLPerH()))
}

// lampRuns reads how long a unit runs a day, or assumes and notes it.
func lampRuns(hours *float64, found []finding.Finding) (unit.Time, []finding.Finding) {
	if hours != nil {
		return unit.Hours(*hours), found
	}
	note := assume.Note("lamp unit", "How long it runs a day", assume.RunsDaily.Hours(), "h", "say so, if it is switched off")
	return assume.RunsDaily, append(found, note)
}

// A lampOnPond is a question about a unit on a pond.
type lampOnPond interface {
	GetFlowLPerH() float64
	GetPondVolumeL() float64
	lampRequest
}

func lampRules(req lampOnPond, daily unit.Time, sun, koi bool) []*pb.LampRule {
	return wire.LampRules(uv.Rules(uv.RulesInput{
		WallPower: unit.Watts(req.GetLampUnit().GetPowerW()), Flow: unit.LitresPerHour(req.GetFlowLPerH()),
		Volume: unit.Litres(req.GetPondVolumeL()), HoursPerDay: daily, Practice: uv.PracticeInput{Koi: koi, FullSun: sun},
	}))
}

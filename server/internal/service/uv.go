package service

import (
	"context"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

type uvLight struct {
	pb.UnimplementedUvServiceServer
	engine *Engine
}

func (s uvLight) CalculateDose(_ context.Context, req *pb.CalculateDoseRequest) (*pb.CalculateDoseResponse, error) {
	w := wire.LitWater(req.GetWater())
	found := w.Findings
	daily := assume.RunsDaily
	if req.HoursPerDay != nil {
		daily = unit.Hours(req.GetHoursPerDay())
	} else {
		found = append(found, assume.Note("lamp unit", "How long it runs a day", daily.Hours(), "h", "say so, if it is switched off"))
	}
	t := trail(req.GetWorkings())
	doses := make([]uv.Dose, 2)
	for age := range doses {
		t.About([]string{"new lamps", "lamps at the end of their life"}[age])
		dose, err := uv.DoseAt(t, uv.DoseInput{
			Unit: wire.LampUnit(req.GetLampUnit()), Condition: uv.Condition{Transmittance: w.Transmittance, Age: unit.Ratio(age)},
			Flow: unit.LitresPerHour(req.GetFlowLPerH()), PondVolume: unit.Litres(req.GetPondVolumeL()), HoursPerDay: daily,
		})
		if err != nil {
			return nil, refused(err, "lamp_unit")
		}
		doses[age] = dose
	}
	suppression, _ := uv.SuppressionDaily()
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateDoseResponse{
		NewLamp: wire.LampDose(doses[0]), AgedLamp: wire.LampDose(doses[1]),
		SuppressionMjPerCm2PerDay: suppression.MillijoulesPerSquareCentimetre(),
		Findings:                  wire.Findings(append(append(found, doses[1].Findings...), uv.Cautions()...)),
		Workings:                  wire.Workings(t), Provenance: p,
	}, err
}

package service

import (
	"context"
	"slices"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/uv/kill"
	"example.com/pondwright/calc/uv/mixing"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s uvLight) ListDoseResponses(_ context.Context, req *pb.ListDoseResponsesRequest) (*pb.ListDoseResponsesResponse, error) {
	minimum, from := kill.DrinkingWaterMinimum()
	p, err := s.engine.provenance(req, nil)
	return &pb.ListDoseResponsesResponse{
		Responses:                    wire.DoseResponses(kill.Responses(), req.GetGroup()),
		DrinkingWater:                wire.DrinkingWaterDoses(kill.DrinkingWaterDoses()),
		DrinkingWaterMinimumMjPerCm2: minimum.MillijoulesPerSquareCentimetre(), DrinkingWaterMinimumSource: wire.Source(from),
		Provenance: p,
	}, err
}

func (s uvLight) CalculateInactivation(_ context.Context, req *pb.CalculateInactivationRequest) (*pb.CalculateInactivationResponse, error) {
	t := trail(req.GetWorkings())
	w := wire.LitWater(req.GetWater())
	responses, err := uv.Published(req.GetOrganisms())
	if err != nil {
		return nil, refused(err, "")
	}
	u, f, err := lampField(t, req, w.Transmittance, spentLamp)
	if err != nil {
		return nil, refused(err, "")
	}
	tanks, noted := mixedTanks(req.Tanks)
	effects, found, err := uv.Inactivate(t, uv.InactivationInput{
		Field: f, Flow: unit.LitresPerHour(req.GetFlowLPerH()), Tanks: tanks, Responses: responses,
		D10: unit.MillijoulesPerSquareCentimetre(req.GetD10MjPerCm2()),
	})
	if err != nil {
		return nil, refused(err, "")
	}
	mean := effects[0].Pass.Plug
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateInactivationResponse{
		Light: wire.LampLight(f.Light), PassMeanMjPerCm2: mean.MillijoulesPerSquareCentimetre(), Organisms: wire.Inactivations(effects),
		DrinkingWater: wire.DrinkingWaterCredits(mean), Findings: wire.Findings(slices.Concat(w.Findings, noted, found, aboveLamp(req), f.Findings, uv.CautionsFor(nil, u))),
		Workings: wire.Workings(t), Provenance: p,
	}, err
}

func mixedTanks(said *int32) (int, []finding.Finding) {
	if said != nil {
		return int(*said), nil
	}
	note := assume.Note("lamp unit", "How its chamber mixes", mixing.UsualTanks, "mixed tanks in series", "have its residence times measured")
	note.Source = source.TanksInSeries
	return mixing.UsualTanks, []finding.Finding{note}
}

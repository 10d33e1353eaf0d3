package service

import (
	"context"
	"slices"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s uvLight) PlanLampSeason(_ context.Context, req *pb.PlanLampSeasonRequest) (*pb.PlanLampSeasonResponse, error) {
	t := trail(req.GetWorkings())
	first, length, err := wire.LampSeason(req)
	if err != nil {
		return nil, refused(err, "")
	}
	daily, found := lampRuns(req.HoursPerDay, nil)
	u, c := wire.LitUnit(req.GetLampUnit(), req.GetCondition(), 1, newLamp)
	season, err := uv.PlanSeason(t, uv.SeasonInput{
		Unit: u, Condition: c, Life: unit.Hours(req.GetLampUnit().GetLifeH()), Days: length, HoursPerDay: daily,
		LampPrice: req.GetLampUnit().LampPrice, EnergyPrice: req.EnergyPricePerKwh,
	})
	if err != nil {
		return nil, refused(err, "")
	}
	resp := wire.PlanLampSeason(first, length, season)
	resp.Findings = wire.Findings(slices.Concat(season.Findings, found, uv.CautionsFor(nil, u)))
	resp.Workings = wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

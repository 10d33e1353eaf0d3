package service

import (
	"context"
	"slices"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/greenwater"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s uvLight) ForecastClearing(_ context.Context, req *pb.ForecastClearingRequest) (*pb.ForecastClearingResponse, error) {
	t := trail(req.GetWorkings())
	in, found, err := greenPond(t, req)
	if err != nil {
		return nil, refused(err, "")
	}
	f, err := greenwater.ForecastClearing(t, in)
	if err != nil {
		return nil, refused(err, "water") // the rest has been checked
	}
	outlooks, err := greenwater.Outlooks(in)
	if err != nil {
		return nil, refused(err, "water")
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.ForecastClearingResponse{
		Verdict: wire.ClearingVerdict(f.Verdict), ByTurnover: wire.TurnoverRoad(f, unit.Watts(req.GetLampUnit().GetPowerW())),
		ByDailyDose: wire.DailyDoseRoad(f), Outlooks: wire.ClearingOutlooks(outlooks),
		Rules:    lampRules(req, in.HoursPerDay, in.FullSun, req.GetKoi()),
		Findings: wire.Findings(slices.Concat(f.Findings, found)), Workings: wire.Workings(t), Provenance: p,
	}, err
}

// greenPond puts the pond, its water and the dose of one pass together, and says what was assumed.
func greenPond(t *working.Trail, req *pb.ForecastClearingRequest) (greenwater.ForecastInput, []finding.Finding, error) {
	w := wire.GreenWater(req.GetWater())
	daily, found := lampRuns(req.HoursPerDay, w.Findings)
	sun, assumedSun := wire.FullSun(req.GetLight())
	ratio, assumedRatio := assume.Value(req.ClearingRatio, 10,
		assume.Note("green water", "How many times the algae are to fall", 10, "", "say how green it is: 10 from soup to a floor one can see"))
	u, f, err := lampField(t, req, w.Transmittance, spentLamp)
	if err != nil {
		return greenwater.ForecastInput{}, nil, err
	}
	flow, volume := unit.LitresPerHour(req.GetFlowLPerH()), unit.Litres(req.GetPondVolumeL())
	dose, err := uv.DoseFrom(t, f, flow, volume, daily)
	return greenwater.ForecastInput{
		MeanDose: dose.Mean, PeakVelocity: f.PeakVelocity, Flow: flow, HoursPerDay: daily, Volume: volume,
		Temperature: w.Temperature, FullSun: sun, Ratio: unit.Ratio(ratio),
	}, slices.Concat(found, assumedSun, assumedRatio, aboveLamp(req), dose.Findings, uv.CautionsFor(nil, u)), err
}

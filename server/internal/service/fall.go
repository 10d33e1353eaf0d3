package service

import (
	"context"
	"fmt"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/fall"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/stream"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

type falls struct {
	pb.UnimplementedFallServiceServer
	engine *Engine
}

func (s falls) CalculateCascade(_ context.Context, req *pb.CalculateCascadeRequest) (*pb.CalculateCascadeResponse, error) {
	t := trail(req.GetWorkings())
	landings, found, err := fall.Cascade(t, unit.LitresPerHour(req.GetFlowLPerH()), wire.CascadeSteps(req.GetSteps()))
	if err != nil {
		return nil, refused(err, "")
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateCascadeResponse{
		Landings: wire.StepLandings(landings), Findings: wire.Findings(found), Workings: wire.Workings(t), Provenance: p,
	}, err
}

func (s falls) ListBeds(context.Context, *pb.ListBedsRequest) (*pb.ListBedsResponse, error) {
	return &pb.ListBedsResponse{Beds: wire.StreamBeds(stream.Beds())}, nil
}

func (s falls) CalculateStream(_ context.Context, req *pb.CalculateStreamRequest) (*pb.CalculateStreamResponse, error) {
	t := trail(req.GetWorkings())
	resp := &pb.CalculateStreamResponse{}
	var errs input.Errors
	var found []finding.Finding
	for i, r := range req.GetReaches() {
		path := fmt.Sprintf("reaches[%d]", i)
		t.About(fmt.Sprintf("reach %d", i+1))
		reach, err := wire.StreamReach(r)
		if err != nil {
			errs.AddUnder(path, err)
			continue
		}
		running, remarks, err := reach.Run(t, unit.LitresPerHour(req.GetFlowLPerH()))
		if err != nil && !errs.AddUnder(path, err) {
			return nil, err
		}
		for _, f := range remarks {
			f.Subject = fmt.Sprintf("reach %d", i+1)
			found = append(found, f)
		}
		resp.Reaches = append(resp.Reaches, wire.RunningReach(running))
		resp.HeldL += running.Held.Usual.Litres()
	}
	if err := errs.Err(); err != nil {
		return nil, refused(err, "")
	}
	var err error
	resp.Findings, resp.Workings = wire.Findings(found), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

func (s falls) CalculateGravityPipe(_ context.Context, req *pb.CalculateGravityPipeRequest) (*pb.CalculateGravityPipeResponse, error) {
	t := trail(req.GetWorkings())
	temperature, found := assume.Value(wire.Celsius(req.WaterTemperatureC), assume.CircuitTemperature,
		assume.Note("water", "The temperature of the water", assume.CircuitTemperature.Celsius(), "°C", "give it, if it matters"))
	roughness, rough := assume.Value(wire.Millimetres(req.RoughnessMm), assume.PipeRoughness,
		assume.Note("pipe", "The roughness of the pipe", assume.PipeRoughness.Millimetres(), "mm", "give it for old or slimy pipe: 0.06 to 0.6 mm"))
	pipe := stream.GravityPipe{Bore: unit.Millimetres(req.GetBoreMm()), Slope: unit.Ratio(req.GetSlope()), Roughness: roughness}
	w := water.At(t, temperature)
	running, remarks, err := pipe.Run(t, unit.LitresPerHour(req.GetFlowLPerH()), w)
	if err != nil {
		return nil, refused(err, "")
	}
	found = append(append(found, rough...), remarks...)
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateGravityPipeResponse{
		DepthMm: wire.Given(running.Depth.Millimetres()), FillingPercent: wire.Given(running.Filling.Percent()),
		VelocityMPerS: wire.Given(running.Velocity.MetresPerSecond()), MostLPerH: pipe.Most(w).LitresPerHour(),
		Findings: wire.Findings(found), Workings: wire.Workings(t), Provenance: p,
	}, err
}

func (s falls) BudgetLevels(_ context.Context, req *pb.BudgetLevelsRequest) (*pb.BudgetLevelsResponse, error) {
	t := trail(req.GetWorkings())
	bays, err := wire.LevelBays(t, req.GetBays())
	if err != nil {
		return nil, refused(err, "")
	}
	t.About("levels")
	resp := &pb.BudgetLevelsResponse{}
	var found []finding.Finding
	if off := hoseOff(req.GetEvents()); off != nil {
		found, err = budgetHoseOff(resp, req, bays, off, t)
	} else {
		resp.Levels, found, err = budgetEvents(t, bays, req.GetEvents())
	}
	if err != nil {
		return nil, refused(err, "")
	}
	resp.Findings, resp.Workings = wire.Findings(found), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

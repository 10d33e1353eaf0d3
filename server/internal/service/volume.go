package service

import (
	"context"

	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

type volume struct {
	pb.UnimplementedVolumeServiceServer
	engine *Engine
}

func (s volume) CalculateVolume(ctx context.Context, req *pb.CalculateVolumeRequest) (*pb.CalculateVolumeResponse, error) {
	t := trail(req.GetWorkings())
	pond, err := wire.MeasurePondUntil(stopper(ctx), t, req.GetPond())
	if err != nil {
		return nil, stopped(ctx, refused(err, "pond"))
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateVolumeResponse{
		Measures: pond.Measures, Findings: wire.Findings(pond.Findings), Workings: wire.Workings(t), Provenance: p,
	}, err
}

func (s volume) CalculateLevels(ctx context.Context, req *pb.CalculateLevelsRequest) (*pb.CalculateLevelsResponse, error) {
	t := trail(req.GetWorkings())
	pond, err := wire.MeasurePondUntil(stopper(ctx), t, req.GetPond())
	if err != nil {
		return nil, stopped(ctx, refused(err, "pond"))
	}
	water := pond.Joined
	resp := &pb.CalculateLevelsResponse{
		Levels: wire.Levels(levels(t, water, wire.Lengths(req.GetFallenM()))), Drops: wire.Drops(water, req.GetLostL()),
		Refuges: wire.Refuges(levels(t, water, wire.Lengths(req.GetRefugeM()))),
		SpareL:  wire.Spare(t, pond, req.FreeboardM), VolumeL: water.Volume().Litres(),
		MeanDepthM: pond.Measures.GetMeanDepthM(), VolumeErrorPercent: pond.Error().Percent(),
	}
	if len(req.GetFallenM()) == 0 {
		resp.Levels = wire.Levels(levels(t, water, steps(water.Depth())))
	}
	if req.GetPond().SaddleDepthM != nil {
		resp.Draws = wire.Draws(pond)
	}
	topUp, found := wire.TopUp(water)
	resp.TopUp, resp.Findings = topUp, wire.Findings(append(pond.Findings, found))
	resp.Workings = wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

// levels works out the pond at each level.
func levels(t *working.Trail, water outline.Joined, fallen []unit.Length) []outline.Level {
	made := make([]outline.Level, len(fallen))
	for i, f := range fallen {
		made[i] = water.Level(t, f)
	}
	return made
}

// steps are the levels of the usual table.
func steps(depth unit.Length) []unit.Length {
	const equal = 20
	made := make([]unit.Length, equal+1)
	for i := range made {
		made[i] = depth * unit.Length(i) / equal
	}
	return made
}

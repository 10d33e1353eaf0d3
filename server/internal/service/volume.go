package service

import (
	"context"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

type volume struct {
	pb.UnimplementedVolumeServiceServer
	engine *Engine
}

func (s volume) CalculateVolume(_ context.Context, req *pb.CalculateVolumeRequest) (*pb.CalculateVolumeResponse, error) {
	t := trail(req.GetWorkings())
	pond, err := wire.MeasurePond(t, req.GetPond())
	if err != nil {
		return nil, refused(err, "pond")
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateVolumeResponse{
		Measures: pond.Measures, Findings: wire.Findings(pond.Findings), Workings: wire.Workings(t), Provenance: p,
	}, err
}

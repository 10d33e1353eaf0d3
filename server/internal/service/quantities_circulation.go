package service

import (
	"context"

	"example.com/pondwright/calc/circulation"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s volume) CheckCirculation(ctx context.Context, req *pb.CheckCirculationRequest) (*pb.CheckCirculationResponse, error) {
	t := trail(req.GetWorkings())
	bay, m, err := wire.MeasureBay(nil, req.GetBay())
	if err != nil {
		return nil, refused(err, "bay")
	}
	positions := wire.Positions(req.GetPositions())
	checked, err := circulation.CheckUntil(stopper(ctx), t, bay, positions)
	if err != nil {
		return nil, stopped(ctx, refused(err, ""))
	}
	found := m.Findings
	resp := &pb.CheckCirculationResponse{LengthM: checked.Length.Metres(), MeanWidthM: checked.MeanWidth.Metres()}
	for i, c := range checked.Courses {
		resp.Courses = append(resp.Courses, wire.Course(positions[i].Name, c))
		found = append(found, c.Findings...)
	}
	resp.Findings, resp.Workings = wire.Findings(found), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

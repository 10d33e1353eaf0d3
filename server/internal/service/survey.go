package service

import (
	"context"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s volume) SurveyOutline(_ context.Context, req *pb.SurveyOutlineRequest) (*pb.SurveyOutlineResponse, error) {
	t := trail(req.GetWorkings())
	drawn, plan, err := wire.MeasureOutline(t, req)
	if err != nil {
		return nil, refused(err, "")
	}
	length, width := outline.Sides(drawn.Plan)
	resp := &pb.SurveyOutlineResponse{
		Points: wire.Points(outline.Edge(drawn.Plan).Points), AreaM2: plan.Area.SquareMetres(), PerimeterM: plan.Perimeter.Metres(),
		LengthM: length.Metres(), WidthM: width.Metres(), Findings: wire.Findings(drawn.Findings), Workings: wire.Workings(t),
	}
	if drawn.Bent != nil {
		resp.AreaBySimpsonM2 = new(drawn.Bent.SquareMetres())
	}
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

func (s volume) EstimateVolume(ctx context.Context, req *pb.EstimateVolumeRequest) (*pb.EstimateVolumeResponse, error) {
	t := trail(req.GetWorkings())
	var notes wire.Notes
	var errs input.Errors
	drawn, err := wire.Drawn(stopper(ctx), t, req, &notes)
	if err != nil && !errs.AddUnder("drawn", err) {
		return nil, stopped(ctx, err)
	}
	t.About("pond")
	estimates, err := wire.Estimates(t, req, &notes)
	if err != nil && !errs.AddUnder("", err) {
		return nil, err
	}
	if err := errs.Err(); err != nil {
		return nil, refused(err, "")
	}
	resp := &pb.EstimateVolumeResponse{}
	if resp.Estimates, err = wire.Compared(estimates, drawn, &notes); err != nil {
		return nil, refused(err, "")
	}
	if drawn != nil {
		resp.DrawnL = wire.VolumeBand(*drawn)
	}
	resp.Findings, resp.Workings = wire.Findings(notes.Findings), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

package service

import (
	"context"

	"example.com/pondwright/calc/circulation"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/stone"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s volume) PlanStone(_ context.Context, req *pb.PlanStoneRequest) (*pb.PlanStoneResponse, error) {
	t := trail(req.GetWorkings())
	var notes wire.Notes
	var errs input.Errors
	resp := &pb.PlanStoneResponse{}
	if req.GetEdging() != nil {
		edge, err := wire.EdgeLength(t, req, &notes)
		errs.AddUnder("pond", err)
		t.About("edging")
		laid, err := stone.Lay(t, notes.Edging(req.GetEdging(), edge))
		if len(errs) == 0 {
			errs.AddUnder("edging", err)
		}
		notes.Add(laid.Findings...)
		resp.Edging = wire.Laid(edge, laid)
	}
	resp.Beds = wire.StoneBeds(t, req.GetBeds(), &notes)
	if req.GetFall() != nil {
		t.About("fall")
		built, err := stone.Build(t, notes.FallStone(req.GetFall()))
		errs.AddUnder("fall", err)
		notes.Add(built.Findings...)
		resp.Fall = wire.BuiltFall(built)
	}
	if err := errs.Err(); err != nil {
		return nil, refused(err, "")
	}
	resp.TotalMassT = wire.StoneTonnes(resp)
	resp.Findings, resp.Workings = wire.Findings(notes.Findings), wire.Workings(t)
	var err error
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

func (s volume) CheckCirculation(_ context.Context, req *pb.CheckCirculationRequest) (*pb.CheckCirculationResponse, error) {
	t := trail(req.GetWorkings())
	bay, m, err := wire.MeasureBay(nil, req.GetBay())
	if err != nil {
		return nil, refused(err, "bay")
	}
	positions := wire.Positions(req.GetPositions())
	checked, err := circulation.Check(t, bay, positions)
	if err != nil {
		return nil, refused(err, "")
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

// share is a part of a volume.
func share(v unit.Volume, part unit.Ratio) unit.Volume { return v * unit.Volume(part) }

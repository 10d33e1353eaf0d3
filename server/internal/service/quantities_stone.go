package service

import (
	"context"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/stone"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s volume) PlanStone(ctx context.Context, req *pb.PlanStoneRequest) (*pb.PlanStoneResponse, error) {
	p := stonePlan{trail: trail(req.GetWorkings()), req: req, resp: &pb.PlanStoneResponse{}}
	p.edging(ctx)
	p.resp.Beds = wire.StoneBeds(p.trail, req.GetBeds(), &p.notes)
	p.fall()
	if err := gone(ctx); err != nil {
		return nil, err
	}
	if err := p.errs.Err(); err != nil {
		return nil, refused(err, "")
	}
	p.resp.TotalMassT = wire.StoneTonnes(p.resp)
	p.resp.Findings, p.resp.Workings = wire.Findings(p.notes.Findings), wire.Workings(p.trail)
	var err error
	p.resp.Provenance, err = s.engine.provenance(req, nil)
	return p.resp, err
}

// A stonePlan is stone on its way to an answer.
type stonePlan struct {
	trail *working.Trail
	notes wire.Notes
	errs  input.Errors
	req   *pb.PlanStoneRequest
	resp  *pb.PlanStoneResponse
}

// edging lays a course of stone round the pond.
func (p *stonePlan) edging(ctx context.Context) {
	if p.req.GetEdging() == nil {
		return
	}
	edge, err := wire.EdgeLength(stopper(ctx), p.trail, p.req, &p.notes)
	if err != nil {
		p.errs.AddUnder("pond", err)
		return
	}
	p.trail.About("edging")
	laid, err := stone.Lay(p.trail, p.notes.Edging(p.req.GetEdging(), edge))
	p.errs.AddUnder("edging", err)
	p.notes.Add(laid.Findings...)
	p.resp.Edging = wire.Laid(edge, laid)
}

// fall builds the stone of a fall.
func (p *stonePlan) fall() {
	if p.req.GetFall() == nil {
		return
	}
	p.trail.About("fall")
	built, err := stone.Build(p.trail, p.notes.FallStone(p.req.GetFall()))
	p.errs.AddUnder("fall", err)
	p.notes.Add(built.Findings...)
	p.resp.Fall = wire.BuiltFall(built)
}

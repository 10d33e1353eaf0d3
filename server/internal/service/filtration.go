package service

import (
	"context"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

type filtration struct {
	pb.UnimplementedFiltrationServiceServer
	engine *Engine
}

func (s filtration) CalculateFishLoad(_ context.Context, req *pb.CalculateFishLoadRequest) (*pb.CalculateFishLoadResponse, error) {
	t := trail(req.GetWorkings())
	w := wire.FishWater(req.GetWater())
	groups := wire.Groups(req.GetStock())
	now, grown, found, err := stock.Loads(t, groups, wire.Feeding(req.GetStock(), w))
	if err != nil {
		return nil, refused(err, "stock")
	}
	rules := stock.Rules(unit.SquareMetres(req.GetSurfaceM2()), unit.Litres(req.GetVolumeL()), groups)
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateFishLoadResponse{
		Now: wire.FishLoad(now), Grown: wire.FishLoad(grown), Rules: wire.StockingRules(rules),
		Findings: wire.Findings(append(w.Findings, found...)), Workings: wire.Workings(t), Provenance: p,
	}, err
}

func (s filtration) AssessFilter(_ context.Context, req *pb.AssessFilterRequest) (*pb.AssessFilterResponse, error) {
	t := trail(req.GetWorkings())
	w := wire.FishWater(req.GetWater())
	_, grown, found, err := stock.Loads(t, wire.Groups(req.GetStock()), wire.Feeding(req.GetStock(), w))
	if err != nil {
		return nil, refused(err, "stock")
	}
	found = append(w.Findings, found...)
	margin := assume.FilterMargin
	if req.MarginPercent != nil {
		margin = unit.Percent(req.GetMarginPercent())
	} else {
		found = append(found, assume.Note("filter", "What the filter is to carry above its load", margin.Percent(), "%", "say how much larger it is to be"))
	}
	a, err := filter.Assess(t, filter.AssessInput{
		Filter: wire.Medium(req.GetFilter()), Load: grown.TAN, Temperature: w.Temperature, PH: w.PH,
		Flow: unit.LitresPerHour(req.GetFlowLPerH()), Margin: margin,
	})
	if err != nil {
		return nil, refused(err, "filter")
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.AssessFilterResponse{
		Grown: wire.FishLoad(grown), Verdict: wire.FilterVerdict(a),
		Findings: wire.Findings(append(found, a.Findings...)), Workings: wire.Workings(t), Provenance: p,
	}, err
}

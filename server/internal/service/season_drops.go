package service

import (
	"context"
	"fmt"
	"slices"

	"example.com/pondwright/calc/drawdown"
	"example.com/pondwright/calc/input"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/climates"
	"example.com/pondwright/server/internal/wire"
)

func (s seasons) ExplainLevelDrops(ctx context.Context, req *pb.ExplainLevelDropsRequest) (*pb.ExplainLevelDropsResponse, error) {
	t := trail(req.GetWorkings())
	built, err := climates.Read()
	if err != nil {
		return nil, fmt.Errorf("built-in climates: %w", err)
	}
	var errs input.Errors
	first, err := wire.Date("first_day", usualFirst)
	if err != nil {
		return nil, err
	}
	weather, err := wire.ReadClimate(req.GetClimate(), built, first)
	errs.AddUnder("climate", err)
	shape, found, err := wire.SeasonShape(stopper(ctx), t, req.GetPond())
	if err != nil && !errs.AddUnder("pond", err) {
		return nil, stopped(ctx, err)
	}
	if len(errs) > 0 {
		return nil, refused(errs, "")
	}
	asked, err := wire.LevelDrops(t, req, weather, shape.Surface())
	if err != nil {
		return nil, refused(err, "")
	}
	answer, err := drawdown.Explain(t, asked.Input)
	if err != nil {
		return nil, refused(err, "")
	}
	resp := wire.ExplainedDrops(answer)
	resp.Findings, resp.Workings = wire.Findings(slices.Concat(answer.Findings, asked.Findings, found)), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

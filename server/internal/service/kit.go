package service

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/uv"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/server/internal/wire"
)

const defaultKits = 3

type kits struct {
	pb.UnimplementedKitServiceServer
	engine *Engine
}

func (s kits) SuggestKits(ctx context.Context, req *pb.SuggestKitsRequest) (*pb.SuggestKitsResponse, error) {
	snapshot := s.engine.Store.Snapshot()
	c, err := newCounter(snapshot, req, nil, req.GetWorkings())
	if err != nil {
		return nil, err
	}
	c.pictures = req.GetPictures()
	result, err := c.desk.Suggest(stopper(ctx))
	if err != nil {
		return nil, searched(ctx, err)
	}
	resp := &pb.SuggestKitsResponse{
		Pond: c.plan.Pond.Measures, Wanted: wire.WantedFlow(c.plan.Question.Wanted), Searched: wire.SearchCount(result), Brief: c.brief,
	}
	resp.FishNow, resp.FishGrown = c.fish()
	if err := c.suggest(ctx, resp, result, req); err != nil {
		return nil, searched(ctx, err)
	}
	resp.Findings = c.findings(nothing(result)...)
	resp.Workings = wire.Workings(c.trail)
	resp.Provenance, err = s.engine.provenance(req, snapshot)
	return resp, err
}

// searched tells a search that was stopped from one that failed.
func searched(ctx context.Context, err error) error {
	if errors.Is(err, kit.ErrStopped) {
		return status.FromContextError(ctx.Err()).Err()
	}
	return err
}

// nothing says that there is nothing to choose from.
func nothing(result kit.Result) []finding.Finding {
	if result.Sets > 0 {
		return nil
	}
	return []finding.Finding{{
		Code: "NOTHING_TO_CHOOSE_FROM", Severity: finding.Stop, Subject: "catalogue",
		Sentence: "The catalogues hold no priced item of some kind this kit needs.", Change: "load a catalogue that has pumps, hoses and whatever else is wanted",
	}}
}

// suggest fills in the best sets, or the nearest miss, and what falls short beside them.
func (c *counter) suggest(ctx context.Context, resp *pb.SuggestKitsResponse, result kit.Result, req *pb.SuggestKitsRequest) error {
	most := int(req.GetMaxKits())
	if most == 0 {
		most = defaultKits
	}
	best := kit.Distinct(result.Best, most)
	for i, candidate := range best {
		made, _, err := c.kit(candidate, fmt.Sprintf("kit %d", i+1))
		if err != nil {
			return err
		}
		resp.Kits = append(resp.Kits, made)
	}
	if len(best) > 1 {
		resp.WhyFirst = c.desk.WhyFirst(best[0], best[1])
	}
	beside := result.Miss
	if len(best) > 0 {
		beside = &best[0]
	} else if beside != nil {
		made, _, err := c.kit(*beside, "nearest miss")
		if err != nil {
			return err
		}
		resp.NearestMiss = made
	}
	if beside == nil {
		return nil
	}
	lost, err := c.desk.Losers(*beside, int(req.GetMaxLosers()), stopper(ctx))
	if err != nil {
		return err
	}
	resp.Losers, err = c.losers(lost)
	return err
}

// market finds what is sold in the currency asked for, or in the only one there is.
func market(s *catalogue.Snapshot, currency string) (string, *catalogue.Market, error) {
	known := s.Currencies()
	switch {
	case len(known) == 0:
		return "", nil, status.Error(codes.FailedPrecondition, "no catalogue is in force; see ListCatalogues for the reason")
	case currency == "" && len(known) == 1:
		currency = known[0]
	case currency == "":
		return "", nil, input.Error{
			Field: "running.currency", Problem: "prices are in " + strings.Join(known, " and "), Change: "say which of them to choose from",
		}
	}
	if m := s.Market(currency); m != nil {
		return currency, m, nil
	}
	return "", nil, input.Error{
		Field: "running.currency", Problem: fmt.Sprintf("nothing is priced in %s", currency), Change: "choose from " + strings.Join(known, ", "),
	}
}

// cautions stand with every kit, for each holds mains near water and stands in a pond.
func cautions() []finding.Finding {
	return []finding.Finding{
		{
			Code: "MAINS_NEAR_WATER", Severity: finding.Caution, Subject: "electrics",
			Sentence: "Mains near water can kill. Every supply needs a residual-current device of 30 mA, and everything in the water is unplugged before hands go in.",
			Change:   "leave the installation to a licensed electrician and follow the code that holds where the pond is",
			Source:   source.WiringRules,
		},
		{
			Code: "WATER_DROWNS", Severity: finding.Caution, Subject: "children",
			Sentence: "Any depth of water can drown a child; there is no safe one.",
			Change:   "supervise, cover with a rigid grid or fence, as local rules ask", Source: source.Practice,
		},
	}
}

// lampCautions are those of the lamp unit, but for mains near water, of which cautions has spoken.
func lampCautions() []finding.Finding {
	return slices.DeleteFunc(uv.Cautions(), func(f finding.Finding) bool { return f.Code == "MAINS_NEAR_WATER" })
}

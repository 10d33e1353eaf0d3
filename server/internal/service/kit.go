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
	"example.com/pondwright/calc/working"
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
	var faults input.Errors
	currency, market, err := market(snapshot, req.GetBrief().GetRunning().GetCurrency())
	if err != nil && !faults.AddUnder("", err) {
		return nil, err
	}
	t := trail(req.GetWorkings())
	plan, err := wire.PlanBrief(t, req.GetBrief())
	if err != nil && !faults.AddUnder("", err) {
		return nil, err
	}
	if err := faults.Err(); err != nil {
		return nil, refused(err, "brief")
	}
	finder, err := kit.NewFinder(plan.Question, market.Range)
	if err != nil {
		return nil, refused(err, "brief")
	}
	result, err := finder.Find(stopper(ctx))
	if errors.Is(err, kit.ErrStopped) {
		return nil, status.FromContextError(ctx.Err()).Err()
	} else if err != nil {
		return nil, err
	}
	resp := answer(plan, result)
	c := chooser{finder: finder, market: market, currency: currency, question: plan.Question, trail: t}
	if err := c.fill(resp, result, int(req.GetMaxKits())); err != nil {
		return nil, err
	}
	resp.Workings = wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, snapshot)
	return resp, err
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

func answer(plan wire.Plan, result kit.Result) *pb.SuggestKitsResponse {
	resp := &pb.SuggestKitsResponse{
		Pond: plan.Pond.Measures, Wanted: wire.WantedFlow(plan.Question.Wanted),
		Searched: &pb.SearchCount{Sets: result.Sets, Working: result.Working},
	}
	if plan.Now.Count > 0 {
		resp.FishNow, resp.FishGrown = wire.FishLoad(plan.Now), wire.FishLoad(plan.Grown)
	}
	for code, sets := range result.Codes {
		resp.Searched.RuledOut = append(resp.Searched.RuledOut, &pb.RuledOut{Code: code, Sets: sets})
	}
	found := plan.Findings
	if result.Sets == 0 {
		found = append(found, finding.Finding{
			Code: "NOTHING_TO_CHOOSE_FROM", Severity: finding.Stop, Subject: "catalogue",
			Sentence: "The catalogues hold no priced item of some kind this kit needs.", Change: "load a catalogue that has pumps, hoses and whatever else is wanted",
		})
	}
	found = append(found, cautions()...)
	if plan.Question.Lamp {
		found = append(found, lampCautions()...)
	}
	resp.Findings = wire.Findings(found)
	return resp
}

// A chooser turns candidates into messages.
type chooser struct {
	finder   *kit.Finder
	market   *catalogue.Market
	currency string
	question kit.Question
	trail    *working.Trail
}

func (c chooser) fill(resp *pb.SuggestKitsResponse, result kit.Result, most int) error {
	if most == 0 {
		most = defaultKits
	}
	best := kit.Distinct(result.Best, most)
	for i, candidate := range best {
		made, err := c.kit(candidate, fmt.Sprintf("kit %d", i+1))
		if err != nil {
			return err
		}
		resp.Kits = append(resp.Kits, made)
	}
	if len(best) > 1 {
		resp.WhyFirst = c.finder.WhyFirst(best[0], best[1])
	}
	if result.Miss != nil {
		made, err := c.kit(*result.Miss, "nearest miss")
		if err != nil {
			return err
		}
		resp.NearestMiss = made
	}
	return nil
}

func (c chooser) kit(candidate kit.Candidate, name string) (*pb.Kit, error) {
	pump, hose := c.market.Pumps[candidate.Pump], c.market.Hoses[candidate.Hose]
	detail, err := c.finder.Explain(c.trail, candidate, name)
	if err != nil {
		return nil, fmt.Errorf("explain kit with pump %s: %w", pump.GetItem().GetItemNumber(), err)
	}
	made := wire.Kit(detail, c.question, c.currency)
	made.Pump, made.Hose = pump, hose
	if candidate.Filter >= 0 {
		made.Filter = c.market.Filters[candidate.Filter]
	}
	if candidate.Lamp >= 0 {
		made.LampUnit = c.market.Lamps[candidate.Lamp]
	}
	return made, nil
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

package service

import (
	"context"
	"errors"
	"slices"
	"strings"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

type filtration struct {
	pb.UnimplementedFiltrationServiceServer
	engine *Engine
}

func (s filtration) CalculateFishLoad(_ context.Context, req *pb.CalculateFishLoadRequest) (*pb.CalculateFishLoadResponse, error) {
	t := trail(req.GetWorkings())
	w := wire.FeedWater(req.GetWater())
	groups, feeding := wire.Groups(req.GetStock()), wire.Feeding(req.GetStock(), w)
	now, grown, found, err := stock.Loads(t, groups, feeding)
	if err != nil {
		return nil, located(err, "stock")
	}
	resp := &pb.CalculateFishLoadResponse{
		Now: wire.FishLoad(now), Grown: wire.FishLoad(grown),
		Rules:  wire.StockingRules(stock.Rules(unit.SquareMetres(req.GetSurfaceM2()), unit.Litres(req.GetVolumeL()), groups)),
		Groups: wire.Portraits(stock.Portraits(groups, w.Temperature)),
	}
	if req.GetYears() > 0 {
		years, grew, err := stock.Years(t, groups, feeding, int(req.GetYears()))
		if err != nil {
			return nil, located(err, "stock")
		}
		resp.Years, found = wire.YearsOfFish(years), merged(found, grew)
	}
	crowd := stock.Crowd(now, grown, unit.Litres(req.GetVolumeL()))
	resp.Findings, resp.Workings = wire.Findings(slices.Concat(w.Findings, found, crowd)), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

func (s filtration) AssessFilter(_ context.Context, req *pb.AssessFilterRequest) (*pb.AssessFilterResponse, error) {
	t := trail(req.GetWorkings())
	w := wire.FishWater(req.GetWater())
	groups := wire.Groups(req.GetStock())
	_, grown, found, err := stock.Loads(t, groups, wire.Feeding(req.GetStock(), w))
	if err != nil {
		return nil, located(err, "stock")
	}
	margin, assumed := wire.FilterMargin(req.MarginPercent)
	a, err := filter.Assess(t, filter.AssessInput{
		Filter: wire.Medium(req.GetFilter()), Load: grown.TAN, Temperature: w.Temperature, PH: w.PH,
		Flow: unit.LitresPerHour(req.GetFlowLPerH()), Margin: margin,
	})
	if err != nil {
		return nil, located(err, "filter")
	}
	beside, err := filter.SetBeside(t, besideOf(t, req, wire.Stocking(groups), a))
	if err != nil {
		return nil, refused(err, "")
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.AssessFilterResponse{
		Grown: wire.FishLoad(grown), Verdict: wire.FilterVerdict(a),
		Rate: wire.MediaRate(filter.RateOf(wire.Medium(req.GetFilter()).Medium), a), Claims: wire.FilterClaims(beside),
		Findings: wire.Findings(slices.Concat(w.Findings, found, assumed, notJudged(grown), a.Findings, beside.Findings)), Workings: wire.Workings(t), Provenance: p,
	}, err
}

// besideOf gathers what the maker states of a filter, its losses carried to the flow that runs.
func besideOf(t *working.Trail, req *pb.AssessFilterRequest, kind filter.Stocking, a filter.Assessment) filter.BesideInput {
	flow := unit.LitresPerHour(req.GetFlowLPerH())
	head := func(d circuit.Device) unit.Head {
		if d.Loss == 0 {
			return 0
		}
		return circuit.DeviceLoss.Run(t, circuit.DeviceInput{Flow: flow, At: d.At, Measured: d.Loss})
	}
	f := req.GetFilter()
	return filter.BesideInput{
		Flow: flow, MaxFlow: unit.LitresPerHour(f.GetMaxFlowLPerH()), Label: unit.Litres(f.GetLabelPondL()),
		CleanHead: head(wire.Device("filter", f.GetCleanLoss())), DueHead: head(wire.Device("filter", f.GetDueLoss())),
		Pond: unit.Litres(req.GetPondVolumeL()), Stocking: kind, Headroom: a.Headroom,
	}
}

// seenByAll are fields that several parts of calc look at, and where requests have them.
var seenByAll = map[string]string{
	"water_temperature_c": "water.temperature_c", "ph": "water.ph", "tan_load_g_per_day": "stock", "flow_l_per_h": "flow_l_per_h",
	"margin": "margin_percent", "medium": "filter.medium", "media_volume_l": "filter.medium_l", "surface_m2": "filter.specific_surface_m2_per_m3",
}

// located is refused for requests that have their temperature and pH in their water, fish in a stock and media in a filter.
func located(err error, under string) error {
	var all input.Errors
	if !errors.As(err, &all) {
		return refused(err, under)
	}
	var there input.Errors
	for _, e := range all {
		if path, ok := seenByAll[e.Field[strings.LastIndex(e.Field, ".")+1:]]; ok {
			e.Field = path
			if path == "stock" {
				e.Change = "give fewer or smaller fish"
			}
			there = append(there, e)
		} else {
			there.AddUnder(under, e)
		}
	}
	return refused(there, "")
}

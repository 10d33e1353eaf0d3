package service

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"example.com/pondwright/calc/balance"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s filtration) BalanceWater(_ context.Context, req *pb.BalanceWaterRequest) (*pb.BalanceWaterResponse, error) {
	t := trail(req.GetWorkings())
	w := wire.FishWater(req.GetWater())
	asked := wire.WaterBalance(req, w)
	var errs input.Errors
	_, load, found, err := loadThen(t, req.GetStock(), req.FishAfterYears, wire.Feeding(req.GetStock(), w))
	if err != nil && !errs.AddUnder("stock", err) {
		return nil, err
	}
	asked.Input.Load = load.TAN
	settled, err := balance.Settle(t, asked.Input)
	if err != nil && !errs.AddUnder("", err) {
		return nil, err
	}
	if len(errs) > 0 {
		return nil, located(errs, "")
	}
	p, err := s.engine.provenance(req, nil)
	said := slices.Concat(asked.Findings, found, notJudged(load), aboveMade(req), settled.Findings, breath(load.Count, asked.Input.Oxygen), welfare(load))
	return &pb.BalanceWaterResponse{
		TanGPerDay: load.TAN.GramsPerDay(), Settled: wire.SettledWater(asked.Input, settled), Held: wire.HeldLimits(settled.Held),
		Findings: wire.Findings(said), Workings: wire.Workings(t), Provenance: p,
	}, err
}

func (s filtration) RipenFilter(ctx context.Context, req *pb.RipenFilterRequest) (*pb.RipenFilterResponse, error) {
	t := trail(req.GetWorkings())
	w := wire.FishWater(req.GetWater())
	asked := wire.Ripening(req, w)
	asked.Input.Stop, asked.Input.NoFish = stopper(ctx), fishIn(req.GetLoad()) == 0
	found, err := stockUp(t, req.GetLoad(), w, &asked.Input)
	if err != nil {
		return nil, located(err, "")
	}
	resp, span, err := ripen(t, req, asked.Input)
	if errors.Is(err, ripening.ErrStopped) {
		return nil, gone(ctx)
	} else if err != nil {
		return nil, refused(err, "")
	}
	resp.Days = wire.RipeningDays(span.Expected.Days, w)
	resp.Findings = wire.Findings(slices.Concat(asked.Findings, found, span.Findings(), breath(fishIn(req.GetLoad()), asked.Input.Oxygen), []finding.Finding{stock.Welfare()}))
	resp.Workings = wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

// ripen works out the span of runs, the first stocking and where it all comes to rest.
func ripen(t *working.Trail, req *pb.RipenFilterRequest, in ripening.Input) (*pb.RipenFilterResponse, ripening.Span, error) {
	span, err := ripening.Forecast(t, in)
	if err != nil {
		return nil, span, err
	}
	below := wire.FirstLimits(req).Or(ripening.FishLimits(t, in.Temperature, in.PH))
	first, err := ripening.FirstStocking(in, below)
	if err != nil {
		return nil, span, err
	}
	rest, rests, err := ripening.Rest(t, in)
	if err != nil {
		return nil, span, err
	}
	last := in.Load[len(in.Load)-1].TAN
	feed := stock.FeedFor(first, unit.Percent(req.GetLoad()[len(in.Load)-1].GetStock().GetProteinPercent()))
	resp := &pb.RipenFilterResponse{
		Early: wire.RipeningRun(span.Early), Expected: wire.RipeningRun(span.Expected), Late: wire.RipeningRun(span.Late),
		FirstStocking: wire.FirstStocking(first, feed, last, below),
		NitrogenError: span.Expected.Balance.Float(),
	}
	if rests {
		resp.Rest = wire.RipeningRest(rest)
	}
	return resp, span, nil
}

// loadThen gives the fish so many years from now, or grown, with their load.
func loadThen(t *working.Trail, s *pb.Stock, after *float64, f stock.Feeding) ([]stock.Group, stock.Load, []finding.Finding, error) {
	fish, found, err := wire.FishThen(t, s, after)
	if err != nil {
		return nil, stock.Load{}, nil, err
	}
	load, _, more, err := stock.Loads(t, fish, f)
	return fish, load, append(found, more...), err
}

// stockUp works out the load of a pond, step by step, and checks it with all else that is asked.
func stockUp(t *working.Trail, steps []*pb.LoadStep, w wire.Water, in *ripening.Input) ([]finding.Finding, error) {
	var errs input.Errors
	var all []finding.Finding
	for i, step := range steps {
		made := ripening.LoadStep{From: unit.Days(step.GetFromDay()), TAN: unit.GramsPerDay(step.GetTanGPerDay())}
		if step.GetStock() != nil {
			t.About(fmt.Sprintf("from day %g", step.GetFromDay()))
			load, _, found, err := stock.Loads(t, wire.Groups(step.GetStock()), wire.Feeding(step.GetStock(), w))
			if err != nil && !errs.AddUnder(fmt.Sprintf("load[%d].stock", i), err) {
				return nil, err
			}
			made.TAN, all = load.TAN, merged(all, append(withoutGrowth(found), laterFish(step)...))
		} else {
			all = merged(all, []finding.Finding{stock.ProteinAssumed()}) // the first stocking is told as feed as well
		}
		in.Load = append(in.Load, made)
	}
	t.About("")
	for _, e := range wrongWith(*in) {
		// A load that was given as fish is named as fish.
		for i, step := range steps {
			if step.GetStock() != nil && e.Field == fmt.Sprintf("load[%d].tan_g_per_day", i) {
				e.Field = fmt.Sprintf("load[%d].stock", i)
			}
		}
		errs = append(errs, e)
	}
	return all, errs.Err()
}

func wrongWith(in ripening.Input) input.Errors {
	var errs input.Errors
	errs.AddUnder("", in.Check())
	return errs
}

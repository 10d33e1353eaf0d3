package service

import (
	"context"
	"errors"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/oxygen"
	"example.com/pondwright/calc/solids"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/winter"
	"example.com/pondwright/calc/working"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

func (s filtration) PlanCleaning(_ context.Context, req *pb.PlanCleaningRequest) (*pb.PlanCleaningResponse, error) {
	t := trail(req.GetWorkings())
	var errs input.Errors
	fish, found, err := wire.FishThen(t, req.GetStock(), req.FishAfterYears)
	if err != nil && !errs.AddUnder("stock", err) {
		return nil, err
	}
	in := wire.Cleaning(req, fish, statedRatio(req.GetFilter()))
	year, err := solids.OverYear(t, in)
	if err != nil && !errs.AddUnder("", err) {
		return nil, err
	}
	if len(errs) > 0 {
		return nil, refused(errs, "")
	}
	resp := wire.Cleanings(in, year)
	resp.Findings, resp.Workings = wire.Findings(append(found, year.Findings...)), wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

// statedRatio is the head a filter loses when due by the head it loses clean, both at the flow of the second; nothing where
// it does not state both.
func statedRatio(f *eq.Filter) unit.Ratio {
	clean, due := wire.Device("filter", f.GetCleanLoss()), wire.Device("filter", f.GetDueLoss())
	if clean.Loss == 0 || due.Loss == 0 {
		return 0
	}
	there := circuit.DeviceLoss.Eval(circuit.DeviceInput{Flow: clean.At, At: due.At, Measured: due.Loss})
	return unit.Ratio(there / clean.Loss)
}

func (s filtration) BalanceOxygen(_ context.Context, req *pb.BalanceOxygenRequest) (*pb.BalanceOxygenResponse, error) {
	t := trail(req.GetWorkings())
	asked := wire.Night(req)
	var errs input.Errors
	count, found, err := breathing(t, req, &asked.Input)
	if err != nil && !errs.AddUnder("stock", err) {
		return nil, err
	}
	if err := aeration(t, req, &asked.Input); err != nil && !errs.AddUnder("", err) {
		return nil, err
	}
	if len(errs) > 0 {
		return nil, refused(errs, "")
	}
	night, err := oxygen.AtDawn(t, asked.Input)
	if err != nil {
		return nil, refused(ofFish(err), "")
	}
	resp := wire.OxygenNight(asked.Input, night)
	resp.Findings = wire.Findings(slices.Concat(asked.Findings, found, night.Findings, welfare(stock.Load{Count: count})))
	resp.Workings = wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

// ofFish names the fish where what they take and give off is out of all bounds.
func ofFish(err error) error {
	var all input.Errors
	if !errors.As(err, &all) {
		return err
	}
	var there input.Errors
	for _, e := range all {
		if e.Field == "fish_oxygen_g_per_day" || e.Field == "tan_g_per_day" {
			e.Field, e.Change = "stock", "give fewer or smaller fish"
		}
		there = append(there, e)
	}
	return there
}

// breathing works out what fish and filter take: fish at night take no less than unfed.
func breathing(t *working.Trail, req *pb.BalanceOxygenRequest, in *oxygen.NightInput) (int, []finding.Finding, error) {
	feeding := stock.Feeding{Temperature: in.Temperature, Protein: unit.Percent(req.GetStock().GetProteinPercent())}
	fish, load, found, err := loadThen(t, req.GetStock(), req.FishAfterYears, feeding)
	if err != nil || len(fish) == 0 {
		return 0, nil, err
	}
	resting, stretched, err := stock.RestingOxygen(t, fish, in.Temperature)
	in.Fish, in.TAN = load.OxygenDemand, load.TAN
	if resting > in.Fish {
		in.Fish, found = resting, append(found, stretched...)
	}
	return load.Count, found, err
}

// aeration works out what falls and bubbles bring.
func aeration(t *working.Trail, req *pb.BalanceOxygenRequest, in *oxygen.NightInput) error {
	falls, err := oxygen.Together(t, wire.OxygenFalls(req.GetFalls()), in.Temperature)
	if err != nil {
		return err
	}
	in.Falls = falls
	in.AirLow, in.AirHigh, err = oxygen.Bubbles(t, wire.OxygenAir(req.GetAir()), in.Temperature)
	return err
}

func (s filtration) PlanWinter(_ context.Context, req *pb.PlanWinterRequest) (*pb.PlanWinterResponse, error) {
	t := trail(req.GetWorkings())
	fish, found, err := wire.FishThen(t, req.GetStock(), req.FishAfterYears)
	if err != nil {
		return nil, refused(err, "stock")
	}
	asked := wire.Frost(req, wire.Stocking(fish))
	frost, err := winter.Hold(t, asked.Input)
	if err != nil {
		return nil, refused(err, "")
	}
	protein := unit.Percent(req.GetStock().GetProteinPercent())
	months, fasting, err := winter.Calendar(t, fish, protein, wire.Temperatures(req.GetWaterTemperaturesC()))
	if err != nil {
		return nil, refused(err, "stock")
	}
	resp := wire.Winter(asked.Input, frost, req.GetWaterTemperaturesC(), months)
	resp.Findings = wire.Findings(slices.Concat(asked.Findings, found, frost.Findings, fasting, welfare(stock.Load{Count: len(fish)})))
	resp.Workings = wire.Workings(t)
	resp.Provenance, err = s.engine.provenance(req, nil)
	return resp, err
}

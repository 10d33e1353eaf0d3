package service

import (
	"context"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

type hydraulics struct {
	pb.UnimplementedHydraulicsServiceServer
	engine *Engine
}

func (s hydraulics) SolveDuty(_ context.Context, req *pb.SolveDutyRequest) (*pb.SolveDutyResponse, error) {
	curve, loop, err := circuitOf(req)
	if err != nil {
		return nil, refused(err, "")
	}
	temperature := assume.CircuitTemperature
	if req.WaterTemperatureC != nil {
		temperature = unit.Celsius(req.GetWaterTemperatureC())
	}
	t := trail(req.GetWorkings())
	duty, found := circuit.Assess(t, pump.AsMeasured(curve), pump.Usual(), loop, water.At(t, temperature))
	if req.WaterTemperatureC == nil {
		found = append(found, assume.Note("water", "The temperature of the water", temperature.Celsius(), "°C", "give it, if it matters"))
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.SolveDutyResponse{
		Duty: wire.Duty(duty), Findings: wire.Findings(found), Workings: wire.Workings(t), Provenance: p,
	}, err
}

// circuitOf reads pump and circuit, and collects what is wrong with either.
func circuitOf(req *pb.SolveDutyRequest) (*pump.Curve, *circuit.Loop, error) {
	var errs input.Errors
	curve, err := wire.Curve(req.GetPump())
	if err != nil && !errs.AddUnder("pump", err) {
		return nil, nil, err
	}
	run, err := wire.Run(req.GetRun(), pipe.Fitted{Kind: pipe.Exit, Count: 1})
	if err != nil && !errs.AddUnder("run", err) {
		return nil, nil, err
	}
	loop := &circuit.Loop{Lift: unit.MetresOfWater(req.GetLiftM()), Runs: []*pipe.Run{run}}
	for _, d := range req.GetDevices() {
		loop.Devices = append(loop.Devices, wire.Device(d.GetName(), d.GetLoss()))
	}
	return curve, loop, errs.Err()
}

package service

import (
	"context"
	"slices"

	"example.com/pondwright/calc/circuit/states"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

type circuits struct {
	pb.UnimplementedCircuitServiceServer
	engine *Engine
}

func (s circuits) SolveCircuit(ctx context.Context, req *pb.SolveCircuitRequest) (*pb.SolveCircuitResponse, error) {
	network, grade, found, err := networkOf(req)
	if err != nil {
		return nil, refused(err, "")
	}
	t := trail(req.GetWorkings())
	conditions, warm := wire.CircuitConditions(t, req.WaterTemperatureC, req.GetDue(), stopper(ctx))
	solution, remarks := network.Assess(t, conditions)
	found = slices.Concat(found, warm, remarks)
	var power unit.Power
	var width *tree.Width
	if solution != nil {
		power, _ = network.Power(solution)
		width, remarks = network.Width(t, conditions, grade.Tolerance, wire.Sureness(req.GetMeasured()), req.GetInfluencesOn())
		found = append(found, remarks...)
	}
	if err := gone(ctx); err != nil {
		return nil, err
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.SolveCircuitResponse{
		Solution: wire.CircuitSolution(solution, power), Width: wire.CircuitWidth(width),
		Findings: wire.Findings(found), Workings: wire.Workings(t), Provenance: p,
	}, err
}

func networkOf(req *pb.SolveCircuitRequest) (*tree.Network, pump.Grade, []finding.Finding, error) {
	var errs input.Errors
	name := req.GetGrade()
	if name == "" {
		name = "usual"
	}
	grade, err := pump.GradeNamed(name)
	if err != nil && !errs.AddUnder("grade", err) {
		return nil, grade, nil, err
	}
	described, found, err := wire.Circuit(req.GetCircuit())
	if err != nil {
		if !errs.AddUnder("circuit", err) {
			return nil, grade, nil, err
		}
		return nil, grade, nil, errs
	}
	network, err := tree.New(described)
	if err != nil && !errs.AddUnder("circuit", err) {
		return nil, grade, nil, err
	}
	if on := req.GetInfluencesOn(); network != nil && on != "" && !slices.Contains(network.Branches(), on) {
		errs.Add("influences_on", "name a branch of the circuit", "there is no branch %q", on)
	}
	wire.MeasuredNames(&errs, described, req.GetMeasured())
	return network, grade, found, errs.Err()
}

func (s circuits) CalculateStates(ctx context.Context, req *pb.CalculateStatesRequest) (*pb.CalculateStatesResponse, error) {
	t := trail(req.GetWorkings())
	question, err := wire.StatesDescription(t, req, stopper(ctx))
	if err != nil {
		return nil, refused(err, "")
	}
	all, err := states.All(t, question.Description)
	if err != nil {
		return nil, refused(err, "")
	}
	if err := gone(ctx); err != nil {
		return nil, err
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateStatesResponse{
		Clean: wire.StateSolution(all.Clean), Due: wire.StateSolution(all.Due), Winter: wire.StateSolution(all.Winter),
		Flush: wire.FlushState(all.Flushing), Stopped: wire.StoppedState(all.Stopped), HoseOff: wire.HoseOffState(all.HoseOff),
		Findings: wire.Findings(question.Findings), Workings: wire.Workings(t), Provenance: p,
	}, err
}

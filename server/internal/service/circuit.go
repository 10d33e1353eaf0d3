package service

import (
	"context"

	"example.com/pondwright/calc/circuit/states"
	"example.com/pondwright/calc/circuit/tree"
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

func (s circuits) SolveCircuit(_ context.Context, req *pb.SolveCircuitRequest) (*pb.SolveCircuitResponse, error) {
	network, grade, err := networkOf(req)
	if err != nil {
		return nil, refused(err, "")
	}
	t := trail(req.GetWorkings())
	conditions, found := wire.CircuitConditions(t, req.WaterTemperatureC, req.GetDue())
	solution, remarks := network.Assess(t, conditions)
	found = append(found, remarks...)
	var power unit.Power
	var width *tree.Width
	if solution != nil {
		power, _ = network.Power(solution)
		width, remarks = network.Width(t, conditions, grade.Tolerance, wire.Sureness(req.GetMeasured()), req.GetInfluencesOn())
		found = append(found, remarks...)
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.SolveCircuitResponse{
		Solution: wire.CircuitSolution(solution, power), Width: wire.CircuitWidth(width),
		Findings: wire.Findings(found), Workings: wire.Workings(t), Provenance: p,
	}, err
}

func networkOf(req *pb.SolveCircuitRequest) (*tree.Network, pump.Grade, error) {
	var errs input.Errors
	name := req.GetGrade()
	if name == "" {
		name = "usual"
	}
	grade, err := pump.GradeNamed(name)
	if err != nil && !errs.AddUnder("grade", err) {
		return nil, grade, err
	}
	described, err := wire.Circuit(req.GetCircuit())
	if err != nil {
		if !errs.AddUnder("circuit", err) {
			return nil, grade, err
		}
		return nil, grade, errs
	}
	network, err := tree.New(described)
	if err != nil && !errs.AddUnder("circuit", err) {
		return nil, grade, err
	}
	return network, grade, errs.Err()
}

func (s circuits) CalculateStates(_ context.Context, req *pb.CalculateStatesRequest) (*pb.CalculateStatesResponse, error) {
	t := trail(req.GetWorkings())
	question, err := wire.StatesDescription(t, req)
	if err != nil {
		return nil, refused(err, "")
	}
	all, err := states.All(t, question.Description)
	if err != nil {
		return nil, refused(err, "")
	}
	p, err := s.engine.provenance(req, nil)
	return &pb.CalculateStatesResponse{
		Clean: wire.StateSolution(all.Clean), Due: wire.StateSolution(all.Due), Winter: wire.StateSolution(all.Winter),
		Flush: wire.FlushState(all.Flushing), Stopped: wire.StoppedState(all.Stopped), HoseOff: wire.HoseOffState(all.HoseOff),
		Findings: wire.Findings(question.Findings), Workings: wire.Workings(t), Provenance: p,
	}, err
}

package wire

import (
	"example.com/pondwright/calc/circuit/states"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// CircuitSolution turns a circuit as it runs into a message; nil stays nil. Power is 0 where it is not known.
func CircuitSolution(s *tree.Solution, power unit.Power) *pb.CircuitSolution {
	if s == nil {
		return nil
	}
	made := &pb.CircuitSolution{FlowLPerH: s.Flow.LitresPerHour(), HeadM: s.Head.Metres(), PowerW: given(power.Watts())}
	for _, b := range s.Branches {
		made.Branches = append(made.Branches, &pb.BranchFlow{Branch: b.Branch, FlowLPerH: b.Flow.LitresPerHour()})
	}
	for _, p := range s.Parts {
		made.Parts = append(made.Parts, &pb.PartFlow{
			Branch: p.Branch, Part: p.Part, FlowLPerH: p.Flow.LitresPerHour(), HeadLostM: p.Lost.Metres(), VelocityMPerS: p.Velocity.MetresPerSecond(),
		})
	}
	for _, b := range s.Boxes {
		made.Boxes = append(made.Boxes, &pb.BoxLevel{
			Branch: b.Branch, LevelM: b.Level.Metres(), StandsMm: b.Stands.Millimetres(), SpareMm: b.Spare.Millimetres(),
		})
	}
	return made
}

// CircuitWidth turns a width into a message; nil stays nil.
func CircuitWidth(w *tree.Width) *pb.CircuitWidth {
	if w == nil {
		return nil
	}
	made := &pb.CircuitWidth{FlowLPerH: flowBand(w.Flow)}
	for _, b := range w.Branches {
		made.Branches = append(made.Branches, &pb.BranchBand{Branch: b.Branch, FlowLPerH: flowBand(b.Flow)})
	}
	for _, i := range w.Influences {
		made.Influences = append(made.Influences, &pb.FlowInfluence{
			Input: i.Input, Subject: i.Subject, FlowLPerH: i.Flow.LitresPerHour(), SharePercent: i.Share.Percent(),
		})
	}
	return made
}

var hows = map[pb.Measured]tree.How{
	pb.Measured_MEASURED_TAPED:   tree.Taped,
	pb.Measured_MEASURED_LABEL:   tree.Label,
	pb.Measured_MEASURED_PACED:   tree.Paced,
	pb.Measured_MEASURED_GUESSED: tree.Guessed,
}

// Sureness reads how the numbers of a circuit were come by.
func Sureness(inputs []*pb.MeasuredInput) tree.Sureness {
	made := tree.Sureness{
		Lengths: map[string]tree.How{}, Bores: map[string]tree.How{}, Levels: map[string]tree.How{}, Devices: map[string]tree.How{},
	}
	for _, m := range inputs {
		for target, said := range map[*map[string]tree.How]pb.Measured{
			&made.Lengths: m.GetLength(), &made.Bores: m.GetBore(), &made.Levels: m.GetLevel(), &made.Devices: m.GetLoss(),
		} {
			if how, ok := hows[said]; ok {
				(*target)[m.GetName()] = how
			}
		}
	}
	return made
}

// StateSolution turns a state into a message; nil stays nil.
func StateSolution(r *states.Running) *pb.StateSolution {
	if r == nil {
		return nil
	}
	return &pb.StateSolution{Solution: CircuitSolution(r.Solution, r.Power), Findings: Findings(r.Findings)}
}

// FlushState turns flushing into a message; nil stays nil.
func FlushState(f *states.Flushing) *pb.FlushState {
	if f == nil {
		return nil
	}
	return &pb.FlushState{
		Running: StateSolution(&f.Running), LostL: given(f.Lost.Litres()), LevelDropMm: given(f.Drop.Millimetres()),
	}
}

// StoppedState turns a pump that stands into a message.
func StoppedState(s states.Stopped) *pb.StoppedState {
	return &pb.StoppedState{
		FromHosesL: s.Hoses.Litres(), FromBoxesL: s.Boxes.Litres(), SiphonedL: s.Siphoned.Litres(), FromTransitL: s.Transit.Litres(),
		LevelRiseMm: s.Rise.Millimetres(), Findings: Findings(s.Findings),
	}
}

// HoseOffState turns a hose that came off into a message.
func HoseOffState(h states.HoseOff) *pb.HoseOffState {
	return &pb.HoseOffState{
		FlowLPerH: given(h.Flow.LitresPerHour()), FlowAtLeast: h.AtLeast, LevelFallsMm: given(h.Falls.Millimetres()),
		LostL: given(h.Lost.Litres()), LeftL: given(h.Left.Litres()), TimeH: given(h.Time.Hours()), Findings: Findings(h.Findings),
	}
}

package wire

import (
	"strings"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/fall"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

var fittingKinds = map[pb.FittingKind]pipe.Kind{
	pb.FittingKind_FITTING_KIND_ELBOW_90:    pipe.Elbow90,
	pb.FittingKind_FITTING_KIND_BEND_90:     pipe.Bend90,
	pb.FittingKind_FITTING_KIND_ELBOW_45:    pipe.Elbow45,
	pb.FittingKind_FITTING_KIND_TEE_THROUGH: pipe.TeeThrough,
	pb.FittingKind_FITTING_KIND_TEE_BRANCH:  pipe.TeeBranch,
	pb.FittingKind_FITTING_KIND_BALL_VALVE:  pipe.BallValve,
	pb.FittingKind_FITTING_KIND_GATE_VALVE:  pipe.GateValve,
	pb.FittingKind_FITTING_KIND_CHECK_VALVE: pipe.CheckValve,
	pb.FittingKind_FITTING_KIND_HOSE_TAIL:   pipe.HoseTail,
}

// Fittings reads fittings, those listed and those in words. The error names fittings_in_words.
func Fittings(listed []*pb.Fitting, words string) ([]pipe.Fitted, error) {
	var made []pipe.Fitted
	for _, f := range listed {
		made = append(made, pipe.Fitted{Kind: fittingKinds[f.GetKind()], Count: int(f.GetCount())})
	}
	if strings.TrimSpace(words) == "" {
		return made, nil
	}
	said, err := pipe.ParseFittings(words)
	if err != nil {
		var errs input.Errors
		if errs.AddUnder("fittings_in_words", err) {
			return nil, errs
		}
		return nil, err
	}
	return append(made, said...), nil
}

var sheets = map[pb.Sheet]fall.Sheet{
	pb.Sheet_SHEET_THIN:  fall.Thin,
	pb.Sheet_SHEET_FULL:  fall.Full,
	pb.Sheet_SHEET_HEAVY: fall.Heavy,
}

// Sheet reads how a fall is to look; 0 where its flow is given instead.
func Sheet(f *pb.Fall) fall.Sheet { return sheets[f.GetSheet()] }

// Duty turns a duty into a message; nil stays nil.
func Duty(d *circuit.Duty) *pb.Duty {
	if d == nil {
		return nil
	}
	made := &pb.Duty{
		FlowLPerH:         flowBand(d.Flow),
		HeadM:             &pb.Band{Low: d.Head.Low.Metres(), Expected: d.Head.Expected.Metres(), High: d.Head.High.Metres()},
		PowerW:            given(d.Power.Watts()),
		EfficiencyPercent: given(d.Efficiency.Percent()),
		VelocityMPerS:     d.Velocity.MetresPerSecond(),
	}
	for _, s := range d.Shares {
		made.HeadShares = append(made.HeadShares, &pb.HeadShare{Element: s.Element, HeadM: s.Head.Metres()})
	}
	return made
}

func flowBand(b circuit.Band[unit.Flow]) *pb.Band {
	return &pb.Band{Low: b.Low.LitresPerHour(), Expected: b.Expected.LitresPerHour(), High: b.High.LitresPerHour()}
}

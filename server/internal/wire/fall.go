package wire

import (
	"example.com/pondwright/calc/fall"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

var sillEdges = map[pb.SillEdge]fall.Edge{
	pb.SillEdge_SILL_EDGE_THIN:    fall.ThinEdge,
	pb.SillEdge_SILL_EDGE_SQUARE:  fall.SquareStone,
	pb.SillEdge_SILL_EDGE_ROUNDED: fall.RoundStone,
}

// CascadeSteps reads the falls of a cascade.
func CascadeSteps(steps []*pb.CascadeStep) []fall.Step {
	made := make([]fall.Step, len(steps))
	for i, s := range steps {
		made[i] = fall.Step{
			Sill: fall.Sill{
				Edge: sillEdges[s.GetEdge()], Width: unit.Metres(s.GetWidthM()), Channel: unit.Metres(s.GetChannelM()),
				Crest: unit.Metres(s.GetCrestM()), Breadth: unit.Metres(s.GetBreadthM()),
			},
			Drop: unit.Metres(s.GetDropM()), Pool: unit.Metres(s.GetPoolM()),
		}
	}
	return made
}

var sheetNames = map[fall.Sheet]pb.Sheet{
	fall.Thin:  pb.Sheet_SHEET_THIN,
	fall.Full:  pb.Sheet_SHEET_FULL,
	fall.Heavy: pb.Sheet_SHEET_HEAVY,
}

// StepLandings turns falls as they run into messages.
func StepLandings(landings []fall.Landing) []*pb.StepLanding {
	made := make([]*pb.StepLanding, len(landings))
	for i, l := range landings {
		made[i] = &pb.StepLanding{
			HeadMm: given(l.Head.Millimetres()), HeadLowMm: given(l.HeadLow.Millimetres()), HeadHighMm: given(l.HeadHigh.Millimetres()),
			FlowLPerHPerCm: l.PerWidth.LitresPerHourPerCentimetre(), Sheet: sheetNames[l.Sheet],
			BrinkMm: l.Brink.Millimetres(), ThrowM: l.Throw.Metres(), ThicknessMm: l.Thickness.Millimetres(),
		}
	}
	return made
}

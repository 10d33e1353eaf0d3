package wire

import (
	"slices"

	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/pump"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

var runningStates = map[kit.State]pb.RunningState{
	kit.Clean: pb.RunningState_RUNNING_STATE_CLEAN,
	kit.Due:   pb.RunningState_RUNNING_STATE_DUE,
	kit.Cold:  pb.RunningState_RUNNING_STATE_WINTER,
}

var arrangements = map[kit.Arrangement]pb.TwoPumps{
	kit.SideBySide: pb.TwoPumps_TWO_PUMPS_SIDE_BY_SIDE,
	kit.Apart:      pb.TwoPumps_TWO_PUMPS_FILTER_AND_FALL,
}

var kinds = map[kit.Kind]eq.ItemKind{
	kit.PumpKind: eq.ItemKind_ITEM_KIND_PUMP, kit.HoseKind: eq.ItemKind_ITEM_KIND_HOSE,
	kit.FilterKind: eq.ItemKind_ITEM_KIND_FILTER, kit.LampKind: eq.ItemKind_ITEM_KIND_LAMP_UNIT,
}

// ItemKind is a kind as the API names it.
func ItemKind(k kit.Kind) eq.ItemKind { return kinds[k] }

// KitKind reads the kind of an item that kit is made of.
func KitKind(k eq.ItemKind) kit.Kind {
	for kind, name := range kinds {
		if name == k {
			return kind
		}
	}
	return kit.PumpKind
}

// Arrangement is how two pumps stand; unspecified for one.
func Arrangement(a kit.Arrangement) pb.TwoPumps { return arrangements[a] }

// Kit turns a candidate into a message, but for its items.
func Kit(d kit.Detail, q kit.Question, currency string) *pb.Kit {
	made := &pb.Kit{
		HoseLengthM: q.Hose.Metres(), States: States(d),
		Cost: cost(d.Cost, q.Tariff > 0, currency), HeadroomPercent: d.Headroom.Percent(), Tightest: d.Tightest.String(),
		Findings: Findings(d.Findings), Works: d.Works(),
	}
	if d.Filter != nil {
		made.FilterVerdict = FilterVerdict(*d.Filter)
	}
	if d.Dose != nil {
		made.LampDose = LampDose(*d.Dose)
		made.LampDose.WantedDailyMjPerCm2 = given(d.Suppression.MillijoulesPerSquareCentimetre())
	}
	return made
}

// States are the states that a set runs in: clean and due, clean alone where there is nothing to clean, and winter where it was
// asked about.
func States(d kit.Detail) []*pb.StateDuty {
	states := []kit.State{kit.Clean}
	if d.Set.Filter >= 0 {
		states = append(states, kit.Due)
	}
	if d.Winter {
		states = append(states, kit.Cold)
	}
	made := make([]*pb.StateDuty, len(states))
	for i, s := range states {
		made[i] = &pb.StateDuty{State: runningStates[s], Duty: Duty(d.Duties[s])}
	}
	return made
}

// Verdicts say what stops a set in each of its states, and in any.
func Verdicts(d kit.Detail, states []*pb.StateDuty) []*pb.StateVerdict {
	made := []*pb.StateVerdict{{State: pb.RunningState_RUNNING_STATE_UNSPECIFIED}}
	for _, s := range states {
		made = append(made, &pb.StateVerdict{State: s.GetState()})
	}
	for _, b := range d.Broken {
		state := runningStates[b.State]
		if b.Anyhow {
			state = pb.RunningState_RUNNING_STATE_UNSPECIFIED
		}
		at := slices.IndexFunc(made, func(v *pb.StateVerdict) bool { return v.GetState() == state })
		if at < 0 { // without a filter there is no other state to be due than clean
			at = slices.IndexFunc(made, func(v *pb.StateVerdict) bool { return v.GetState() == pb.RunningState_RUNNING_STATE_CLEAN })
		}
		made[at].Stops = append(made[at].Stops, Finding(b.Finding))
	}
	for _, v := range made {
		v.Works = len(v.GetStops()) == 0
	}
	return made
}

// Picture turns what a set is drawn from into a message.
func Picture(p kit.Picture) *pb.KitPicture {
	made := &pb.KitPicture{Pump: headPoints(p.Pump), Measured: headPoints(p.Measured), WeakPump: headPoints(p.Weak), StrongPump: headPoints(p.Strong)}
	for _, d := range p.Demands {
		made.Demands = append(made.Demands, &pb.DemandCurve{State: runningStates[d.State], Points: headPoints(d.Points)})
	}
	return made
}

func headPoints(points []pump.Point) []*pb.HeadPoint {
	made := make([]*pb.HeadPoint, len(points))
	for i, p := range points {
		made[i] = &pb.HeadPoint{FlowLPerH: p.Flow.LitresPerHour(), HeadM: p.Head.Metres()}
	}
	return made
}

// SearchCount turns the counts of a search into a message.
func SearchCount(r kit.Result) *pb.SearchCount {
	made := &pb.SearchCount{Sets: r.Sets, Working: r.Working, Beaten: r.Beaten, Calculated: r.Calculated}
	for code, sets := range r.Codes {
		made.RuledOut = append(made.RuledOut, &pb.RuledOut{Code: code, Sets: sets})
	}
	return made
}

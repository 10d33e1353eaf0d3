package wire

import (
	"fmt"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/level"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// LevelBays reads the bays of a level budget. Errors carry field paths from the request on.
func LevelBays(t *working.Trail, bays []*pb.LevelBay) ([]level.Bay, error) {
	var errs input.Errors
	made := make([]level.Bay, len(bays))
	for i, b := range bays {
		made[i] = level.Bay{
			Name: b.GetName(), Freeboard: unit.Metres(b.GetFreeboardM()), SpillsTo: int(b.GetSpillsTo()),
			Intake: unit.Metres(b.GetIntakeM()), Cover: unit.Metres(b.GetCoverM()),
			Catchment: unit.SquareMetres(b.GetCatchmentM2()), RunOff: unit.Percent(b.GetRunOffPercent()),
		}
		if upright := b.GetUpright(); upright != nil {
			made[i].Area, made[i].Depth = unit.SquareMetres(upright.GetAreaM2()), unit.Metres(upright.GetDepthM())
			continue
		}
		t.About(b.GetName())
		_, m, err := MeasureBay(t, b.GetOutline())
		if err != nil {
			if !errs.AddUnder(fmt.Sprintf("bays[%d].outline", i), err) {
				return nil, err
			}
			continue
		}
		made[i].Area, made[i].Depth, made[i].Volume = m.Area, m.Levels().Depth(), held(m)
	}
	return made, errs.Err()
}

// held is the water a measured bay holds at a level, upwards above its usual one, where its sides are taken to be upright.
func held(m outline.Measured) func(unit.Length) unit.Volume {
	curve := m.Levels()
	return func(at unit.Length) unit.Volume {
		if at >= 0 {
			return curve.Volume() + unit.CubicMetres(m.Area.SquareMetres()*at.Metres())
		}
		return curve.Volume() - curve.VolumeLost(-at)
	}
}

// LevelEvent reads events that happen at once; a hose that comes off is none of them. Errors carry field paths from the request
// on.
func LevelEvent(t *working.Trail, bays []level.Bay, events []*pb.LevelEvent) (level.Event, error) {
	var errs input.Errors
	made := make([]level.Event, len(events))
	for i, e := range events {
		for _, said := range baysOf(e) {
			if said.bay < 1 || int(said.bay) > len(bays) {
				errs.Add(fmt.Sprintf("events[%d].%s", i, said.field), "give the number of a bay, from 1", "there is no bay %d", said.bay)
			}
		}
		if len(errs) == 0 {
			made[i] = levelEvent(t, bays, e)
		}
	}
	return level.Together(made...), errs.Err()
}

// A saidBay is the number of a bay with the field that holds it.
type saidBay struct {
	field string
	bay   int32
}

// baysOf are the numbers of bays in an event.
func baysOf(e *pb.LevelEvent) []saidBay {
	switch e := e.GetEvent().(type) {
	case *pb.LevelEvent_FallStarts:
		return []saidBay{{"fall_starts.bay", e.FallStarts.GetBay()}}
	case *pb.LevelEvent_FallStops:
		return []saidBay{{"fall_stops.bay", e.FallStops.GetBay()}}
	case *pb.LevelEvent_Flush:
		return []saidBay{{"flush.bay", e.Flush.GetBay()}}
	case *pb.LevelEvent_Leak:
		return []saidBay{{"leak.bay", e.Leak.GetBay()}}
	case *pb.LevelEvent_Siphon:
		return []saidBay{{"siphon.from", e.Siphon.GetFrom()}, {"siphon.to", e.Siphon.GetTo()}}
	default:
		return nil
	}
}

func levelEvent(t *working.Trail, bays []level.Bay, e *pb.LevelEvent) level.Event {
	switch e := e.GetEvent().(type) {
	case *pb.LevelEvent_FallStarts:
		return level.Start(int(e.FallStarts.GetBay()), unit.Litres(e.FallStarts.GetVolumeL()))
	case *pb.LevelEvent_FallStops:
		return level.Stop(int(e.FallStops.GetBay()), unit.Litres(e.FallStops.GetVolumeL()))
	case *pb.LevelEvent_Flush:
		return level.Flush(int(e.Flush.GetBay()), unit.Litres(e.Flush.GetVolumeL()))
	case *pb.LevelEvent_Leak:
		return level.Leak(t, int(e.Leak.GetBay()), unit.LitresPerHour(e.Leak.GetFlowLPerH()), unit.Hours(e.Leak.GetTimeH()))
	case *pb.LevelEvent_Rain:
		return level.Rainfall(t, bays, unit.Millimetres(e.Rain.GetDepthMm()))
	case *pb.LevelEvent_Siphon:
		return level.Siphon(t, bays, int(e.Siphon.GetFrom()), int(e.Siphon.GetTo()), unit.Metres(e.Siphon.GetOutletM()))
	default:
		return level.Event{}
	}
}

// BayLevels turns levels into messages.
func BayLevels(levels []level.Level) []*pb.BayLevel {
	made := make([]*pb.BayLevel, len(levels))
	for i, l := range levels {
		made[i] = &pb.BayLevel{Name: l.Bay, AddedL: l.Added.Litres(), LevelChangeMm: l.Change.Millimetres(), SpiltL: l.Spilt.Litres()}
	}
	return made
}

// HoseOffLoss turns the loss through a hose that came off into a message.
func HoseOffLoss(l level.HoseLoss) *pb.HoseOffLoss {
	return &pb.HoseOffLoss{
		LostL: l.Lost.Litres(), LeftL: l.Left.Litres(), LevelBelowMm: l.Level.Millimetres(), TimeH: l.Time.Hours(),
	}
}

package wire

import (
	"errors"

	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/lining"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// aboveFloor is how far the intake of a pump stands above the floor.
const aboveFloor = 0.15 // m

// JobCircuit is the circuit of a kit in the pond of a job, as it runs in summer. Its flow is that of the kit.
func JobCircuit(j *pb.JobBrief, k *pb.Kit, depth float64) *pb.Circuit {
	d := j.GetBrief().GetDelivery()
	hose := hoseOf(k, k.GetHoseLengthM())
	hose.Fittings, hose.FittingsInWords = d.GetFittings(), d.GetFittingsInWords()
	lift := d.GetOutletHeightM()
	if f := j.GetBrief().GetFall(); f != nil {
		lift = f.GetHeightM()
	}
	return &pb.Circuit{
		Intake: intakeAt("intake", max(depth-aboveFloor, depth/2)),
		Pump:   []*pb.CircuitPart{{Name: "pump", Part: &pb.CircuitPart_Pump{Pump: &pb.PumpPart{Pump: k.GetPump().GetItem().GetPump()}}}},
		Delivery: deliveryTo("outlet", lift+inletAbove(k, true), append(
			[]*pb.CircuitPart{{Name: "hose", Part: &pb.CircuitPart_Hose{Hose: hose}}}, devicesOf(k, true, true)...)),
	}
}

func intakeAt(name string, mouth float64) *pb.CircuitBranch {
	return &pb.CircuitBranch{Name: name, End: &pb.CircuitBranch_Surface{Surface: &pb.OpenSurface{LevelM: new(0.0), MouthM: mouth}}}
}

// deliveryTo ends in the air at a height, or under the surface of the pond where that is none.
func deliveryTo(name string, height float64, parts []*pb.CircuitPart) *pb.CircuitBranch {
	const shallow = 0.1 // m, of an outlet under water
	b := &pb.CircuitBranch{Name: name, Parts: parts}
	if height == 0 {
		b.End = &pb.CircuitBranch_Surface{Surface: &pb.OpenSurface{LevelM: new(0.0), MouthM: shallow}}
	} else {
		b.End = &pb.CircuitBranch_Outlet{Outlet: &pb.OpenOutlet{LevelM: new(height)}}
	}
	return b
}

func hoseOf(k *pb.Kit, length float64) *pb.HoseRun {
	h := k.GetHose().GetItem().GetHose()
	return &pb.HoseRun{LengthM: length, Size: &pb.HoseRun_BoreMm{BoreMm: h.GetBoreMm()}, Wall: h.GetWall(), TailBoreMm: h.TailBoreMm}
}

// inletAbove is what an open filter adds to the lift.
func inletAbove(k *pb.Kit, throughFilter bool) float64 {
	if f := k.GetFilter().GetItem().GetFilter(); throughFilter && f.GetBody() == eq.FilterBody_FILTER_BODY_OPEN {
		return f.GetInletAboveOutletM()
	}
	return 0
}

// devicesOf are the lamp unit and the closed filter, as far as water runs through them.
func devicesOf(k *pb.Kit, throughFilter, throughLamp bool) []*pb.CircuitPart {
	var made []*pb.CircuitPart
	if l := k.GetLampUnit().GetItem().GetLampUnit(); l != nil && throughLamp {
		made = append(made, &pb.CircuitPart{Name: "lamp unit", Part: &pb.CircuitPart_Device{Device: &pb.DevicePart{Clean: l.GetLoss()}}})
	}
	if f := k.GetFilter().GetItem().GetFilter(); f.GetBody() == eq.FilterBody_FILTER_BODY_PRESSURE && throughFilter {
		made = append(made, &pb.CircuitPart{Name: "filter", Part: &pb.CircuitPart_Device{Device: &pb.DevicePart{
			Clean: f.GetCleanLoss(), DueHeadM: new(dueHead(f)),
		}}})
	}
	return made
}

// dueHead is the head a filter loses when due for cleaning, at the flow its clean loss is stated at.
func dueHead(f *eq.Filter) float64 {
	clean, due := Device("filter", f.GetCleanLoss()), Device("filter", f.GetDueLoss())
	return circuit.DeviceLoss.Eval(circuit.DeviceInput{Flow: clean.At, At: due.At, Measured: due.Loss}).Metres()
}

// StatesRequest is the circuit of a job in every state. Transit is the water on its way while the fall runs.
func (n *Notes) StatesRequest(j *pb.JobBrief, k *pb.Kit, pond *pb.PondMeasures, transit float64) *pb.CalculateStatesRequest {
	first := pond.GetBays()[0]
	req := &pb.CalculateStatesRequest{
		Circuit: JobCircuit(j, k, first.GetDepthM()), TransitL: transit, Pond: n.statesPond(j, pond),
		SummerTemperatureC: waterTemperature(j.GetBrief()),
	}
	if w := WinterRouteOf(j); w != nil {
		depth := assumed(n, w.IntakeDepthM, 0.3, assume.Note("winter", "How deep the intake hangs in winter", 0.3, "m", "say where the pump is moved to"))
		req.Winter = &pb.CircuitChange{Intake: intakeAt("intake", depth), Delivery: winterDelivery(k, w)}
	}
	if f := j.GetFlush(); f != nil {
		req.FlushS = new(assumed(n, f.FlushS, 60, assume.Note("flush", "How long it is flushed", 60, "s", "time it once")))
		req.Flush = &pb.CircuitChange{Delivery: flushDelivery(k, f)}
	}
	return req
}

func winterDelivery(k *pb.Kit, w *pb.WinterRoute) *pb.CircuitBranch {
	parts := append([]*pb.CircuitPart{{Name: "winter hose", Part: &pb.CircuitPart_Hose{Hose: hoseOf(k, w.GetHoseLengthM())}}},
		devicesOf(k, !w.GetPastFilter(), !w.GetPastLampUnit())...)
	return deliveryTo("winter outlet", w.GetOutletHeightM()+inletAbove(k, !w.GetPastFilter()), parts)
}

func flushDelivery(k *pb.Kit, f *pb.FlushRoute) *pb.CircuitBranch {
	return deliveryTo("drain", f.GetOutletHeightM(), []*pb.CircuitPart{
		{Name: "flush hose", Part: &pb.CircuitPart_Hose{Hose: hoseOf(k, f.GetHoseLengthM())}},
	})
}

// statesPond is the water whose level goes up and down: the bay the pump stands in, or all bays where they are joined.
func (n *Notes) statesPond(j *pb.JobBrief, pond *pb.PondMeasures) *pb.StatesPond {
	freeboard := lining.UsualFreeboard.Metres()
	if said := freeboardOf(j); said != nil {
		freeboard = *said
	}
	made := &pb.StatesPond{}
	if freeboard > 0 {
		made.FreeboardM = &freeboard
	}
	bays := j.GetBrief().GetPond().GetBays()
	switch {
	case len(bays) == 1:
		made.Water = &pb.StatesPond_Outline{Outline: bays[0]}
	case j.GetBrief().GetPond().SaddleDepthM != nil:
		made.Water = &pb.StatesPond_SurfaceM2{SurfaceM2: pond.GetSurfaceM2()}
	default:
		made.Water = &pb.StatesPond_Outline{Outline: bays[0]}
		n.note(finding.Finding{
			Code: "PUMP_IN_FIRST_BAY", Severity: finding.Note, Subject: "pump",
			Sentence: "The pump is taken to stand in the first bay, " + pond.GetBays()[0].GetName() + ", whose level goes up and down; the others spill back into it.",
			Change:   "give the bay of the pump first", Source: source.Choice,
		})
	}
	return made
}

// waterTemperature is that of the brief, where it is told.
func waterTemperature(b *pb.Brief) *float64 {
	if w := b.GetWater(); w != nil {
		return w.TemperatureC
	}
	return nil
}

// A KitLoop is the one way the water of a kit takes in one state.
type KitLoop struct {
	State string
	Loop  *circuit.Loop
	Water water.Properties
}

// KitLoops are the ways the water of a kit takes, in each state in which it flows.
func KitLoops(j *pb.JobBrief, k *pb.Kit) ([]KitLoop, error) {
	const anyDepth = 1 // the depth of the intake takes no head
	summer, warm := JobCircuit(j, k, anyDepth).GetDelivery(), water.At(nil, FishWater(j.GetBrief().GetWater()).Temperature)
	var made []KitLoop
	add := func(state string, b *pb.CircuitBranch, due bool, w water.Properties) error {
		loop, err := loopOf(b, due)
		made = append(made, KitLoop{State: state, Loop: loop, Water: w})
		return err
	}
	errs := []error{add("clean", summer, false, warm)}
	if k.GetFilter() != nil {
		errs = append(errs, add("due for cleaning", summer, true, warm))
	}
	if w := WinterRouteOf(j); w != nil {
		errs = append(errs, add("winter", winterDelivery(k, w), false, water.At(nil, assume.WinterTemperature)))
	}
	if f := j.GetFlush(); f != nil {
		errs = append(errs, add("flushing", flushDelivery(k, f), false, warm))
	}
	return made, errors.Join(errs...)
}

func loopOf(b *pb.CircuitBranch, due bool) (*circuit.Loop, error) {
	loop := &circuit.Loop{Lift: unit.MetresOfWater(b.GetOutlet().GetLevelM())}
	for _, part := range b.GetParts() {
		if hose := part.GetHose(); hose != nil {
			run, err := Run(hose, pipe.Fitted{Kind: pipe.Exit, Count: 1})
			if err != nil {
				return nil, err
			}
			loop.Runs = append(loop.Runs, run)
			continue
		}
		d := Device(part.GetName(), part.GetDevice().GetClean())
		if head := part.GetDevice().GetDueHeadM(); due && head > 0 {
			d.Loss = unit.MetresOfWater(head)
		}
		loop.Devices = append(loop.Devices, d)
	}
	return loop, nil
}

// WinterRouteOf is the winter place of the pump: as the job describes it, or else as the brief does for a pump that is moved. A hose that is
// left out is as long as in summer, and an outlet that is left out lies under water.
func WinterRouteOf(j *pb.JobBrief) *pb.WinterRoute {
	if r := j.GetWinterRoute(); r != nil {
		return r
	}
	w := j.GetBrief().GetWinter()
	if w.GetPump() != pb.WinterPump_WINTER_PUMP_MOVED {
		return nil
	}
	r := &pb.WinterRoute{
		HoseLengthM: j.GetBrief().GetDelivery().GetHoseLengthM(), OutletHeightM: w.GetOutletHeightM(), PastFilter: !w.GetThroughFilter(), PastLampUnit: !w.GetThroughLampUnit(),
	}
	if w.HoseLengthM != nil {
		r.HoseLengthM = w.GetHoseLengthM()
	}
	return r
}

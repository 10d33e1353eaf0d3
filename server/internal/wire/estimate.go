package wire

import (
	"example.com/pondwright/calc/fill"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Drawn is what the drawing says, without what stands in the water; nil without a drawing. Errors carry paths from the pond on.
func Drawn(stop func() bool, t *working.Trail, m *pb.EstimateVolumeRequest, n *Notes) (*fill.Estimate, error) {
	if m.GetDrawn() == nil {
		return nil, nil
	}
	pond, err := MeasurePondUntil(stop, t, m.GetDrawn())
	if err != nil {
		return nil, err
	}
	n.note(pond.Findings...)
	off := n.Off("drawing", "How far the drawn volume may be off", m.DrawnUncertaintyPercent, fill.DrawnOff)
	return new(fill.Drawn(pond.Volume, off)), nil
}

// Estimates finds the volume in every way that was given.
func Estimates(t *working.Trail, m *pb.EstimateVolumeRequest, n *Notes) ([]fill.Estimate, error) {
	var errs input.Errors
	var found []fill.Estimate
	keep := func(path string, e fill.Estimate, err error) {
		errs.AddUnder(path, err)
		n.note(e.Findings...)
		found = append(found, e)
	}
	if r := m.GetMeter(); r != nil {
		off := n.Off("meter", "How far the meter may be off", r.UncertaintyPercent, fill.MeterOff)
		e, err := fill.ByMeter(t, unit.CubicMetres(r.GetBeforeM3()), unit.CubicMetres(r.GetAfterM3()), off)
		keep("meter", e, err)
	}
	if r := m.GetFillTime(); r != nil {
		off := n.Off("flow", "How far the flow may be off", r.UncertaintyPercent, fill.FlowOff)
		const minute = 60
		e, err := fill.ByTime(t, unit.LitresPerMinute(r.GetFlowLPerMin()), unit.Seconds(minute*r.GetTimeMin()), off)
		keep("fill_time", e, err)
	}
	if r := m.GetSalt(); r != nil {
		e, err := fill.BySalt(t, n.Salting(r))
		keep("salt", e, err)
	}
	return found, errs.Err()
}

// Compared turns estimates into messages, and holds each against the drawing where there is one.
func Compared(estimates []fill.Estimate, drawn *fill.Estimate, n *Notes) ([]*pb.EstimateVolumeResponse_Estimate, error) {
	made := make([]*pb.EstimateVolumeResponse_Estimate, len(estimates))
	for i, e := range estimates {
		made[i] = &pb.EstimateVolumeResponse_Estimate{How: e.How, VolumeL: VolumeBand(e)}
		if drawn == nil {
			continue
		}
		verdict, err := fill.Compare(*drawn, e)
		if err != nil {
			return nil, err
		}
		n.note(verdict)
		made[i].DrawnOverPercent = new((float64(drawn.Expected/e.Expected) - 1) * 100)
	}
	return made, nil
}

package wire

import (
	"fmt"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/stream"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// StreamBeds turns what a stream can run over into messages.
func StreamBeds(beds []stream.Bed) []*pb.StreamBed {
	made := make([]*pb.StreamBed, len(beds))
	for i, b := range beds {
		made[i] = &pb.StreamBed{
			BedKind: b.ID, Name: b.Name, NLow: float64(b.N.Low), N: float64(b.N.Usual), NHigh: float64(b.N.High), Source: Source(b.Source),
		}
	}
	return made
}

// StreamReach reads a reach. The error names bed_kind.
func StreamReach(r *pb.StreamReach) (stream.Reach, error) {
	bed, ok := stream.BedByID(r.GetBedKind())
	if !ok {
		return stream.Reach{}, input.Error{
			Field: "bed_kind", Problem: fmt.Sprintf("there is no bed %q", r.GetBedKind()), Change: "take one that ListBeds names",
		}
	}
	return stream.Reach{
		Length: unit.Metres(r.GetLengthM()), Bed: unit.Metres(r.GetBedM()), Side: unit.Ratio(r.GetSide()),
		Slope: unit.Ratio(r.GetSlope()), N: bed.N, Stone: unit.Metres(r.GetStoneM()),
	}, nil
}

// RunningReach turns a reach as it runs into a message.
func RunningReach(r stream.Running) *pb.RunningReach {
	return &pb.RunningReach{
		DepthLowMm: r.Depth.Low.Millimetres(), DepthMm: r.Depth.Usual.Millimetres(), DepthHighMm: r.Depth.High.Millimetres(),
		HeldLowL: r.Held.Low.Litres(), HeldL: r.Held.Usual.Litres(), HeldHighL: r.Held.High.Litres(),
		VelocityMPerS: r.Velocity.MetresPerSecond(), FroudeNumber: r.Froude,
	}
}

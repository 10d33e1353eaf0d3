package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/stone"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// EdgeLength is how long the edging is: the edges of the pond's bays, or as it was told. Errors carry paths from the pond on.
func EdgeLength(stop func() bool, t *working.Trail, m *pb.PlanStoneRequest, n *Notes) (unit.Length, error) {
	if m.GetPond() == nil {
		return unit.Metres(m.GetEdgeLengthM()), nil
	}
	pond, err := MeasurePondUntil(stop, t, m.GetPond())
	if err != nil {
		return 0, err
	}
	n.note(pond.Findings...)
	var edge unit.Length
	for _, bay := range pond.Sized {
		edge += bay.Perimeter
	}
	return edge, nil
}

// Laid turns an edging into a message.
func Laid(edge unit.Length, l stone.Laid) *pb.PlanStoneResponse_Edging {
	return &pb.PlanStoneResponse_Edging{EdgeM: edge.Metres(), Stones: int32(l.Stones), MassT: tonnes(l.Mass), MortarL: l.Mortar.Litres()}
}

// StoneBeds measures the beds.
func StoneBeds(t *working.Trail, ms []*pb.StoneBed, n *Notes) []*pb.PlanStoneResponse_Bed {
	made := make([]*pb.PlanStoneResponse_Bed, len(ms))
	for i, m := range ms {
		t.About(m.GetName())
		h := n.StoneBed(m).Fill(t)
		made[i] = &pb.PlanStoneResponse_Bed{
			Name: m.GetName(), BulkM3: h.Bulk.CubicMetres(), MassT: tonnes(h.Mass), DisplacesL: h.Solid.Litres(),
		}
	}
	return made
}

// BuiltFall turns the stone of a fall into a message.
func BuiltFall(b stone.Built) *pb.PlanStoneResponse_Fall {
	return &pb.PlanStoneResponse_Fall{
		SpillStones: int32(b.SpillStones), SpillLengthM: b.SpillLength.Metres(), SpillMassKg: b.SpillMass.Kilograms(), WallMassT: tonnes(b.WallMass),
	}
}

// StoneTonnes is all the stone of an answer.
func StoneTonnes(m *pb.PlanStoneResponse) float64 {
	sum := m.GetEdging().GetMassT() + m.GetFall().GetWallMassT()
	sum += float64(m.GetFall().GetSpillStones()) * tonnes(unit.Kilograms(m.GetFall().GetSpillMassKg()))
	for _, b := range m.GetBeds() {
		sum += b.GetMassT()
	}
	return sum
}

func tonnes(m unit.Mass) float64 { return m.Kilograms() / 1000 }

// Edging reads a course of stones along an edge.
func (n *Notes) Edging(m *pb.StoneEdging, edge unit.Length) stone.Edging {
	return stone.Edging{
		Edge: edge, Length: unit.Metres(m.GetLengthM()), Width: unit.Metres(m.GetWidthM()), Height: unit.Metres(m.GetHeightM()),
		Void: unit.Percent(m.GetVoidPercent()), Density: stoneDensity(n, "edging", m.DensityKgPerM3),
		Joint: unit.Metres(m.GetJointM()), Bed: unit.Metres(m.GetBedM()),
	}
}

// StoneBed reads a bed of one size of stone.
func (n *Notes) StoneBed(m *pb.StoneBed) stone.Bed {
	return stone.Bed{
		Length: unit.Metres(m.GetLengthM()), Width: unit.Metres(m.GetWidthM()), Height: unit.Metres(m.GetHeightM()),
		Void: void(n, m.GetName(), m.VoidPercent), Density: stoneDensity(n, m.GetName(), m.DensityKgPerM3),
	}
}

// FallStone reads the stone of a fall.
func (n *Notes) FallStone(m *pb.FallStone) stone.Fall {
	f := stone.Fall{
		Height: unit.Metres(m.GetHeightM()), Steps: int(m.GetSteps()), Sill: unit.Centimetres(m.GetSillWidthCm()),
		Bearing: assumed(n, optional(m.BearingM, unit.Metres), stone.UsualBearing,
			assume.Note("fall", "What each end of a spill stone lies on", stone.UsualBearing.Metres(), "m", "say what the side stones allow")),
		Depth: unit.Metres(m.GetDepthM()), Thickness: unit.Metres(m.GetThicknessM()), Wall: unit.Metres(m.GetWallM()),
		Density: stoneDensity(n, "fall", m.DensityKgPerM3),
	}
	if f.Wall > 0 {
		f.Void = void(n, "fall", m.VoidPercent)
	}
	return f
}

func void(n noter, name string, percent *float64) unit.Ratio {
	return assumed(n, optional(percent, unit.Percent), stone.RubbleVoid,
		assume.Note(or(name, "stone"), "How much of the bulk is voids", stone.RubbleVoid.Percent(), "%",
			"give 0 for a single boulder, some 35 for rounded gravel and 45 for a planted basket"))
}

func stoneDensity(n noter, name string, kgPerM3 *float64) unit.Density {
	return assumed(n, optional(kgPerM3, density), stone.Density,
		assume.Note(or(name, "stone"), "The density of the stone", stone.Density.KilogramsPerCubicMetre(), "kg/m³", "ask the quarry"))
}

func density(kgPerM3 float64) unit.Density { return unit.Density(kgPerM3) }

package wire

import (
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/uv/exposure"
	pb "example.com/pondwright/proto/pondwright/v1"
)

var planes = map[pb.FieldPlane]uv.Plane{
	pb.FieldPlane_FIELD_PLANE_LENGTHWISE: uv.Lengthwise,
	pb.FieldPlane_FIELD_PLANE_CROSSWISE:  uv.Crosswise,
}

// FieldGrid reads the raster of a picture.
func FieldGrid(g *pb.FieldGrid) uv.Grid {
	return uv.Grid{
		Plane: planes[g.GetPlane()], Columns: int(g.GetColumns()), Rows: int(g.GetRows()), Height: unit.Millimetres(g.GetHeightMm()),
	}
}

// FieldPlaces reads places, dark as yet.
func FieldPlaces(m *pb.FieldPlaces) []uv.Spot {
	spots := make([]uv.Spot, len(m.GetPlaces()))
	for i, p := range m.GetPlaces() {
		spots[i] = uv.Spot{X: unit.Millimetres(p.GetXMm()), Y: unit.Millimetres(p.GetYMm()), Z: unit.Millimetres(p.GetZMm())}
	}
	return spots
}

// FieldPoints turns places and their light into messages.
func FieldPoints(spots []uv.Spot) []*pb.FieldPoint {
	made := make([]*pb.FieldPoint, len(spots))
	for i, s := range spots {
		made[i] = &pb.FieldPoint{
			XMm: s.X.Millimetres(), YMm: s.Y.Millimetres(), ZMm: s.Z.Millimetres(),
			RadialMwPerCm2:     s.Radial.MilliwattsPerSquareCentimetre(),
			LineSourceMwPerCm2: s.LineSource.MilliwattsPerSquareCentimetre(),
			CarefulMwPerCm2:    s.Careful.MilliwattsPerSquareCentimetre(),
		}
	}
	return made
}

// FieldModel turns the light of a chamber by one model into a message.
func FieldModel(average unit.FluenceRate, absorbed unit.Ratio) *pb.FieldModel {
	return &pb.FieldModel{AverageMwPerCm2: average.MilliwattsPerSquareCentimetre(), AbsorbedPercent: absorbed.Percent()}
}

// LampsApart turns the light of lamps off the axis into a message.
func LampsApart(a uv.Apart) *pb.LampsApart {
	return &pb.LampsApart{
		AverageMwPerCm2: a.Careful.MilliwattsPerSquareCentimetre(), ChamberWaterL: a.Volume.Litres(), OfOnAxisPercent: a.OfOnAxis.Percent(),
	}
}

// PointSourceChecks turns checks by point sources into messages.
func PointSourceChecks(checks []uv.PointCheck) []*pb.PointSourceCheck {
	made := make([]*pb.PointSourceCheck, len(checks))
	for i, c := range checks {
		made[i] = &pb.PointSourceCheck{
			RadiusMm: c.Radius.Millimetres(), Sources: int32(c.Sources), // a few thousand at most
			LineSourceMwPerCm2:   c.LineSource.MilliwattsPerSquareCentimetre(),
			PointSourcesMwPerCm2: c.PointSources.MilliwattsPerSquareCentimetre(), ApartPercent: c.Apart().Percent(),
		}
	}
	return made
}

// BareLamp turns lamps out of their chamber into a message.
func BareLamp(b uv.BareLamp) *pb.BareLamp {
	limit, _ := exposure.Limit()
	return &pb.BareLamp{
		DistanceM: b.Distance.Metres(), IrradianceMwPerCm2: b.Irradiance.MilliwattsPerSquareCentimetre(),
		LimitMjPerCm2: limit.MillijoulesPerSquareCentimetre(), TimeToLimitS: b.TimeToLimit.Seconds(),
	}
}

package wire

import (
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/visit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// VisitWater reads tests of the water.
func VisitWater(m *pb.VisitWater) visit.Water {
	mgL := func(said *float64) *unit.Concentration { return optional(said, unit.MilligramsPerLitre) }
	return visit.Water{
		Temperature: Celsius(m.TemperatureC), PH: m.Ph, TAN: mgL(m.TanMgPerL), Nitrite: mgL(m.NitriteNMgPerL), Nitrate: mgL(m.NitrateNMgPerL),
		Alkalinity: mgL(m.AlkalinityMgPerL), Oxygen: mgL(m.OxygenMgPerL), Chlor: mgL(m.ChlorineMgPerL),
	}
}

// VisitedLevel turns what a fall of the level says into a message, without its findings.
func VisitedLevel(l visit.Loss) *pb.VisitedLevel {
	made := &pb.VisitedLevel{
		EvaporationMmPerDay: l.FromEvaporation.Millimetres(), UnexplainedMmPerDay: l.Unexplained.Millimetres(),
		UnexplainedUnsureMmPerDay: l.Unsure.Millimetres(), UnexplainedLPerDay: l.UnexplainedLitres.Litres(),
	}
	if l.FallShare != nil {
		made.FallShareMmPerDay, made.FallShareLPerDay = new(l.FallShare.Millimetres()), new(l.FallLitres.Litres())
	}
	return made
}

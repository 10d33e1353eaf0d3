package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/clarity"
	pb "example.com/pondwright/proto/pondwright/v1"
)

var sunAssumed = finding.Finding{
	Code: "ASSUMED", Severity: finding.Note, Subject: "green water", Source: source.Choice,
	Sentence: "How much sun the pond gets was not given; full sun is assumed.", Change: "say shade, if it is",
}

// GreenWater reads what algae grow in and light has to pass.
func GreenWater(m *pb.Water) Water {
	if m == nil {
		m = &pb.Water{}
	}
	var w Water
	w.Temperature = assumed(&w, optional(m.TemperatureC, unit.Celsius), assume.SummerTemperature,
		assume.Note("water", "The temperature of the water", assume.SummerTemperature.Celsius(), "°C", "measure it where the algae grow"))
	green, _ := clarity.Find(clarity.GreenPond)
	note := assume.Note("water", "How much UV the water lets through over 10 mm", green.Typical.Percent(), "%",
		"have a sample of the green water measured at 254 nm")
	note.Source = green.Source
	w.Transmittance = assumed(&w, optional(m.UvTransmittancePercent, unit.Percent), green.Typical, note)
	return w
}

// Clarity reads how water is stated.
func Clarity(req *pb.CalculateClarityRequest) clarity.Statement {
	s := clarity.Statement{
		Algae:    optional(req.ChlorophyllUgPerL, microgramsPerLitre),
		Specific: req.SpecificAbsorptionM2PerKg,
	}
	switch stated := req.GetStated().(type) {
	case *pb.CalculateClarityRequest_Transmittance:
		s.Transmittance = unit.Percent(stated.Transmittance.GetPercent())
		s.Path = unit.Millimetres(stated.Transmittance.GetPathMm())
	case *pb.CalculateClarityRequest_AbsorptionBase_10PerM:
		s.Decadic = optional(&stated.AbsorptionBase_10PerM, perMetre)
	case *pb.CalculateClarityRequest_AbsorptionBaseEPerM:
		s.Naperian = optional(&stated.AbsorptionBaseEPerM, perMetre)
	case *pb.CalculateClarityRequest_DissolvedCarbon:
		s.Carbon = &clarity.CarbonInput{
			Carbon:   unit.MilligramsPerLitre(stated.DissolvedCarbon.GetDocMgPerL()),
			Specific: stated.DissolvedCarbon.GetSuvaLPerMgM(),
		}
	case *pb.CalculateClarityRequest_WaterKind:
		s.Kind = stated.WaterKind
	}
	return s
}

func perMetre(a float64) unit.AbsorptionCoefficient   { return unit.AbsorptionCoefficient(a) }
func microgramsPerLitre(c float64) unit.Concentration { return unit.MilligramsPerLitre(c / 1000) }

// WaterClarity turns the clarity of water into a message.
func WaterClarity(c clarity.Clarity) *pb.WaterClarity {
	return &pb.WaterClarity{
		AbsorptionBaseEPerM: c.Naperian.PerMetre(), AbsorptionBase_10PerM: c.Decadic.PerMetre(),
		Transmittance_10MmPercent: c.Over10.Percent(), Transmittance_100MmPercent: c.Over100.Percent(),
	}
}

// WaterKind turns a kind of water into a message; nil is none.
func WaterKind(w *clarity.Water) *pb.WaterKind {
	if w == nil {
		return nil
	}
	return &pb.WaterKind{
		Key: w.Key, Name: w.Name, Source: Source(w.Source),
		UvTransmittancePercent: &pb.Band{Low: w.Low.Percent(), Expected: w.Typical.Percent(), High: w.High.Percent()},
	}
}

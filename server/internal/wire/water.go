package wire

import (
	"example.com/pondwright/calc/assume"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/unit"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Water is what the water is like, said or assumed.
type Water struct {
	Temperature   unit.Temperature
	PH            float64
	Transmittance unit.Ratio
	Findings      []finding.Finding // what was assumed
}

// FeedWater reads what fish are fed by, which is how warm it is.
func FeedWater(m *pb.Water) Water {
	if m == nil {
		m = &pb.Water{}
	}
	var w Water
	w.Temperature = assumed(&w, optional(m.TemperatureC, unit.Celsius), assume.SummerTemperature,
		assume.Note("water", "The temperature of the water", assume.SummerTemperature.Celsius(), "°C", "measure it on a summer evening"))
	return w
}

// FishWater reads what fish and filter live in.
func FishWater(m *pb.Water) Water {
	if m == nil {
		m = &pb.Water{}
	}
	w := FeedWater(m)
	w.PH = assumed(&w, m.Ph, assume.PH,
		assume.Note("water", "The pH of the water", assume.PH, "", "measure it at dusk, when it is highest"))
	return w
}

// LitWater reads what light has to pass.
func LitWater(m *pb.Water) Water {
	if m == nil {
		m = &pb.Water{}
	}
	var w Water
	w.Transmittance = assumed(&w, optional(m.UvTransmittancePercent, unit.Percent), assume.Transmittance,
		assume.Note("water", "How much UV the water lets through over 10 mm", assume.Transmittance.Percent(), "%",
			"have a sample measured at 254 nm; green or brown water lets far less through"))
	return w
}

// A noter keeps findings.
type noter interface{ note(...finding.Finding) }

func (w *Water) note(found ...finding.Finding) { w.Findings = append(w.Findings, found...) }
func (p *Plan) note(found ...finding.Finding)  { p.Findings = append(p.Findings, found...) }

// assumed reads what was said, or assumes and notes it.
func assumed[T any](n noter, said *T, otherwise T, note finding.Finding) T {
	v, found := assume.Value(said, otherwise, note)
	n.note(found...)
	return v
}

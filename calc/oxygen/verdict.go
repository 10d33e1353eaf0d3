package oxygen

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Limit is oxygen that fish are kept above.
type Limit struct {
	Name   string
	Least  unit.Concentration
	Source source.Source
}

// Limits are what the oxygen at dawn is held against.
func Limits() []Limit {
	return []Limit{
		{"oxygen at dawn, kept for good", ComfortOxygen, source.Practice},
		{"oxygen at dawn, at the very least", LeastOxygen, source.CyprinidWater},
	}
}

func verdicts(in NightInput, n Night) []finding.Finding {
	var found []finding.Finding
	switch low := n.Low.MilligramsPerLitre(); {
	case n.Low < LeastOxygen:
		found = append(found, dawnFinding("OXYGEN_TOO_LOW_AT_DAWN", finding.Stop, low, LeastOxygen, source.CyprinidWater))
	case n.Low < ComfortOxygen:
		found = append(found, dawnFinding("OXYGEN_LOW_AT_DAWN", finding.Caution, low, ComfortOxygen, source.Practice))
	}
	switch {
	case n.Low < LeastOxygen:
	case n.PumpOff < LeastOxygen:
		found = append(found, offFinding("OXYGEN_HANGS_ON_THE_FALL", "With the fall off at night", n.PumpOff, n.PumpOffLasts))
	case n.PowerOff < LeastOxygen:
		found = append(found, offFinding("OXYGEN_HANGS_ON_POWER", "With pump and air off at night", n.PowerOff, n.PowerOffLasts))
	}
	if in.Temperature > 30 {
		found = append(found, finding.Finding{
			Code: "SURFACE_TRANSFER_OUTSIDE_RANGE", Severity: finding.Caution, Subject: "water",
			Sentence: fmt.Sprintf("At %.1f °C the water is warmer than the 30 °C to which the oxygen through the surface is stated; it was taken at 30 °C.", in.Temperature.Celsius()),
			Value:    finding.Of(in.Temperature.Celsius(), "°C"), Limit: finding.Of(30, "°C"), Change: "Shade the pond.", Source: source.SchmidtNumber,
		})
	}
	return found
}

func dawnFinding(code string, severity finding.Severity, low float64, limit unit.Concentration, src source.Source) finding.Finding {
	return finding.Finding{
		Code: code, Severity: severity, Subject: "fish",
		Sentence: fmt.Sprintf("Oxygen may sink to %.1f mg/L by dawn; fish are kept above %.0f mg/L.", low, limit.MilligramsPerLitre()),
		Value:    finding.Of(low, "mg/L"), Limit: finding.Of(limit.MilligramsPerLitre(), "mg/L"),
		Change: "Aerate at night, feed less in hot spells, keep fewer fish.", Source: src,
	}
}

func offFinding(code, off string, dawn unit.Concentration, lasts unit.Time) finding.Finding {
	return finding.Finding{
		Code: code, Severity: finding.Caution, Subject: "pump",
		Sentence: fmt.Sprintf("%s the oxygen may sink to %.1f mg/L by dawn, and below %.0f mg/L after about %.1f hours.",
			off, dawn.MilligramsPerLitre(), LeastOxygen.MilligramsPerLitre(), lasts.Hours()),
		Value: finding.Of(dawn.MilligramsPerLitre(), "mg/L"), Limit: finding.Of(LeastOxygen.MilligramsPerLitre(), "mg/L"),
		Change: "Leave pump and air running through warm nights and keep a spare air pump that runs on a battery.", Source: source.CyprinidWater,
	}
}

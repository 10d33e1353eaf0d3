package oxygen

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// Judge holds the oxygen of water that fish are in against what they are kept above.
func Judge(oxygen unit.Concentration) []finding.Finding {
	limit, severity, from := ComfortOxygen, finding.Caution, source.Practice
	if oxygen < LeastOxygen {
		limit, severity, from = LeastOxygen, finding.Stop, source.CyprinidWater
	}
	if oxygen >= limit {
		return nil
	}
	found, kept := oxygen.MilligramsPerLitre(), limit.MilligramsPerLitre()
	return []finding.Finding{{
		Code: "OXYGEN_LOW", Severity: severity, Subject: "fish",
		Sentence: fmt.Sprintf("The water holds %.1f mg/L of oxygen; fish are kept above %.0f mg/L.", found, kept),
		Value:    finding.Of(found, "mg/L"), Limit: finding.Of(kept, "mg/L"),
		Change: "Aerate, and do not feed until it is higher.", Source: from,
	}}
}

package filter

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// WaterVerdicts are what is said of water too sour or too alkaline for fish and filter.
func WaterVerdicts(pH float64, share unit.Ratio) []finding.Finding {
	var found []finding.Finding
	for _, f := range []*finding.Finding{phVerdict(pH, share), acidVerdict(pH)} {
		if f != nil {
			found = append(found, *f)
		}
	}
	return found
}

func phVerdict(pH float64, share unit.Ratio) *finding.Finding {
	if pH >= 6 && pH <= 9 {
		return nil
	}
	limit := 9.0
	if pH < 6 {
		limit = 6
	}
	return &finding.Finding{
		Code: "PH_OUTSIDE_FISH_WATER", Severity: finding.Caution, Subject: "water",
		Sentence: fmt.Sprintf("pH %.1f lies outside the 6 to 9 that carp and goldfish live in; %.0f %% of the ammonia is in its harmful form.", pH, share.Percent()),
		Value:    finding.Of(pH, "pH"), Limit: finding.Of(limit, "pH"),
		Change: "Find the cause, such as fresh mortar or too little hardness, before fish go in.", Source: source.CyprinidWater,
	}
}

// acidVerdict: the rates say nothing of sour water, in which nitrification slows and at last stops.
func acidVerdict(pH float64) *finding.Finding {
	if pH >= 7 {
		return nil
	}
	return &finding.Finding{
		Code: "FILTER_WATER_ACID", Severity: finding.Caution, Subject: "filter",
		Sentence: fmt.Sprintf("At pH %.1f the filter works more slowly than the rates used here.", pH),
		Value:    finding.Of(pH, "pH"), Limit: finding.Of(7, "pH"),
		Change: "Test the carbonate hardness; the filter uses it up.", Source: source.NitrifierGrowth,
	}
}

// TapVerdict says so where new water brings more ammonia than fish are kept under.
func TapVerdict(tap, limit unit.Concentration) []finding.Finding {
	if tap <= limit {
		return nil
	}
	brought, least := tap.MilligramsPerLitre(), limit.MilligramsPerLitre()
	return []finding.Finding{{
		Code: "TAP_BRINGS_AMMONIA", Severity: finding.Caution, Subject: "tap water",
		Sentence: fmt.Sprintf("The new water itself holds %s mg/L of ammonia nitrogen; at this pH and temperature fish are kept below %.2f mg/L.", finding.Figures(brought), least),
		Value:    finding.Of(brought, "mg/L"), Limit: finding.Of(least, "mg/L"),
		Change: "Ask the supplier whether it holds chloramine, treat it before it meets fish, and change little at a time.", Source: source.AmmoniaLimit,
	}}
}

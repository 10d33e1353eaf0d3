package stock

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
)

// Welfare is the caution that goes with every answer on the water fish live in.
func Welfare() finding.Finding {
	return finding.Finding{
		Code: "FISH_WELFARE", Severity: finding.Caution, Subject: "fish",
		Sentence: "These numbers are for planning. Fish that gasp, rub themselves, clamp their fins or stop feeding need help the same day: test the water first, change some of it, give air, and stop feeding.",
		Change:   "Keep test kits for ammonia, nitrite, pH and hardness. For sick fish and for any medicine ask a vet.", Source: source.Practice,
	}
}

package outline

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// How far the level is left to fall before it is topped up: common practice, no source.
const (
	TopUpSoon = unit.Length(0.050)
	TopUpLate = unit.Length(0.075)
)

// TopUp says how much water goes until a pond is topped up.
func (j Joined) TopUp() (soon, late unit.Volume, found finding.Finding) {
	soon, late = j.VolumeLost(TopUpSoon), j.VolumeLost(TopUpLate)
	return soon, late, finding.Finding{
		Code: "TOP_UP_ALLOWANCE", Severity: finding.Note, Subject: "level",
		Sentence: fmt.Sprintf("Usually the level is left to fall %.0f to %.0f mm before the lining shows and it is topped up: %s to %s L.",
			TopUpSoon.Millimetres(), TopUpLate.Millimetres(), finding.Whole(soon.Litres()), finding.Whole(late.Litres())),
		Value:  finding.Of(late.Litres(), "L"),
		Source: source.Practice,
	}
}

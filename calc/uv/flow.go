package uv

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// AboveMade says so where more water runs through a unit than its housing and fittings are made for.
func AboveMade(runs, made unit.Flow) []finding.Finding {
	flow, most := runs.LitresPerHour(), made.LitresPerHour()
	if most == 0 || flow <= most {
		return nil
	}
	return []finding.Finding{{
		Code: "FLOW_ABOVE_LAMP_UNIT", Severity: finding.Stop, Subject: subject, Source: source.Definition,
		Value: finding.Of(flow, "L/h"), Limit: finding.Of(most, "L/h"),
		Sentence: fmt.Sprintf("%s L/h flow, more than the %s L/h the lamp unit is made for.", finding.Whole(flow), finding.Whole(most)),
		Change:   "Take a unit made for more flow, or lead only part of the flow through it.",
	}}
}

package visit

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// Bands of the flow index, of common practice.
const (
	soundIndex = unit.Ratio(0.9)
	lateIndex  = unit.Ratio(0.7)
	aboveIndex = unit.Ratio(1.15)
)

// JudgeFlow says what a flow index asks for. Unsure is how far the measurement may be off, of the flow.
func JudgeFlow(index, unsure unit.Ratio) finding.Finding {
	f := finding.Finding{
		Code: "FLOW_AS_PLANNED", Severity: finding.Note, Subject: "flow", Value: finding.Of(index.Percent(), "%"), Source: source.Practice,
		Sentence: fmt.Sprintf("The flow is %.0f %% of what is expected of a clean circuit.", index.Percent()),
	}
	switch {
	case index < lateIndex:
		f.Code, f.Severity, f.Limit = "FLOW_FAR_BELOW", finding.Caution, finding.Of(lateIndex.Percent(), "%")
		f.Sentence += " Less than 70 % starves filter and fish of water."
		f.Change = "clean now, then measure again; what is still missing then is in hose, lamp unit or pump"
	case index < soundIndex-unsure:
		f.Code, f.Severity, f.Limit = "FLOW_BELOW", finding.Caution, finding.Of(soundIndex.Percent(), "%")
		f.Change = "clean cage and filter and measure again"
	case index > aboveIndex+unsure:
		f.Code, f.Severity, f.Limit = "FLOW_ABOVE", finding.Caution, finding.Of(aboveIndex.Percent(), "%")
		f.Sentence += " More than can be: another pump, a way past the filter, or a slip of the watch."
		f.Change = "measure again with a larger vessel, and look whether a valve lets water past the filter"
	}
	return f
}

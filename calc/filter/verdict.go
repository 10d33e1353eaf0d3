package filter

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
)

// NotJudged says that a filter was held against no load, since fish in water so cold are not fed. It fits no better for that.
func NotJudged() finding.Finding {
	return finding.Finding{
		Code: "FILTER_NOT_JUDGED", Severity: finding.Caution, Subject: "filter",
		Sentence: "The fish give off next to no ammonia in water this cold, so that nothing is said of whether the filter carries them.",
		Change:   "Ask again with the warmest water of the summer.", Source: source.CarpFeeding,
	}
}

// verdicts are the findings of an assessment, capacity first.
func verdicts(in AssessInput, a Assessment) []finding.Finding {
	var found []finding.Finding
	for _, judge := range []func(AssessInput, Assessment) *finding.Finding{capacityVerdict, flowVerdict} {
		if f := judge(in, a); f != nil {
			found = append(found, *f)
		}
	}
	return append(found, WaterVerdicts(in.PH, a.UnionisedShare)...)
}

func capacityVerdict(in AssessInput, a Assessment) *finding.Finding {
	load, wanted := in.Load.GramsPerDay(), a.CapacityWanted.GramsPerDay()
	low, expected := a.Capacity.Low.GramsPerDay(), a.Capacity.Expected.GramsPerDay()
	f := finding.Finding{Subject: "filter", Value: finding.Of(expected, "g/day"), Source: source.MediaRates}
	switch {
	case expected < load:
		f.Code, f.Severity, f.Limit = "FILTER_BELOW_LOAD", finding.Stop, finding.Of(load, "g/day")
		f.Sentence = fmt.Sprintf("The filter takes up about %.1f g of ammonia nitrogen a day; the fish give off %.1f g.", expected, load)
		f.Change = "Take a larger filter or keep fewer fish."
	case expected < wanted:
		f.Code, f.Severity, f.Limit = "FILTER_BELOW_MARGIN", finding.Caution, finding.Of(wanted, "g/day")
		f.Sentence = fmt.Sprintf("The filter carries the %.1f g a day of the fish with %.1f g, less than the margin asked for (%.1f g).", load, expected, wanted)
		f.Change = "Take the next size up."
	case low < load:
		f.Code, f.Severity, f.Limit = "FILTER_RATE_UNCERTAIN", finding.Caution, finding.Of(load, "g/day")
		f.Value = finding.Of(low, "g/day")
		f.Sentence = fmt.Sprintf("At the low end of the published rates the filter takes up %.1f g a day, less than the %.1f g of the fish.", low, load)
		f.Change = "Test ammonia weekly in the first summer."
	default:
		return nil
	}
	return &f
}

func flowVerdict(in AssessInput, a Assessment) *finding.Finding {
	least, flow := a.LeastFlow.LitresPerHour(), in.Flow.LitresPerHour()
	if in.Load == 0 || flow >= least {
		return nil
	}
	f := finding.Finding{Subject: "filter", Limit: finding.Of(least, "L/h"), Source: source.Definition}
	if flow == 0 {
		f.Code, f.Severity = "FILTER_FLOW_NOT_GIVEN", finding.Note
		f.Sentence = fmt.Sprintf("No flow was given; the filter must see more than %s L/h to hold %.2f mg/L.", finding.Whole(least), a.TANLimit.MilligramsPerLitre())
		f.Change = "Work out the flow of the pump and hose first."
		return &f
	}
	f.Code, f.Severity, f.Value = "FILTER_FLOW_TOO_SMALL", finding.Stop, finding.Of(flow, "L/h")
	f.Sentence = fmt.Sprintf("%s L/h cannot bring the ammonia to the filter: even if all of it were removed in one pass, %s L/h are needed to hold %.2f mg/L.", finding.Whole(flow), finding.Whole(least), a.TANLimit.MilligramsPerLitre())
	f.Change = "Raise the flow through the filter."
	return &f
}

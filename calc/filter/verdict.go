package filter

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
)

// verdicts are the findings of an assessment, capacity first.
func verdicts(in AssessInput, a Assessment) []finding.Finding {
	var found []finding.Finding
	for _, judge := range []func(AssessInput, Assessment) *finding.Finding{capacityVerdict, flowVerdict, phVerdict, acidVerdict} {
		if f := judge(in, a); f != nil {
			found = append(found, *f)
		}
	}
	return found
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
		f.Sentence = fmt.Sprintf("No flow was given; the filter must see more than %.0f L/h to hold %.2f mg/L.", least, a.TANLimit.MilligramsPerLitre())
		f.Change = "Work out the flow of the pump and hose first."
		return &f
	}
	f.Code, f.Severity, f.Value = "FILTER_FLOW_TOO_SMALL", finding.Stop, finding.Of(flow, "L/h")
	f.Sentence = fmt.Sprintf("%.0f L/h cannot bring the ammonia to the filter: even if all of it were removed in one pass, %.0f L/h are needed to hold %.2f mg/L.", flow, least, a.TANLimit.MilligramsPerLitre())
	f.Change = "Raise the flow through the filter."
	return &f
}

func phVerdict(in AssessInput, a Assessment) *finding.Finding {
	if in.PH >= 6 && in.PH <= 9 {
		return nil
	}
	limit := 9.0
	if in.PH < 6 {
		limit = 6
	}
	return &finding.Finding{
		Code: "PH_OUTSIDE_FISH_WATER", Severity: finding.Caution, Subject: "water",
		Sentence: fmt.Sprintf("pH %.1f lies outside the 6 to 9 that carp and goldfish live in; %.0f %% of the ammonia is in its harmful form.", in.PH, a.UnionisedShare.Percent()),
		Value:    finding.Of(in.PH, "pH"), Limit: finding.Of(limit, "pH"),
		Change: "Find the cause, such as fresh mortar or too little hardness, before fish go in.", Source: source.CyprinidWater,
	}
}

// acidVerdict: the rates say nothing of sour water, in which nitrification slows and at last stops.
func acidVerdict(in AssessInput, a Assessment) *finding.Finding {
	if in.PH >= 7 {
		return nil
	}
	return &finding.Finding{
		Code: "FILTER_WATER_ACID", Severity: finding.Caution, Subject: "filter",
		Sentence: fmt.Sprintf("At pH %.1f the filter works more slowly than the rates used here.", in.PH),
		Value:    finding.Of(in.PH, "pH"), Limit: finding.Of(7, "pH"),
		Change: "Test the carbonate hardness; the filter uses it up.", Source: source.NitrifierGrowth,
	}
}

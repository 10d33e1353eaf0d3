package solids

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// cleanedTooOften is less time between cleanings than people keep up with.
const cleanedTooOften = unit.Time(7 * 86400)

func verdicts(in Input, y Year) []finding.Finding {
	found := []finding.Finding{cleanGently}
	if in.Flush == 0 {
		found = append(found, finding.Finding{
			Code: "FLUSH_WATER_NOT_KNOWN", Severity: finding.Note, Subject: "filter",
			Sentence: "How much water a cleaning throws away was not given, so none is counted.",
			Change:   "Measure it once with a bucket, or ask the maker.", Source: source.Definition,
		})
	} else {
		found = append(found, finding.Finding{
			Code: "FLUSHES_CHANGE_WATER", Severity: finding.Note, Subject: "water",
			Sentence: fmt.Sprintf("Cleaning throws away %.0f L in a year, %.0f %% of the pond; what replaces it counts as a change of water and brings what is in the tap.",
				y.Water.Litres(), y.Share.Percent()),
			Value: finding.Of(y.Water.Litres(), "L"), Change: "Take the chlorine out of tap water first, let it warm, and test it for nitrate.", Source: source.Practice,
		})
	}
	shortest := y.Months[0].Expected
	for _, m := range y.Months {
		shortest = min(shortest, m.Expected)
	}
	if shortest < cleanedTooOften {
		found = append(found, finding.Finding{
			Code: "CLEANING_TOO_OFTEN", Severity: finding.Caution, Subject: "filter",
			Sentence: fmt.Sprintf("In the warmest month the %s is due about every %.1f days.", in.Medium, shortest.Days()),
			Value:    finding.Of(shortest.Days(), "days"), Limit: finding.Of(cleanedTooOften.Days(), "days"),
			Change: "Take out the coarse dirt before it, or take more of it.", Source: source.SludgeDensity,
		})
	}
	return found
}

var cleanGently = finding.Finding{
	Code: "CLEAN_IN_POND_WATER", Severity: finding.Note, Subject: "filter",
	Sentence: "Rinse media in pond water and never all at once: chlorine in tap water kills what lives on them. Switch off pump and lamp first.",
	Change:   "Keep a tub of pond water beside the filter.", Source: source.Practice,
}

package solids

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// cleanedTooOften is less time between cleanings than people keep up with.
const cleanedTooOften = unit.Time(7 * 86400)

// gentleWeek is the share of a pond that is changed in a week without harm, by habit of the trade.
const gentleWeek = unit.Ratio(0.3)

func verdicts(in Input, y Year) []finding.Finding {
	found := []finding.Finding{cleanGently}
	if in.Flush == 0 {
		found = append(found, finding.Finding{
			Code: "FLUSH_WATER_NOT_KNOWN", Severity: finding.Note, Subject: "filter",
			Sentence: "How much water a cleaning throws away was not given, so none is counted.",
			Change:   "Measure it once with a bucket, or ask the maker.", Source: source.Definition,
		})
	} else {
		found = append(found, flushesChange(y))
	}
	busiest := slices.MinFunc(y.Months[:], func(a, b Month) int { return cmp.Compare(a.Expected, b.Expected) })
	if busiest.Expected < cleanedTooOften {
		found = append(found, tooOften(in, busiest))
	}
	return found
}

// flushesChange says what water the cleaning costs; so much of it in one week is a shock to fish.
func flushesChange(y Year) finding.Finding {
	f := finding.Finding{
		Code: "FLUSHES_CHANGE_WATER", Severity: finding.Note, Subject: "water",
		Sentence: fmt.Sprintf("Cleaning throws away %s L in a year, %s %% of the pond; what replaces it counts as a change of water and brings what is in the tap.",
			finding.Whole(y.Water.Litres()), finding.Figures(y.Share.Percent())),
		Value: finding.Of(y.Water.Litres(), "L"), Change: "Take the chlorine out of tap water first, let it warm, and test it for nitrate.", Source: source.Practice,
	}
	if most := slices.MaxFunc(y.Months[:], func(a, b Month) int { return cmp.Compare(a.WeeklyShare, b.WeeklyShare) }).WeeklyShare; most > gentleWeek {
		f.Severity = finding.Caution
		f.Sentence += fmt.Sprintf(" In the busiest month that is %s %% of the pond a week, more than fish take easily.", finding.Figures(most.Percent()))
	}
	return f
}

// tooOften is a caution, and a stop where even the latest guess asks for a cleaning a day.
func tooOften(in Input, busiest Month) finding.Finding {
	f := finding.Finding{
		Code: "CLEANING_TOO_OFTEN", Severity: finding.Caution, Subject: "filter",
		Sentence: fmt.Sprintf("In the warmest month the %s is due about every %s days.", in.Medium, finding.Figures(busiest.Expected.Days())),
		Value:    finding.Of(busiest.Expected.Days(), "days"), Limit: finding.Of(cleanedTooOften.Days(), "days"),
		Change: "Take out the coarse dirt before it, or take more of it.", Source: source.SludgeDensity,
	}
	if busiest.Late < unit.Days(1) {
		f.Severity = finding.Stop
		f.Sentence = fmt.Sprintf("In the warmest month the %s is due more than once a day: it is far too small for these fish.", in.Medium)
	}
	return f
}

var cleanGently = finding.Finding{
	Code: "CLEAN_IN_POND_WATER", Severity: finding.Note, Subject: "filter",
	Sentence: "Rinse media in pond water and never all at once: chlorine in tap water kills what lives on them. Switch off pump and lamp first.",
	Change:   "Keep a tub of pond water beside the filter.", Source: source.Practice,
}

package balance

import (
	"fmt"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// nitrateCeiling is for fish kept long, as nitrogen.
const nitrateCeiling = unit.Concentration(50e-3)

func verdicts(in Input, w Water, share unit.Ratio) []finding.Finding {
	var found []finding.Finding
	limit := tanLimit(share)
	switch {
	case !w.Rests:
		found = append(found, finding.Finding{
			Code: "AMMONIA_RISES", Severity: finding.Stop, Subject: "filter",
			Sentence: "The fish give off more ammonia than the filter takes up, and no water is changed: ammonia rises without end.",
			Change:   "Take a larger filter, keep fewer fish, and change water at once.", Source: source.MediaRates,
		})
	case w.TAN > limit:
		found = append(found, settlesHigh(in, w, limit))
	case !w.HighRests || w.TANHigh > limit:
		found = append(found, mayStandHigh(w, limit))
	}
	found = append(found, filter.WaterVerdicts(in.PH, share)...)
	found = append(found, filter.TapVerdict(in.TapTAN, limit)...)
	found = append(found, nitriteVerdict(in, w)...)
	if nitrate := w.Nitrate.Before; nitrate > nitrateCeiling {
		found = append(found, finding.Finding{
			Code: "NITRATE_SETTLES_HIGH", Severity: finding.Caution, Subject: "water",
			Sentence: fmt.Sprintf("Nitrate settles at %s mg/L of nitrogen between changes of water.", finding.Figures(nitrate.MilligramsPerLitre())),
			Value:    finding.Of(nitrate.MilligramsPerLitre(), "mg/L"), Limit: finding.Of(nitrateCeiling.MilligramsPerLitre(), "mg/L"),
			Change: "Change more water, or give plants room.", Source: source.NitrateCeiling,
		})
	}
	if in.WeeklyChange == 0 && in.Load > 0 {
		found = append(found, finding.Finding{
			Code: "NITRATE_RISES", Severity: finding.Note, Subject: "water",
			Sentence: "Without a change of water nitrate rises until plants take as much as the fish give.",
			Change:   "Change a tenth of the water each week in the warm months.", Source: source.Practice,
		})
	}
	return append(found, alkalinityVerdict(in, w)...)
}

func settlesHigh(in Input, w Water, limit unit.Concentration) finding.Finding {
	settled, kept := w.TAN.MilligramsPerLitre(), limit.MilligramsPerLitre()
	f := finding.Finding{
		Code: "AMMONIA_SETTLES_HIGH", Severity: finding.Stop, Subject: "water",
		Sentence: fmt.Sprintf("Ammonia settles at %s mg/L; at this pH and temperature fish are kept below %.2f mg/L.", finding.Figures(settled), kept),
		Value:    finding.Of(settled, "mg/L"), Limit: finding.Of(kept, "mg/L"),
		Change: "More flow through the filter, a larger filter, fewer fish or less feed.", Source: source.AmmoniaLimit,
	}
	if most := w.Capacity; in.Load > most {
		f.Sentence = fmt.Sprintf("The fish give off %s g of ammonia nitrogen a day and the filter takes up %s g at most: the change of water alone holds the rest, at %s mg/L, where fish are kept below %.2f mg/L.",
			finding.Figures(in.Load.GramsPerDay()), finding.Figures(most.GramsPerDay()), finding.Figures(settled), kept)
		f.Change = "Take a larger filter or keep fewer fish, and change water at once."
	}
	return f
}

// mayStandHigh: the answer hangs on where in its band the rate of the media lies.
func mayStandHigh(w Water, limit unit.Concentration) finding.Finding {
	kept := limit.MilligramsPerLitre()
	f := finding.Finding{
		Code: "AMMONIA_MAY_SETTLE_HIGH", Severity: finding.Caution, Subject: "water",
		Limit: finding.Of(kept, "mg/L"), Source: source.MediaRates,
		Sentence: fmt.Sprintf("At the low end of the published rates the filter takes up less than the fish give off, and ammonia rises; fish are kept below %.2f mg/L.", kept),
		Change:   "Leave the filter more margin, and test ammonia weekly in the first summer.",
	}
	if w.HighRests {
		high := w.TANHigh.MilligramsPerLitre()
		f.Value = finding.Of(high, "mg/L")
		f.Sentence = fmt.Sprintf("At the low end of the published rates ammonia settles at %s mg/L; at this pH and temperature fish are kept below %.2f mg/L.", finding.Figures(high), kept)
	}
	return f
}

func alkalinityVerdict(in Input, w Water) []finding.Finding {
	days := w.AlkalinityLasts.Days()
	if days < 0 || days > 60 {
		return nil
	}
	f := finding.Finding{
		Code: "ALKALINITY_RUNS_LOW", Severity: finding.Caution, Subject: "water",
		Sentence: fmt.Sprintf("The filter uses up the carbonate hardness: it sinks below %.0f mg/L in about %s days, and then the pH is no longer held.", LeastAlkalinity.MilligramsPerLitre(), finding.Figures(days)),
		Value:    finding.Of(days, "days"), Limit: finding.Of(60, "days"),
		Change: "Test it monthly; change water or add bicarbonate of soda a little at a time.", Source: source.AlkalinityBand,
	}
	if days == 0 {
		f.Sentence = fmt.Sprintf("Carbonate hardness of %.0f mg/L is too little to hold the pH; at least %.0f is wanted.", in.Alkalinity.MilligramsPerLitre(), LeastAlkalinity.MilligramsPerLitre())
		f.Value, f.Limit = finding.Of(in.Alkalinity.MilligramsPerLitre(), "mg/L"), finding.Of(LeastAlkalinity.MilligramsPerLitre(), "mg/L")
	}
	return []finding.Finding{f}
}

package ripening

import (
	"fmt"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// unionisedHarm is un-ionised ammonia, as nitrogen, above which harm is expected.
const unionisedHarm = unit.Concentration(0.05e-3)

func verdicts(in Input, r Result) []finding.Finding {
	found := []finding.Finding{{
		Code: "RIPENING_IS_A_SPAN", Severity: finding.Note, Subject: "filter",
		Sentence: "When a filter is ripe hangs on how many bacteria it starts with, which nobody knows: take four to eight weeks, and test.",
		Change:   "Test ammonia and nitrite every other day and stock by the tests, not by the calendar.", Source: source.RipeningWeeks,
	}}
	if in.Room == 0 {
		found = append(found, roomAssumed)
	}
	found = append(found, peakVerdicts(in, r)...)
	found = append(found, waterVerdicts(in)...)
	if !r.Fed {
		return append(found, notFed)
	}
	if !r.Ripe {
		found = append(found, finding.Finding{
			Code: "FILTER_NOT_RIPE", Severity: finding.Caution, Subject: "filter",
			Sentence: fmt.Sprintf("After %.0f days ammonia still stands above %.2f mg/L, or nitrite above %.2f.", in.Until.Days(), in.Limits.TAN.MilligramsPerLitre(), in.Limits.Nitrite.MilligramsPerLitre()),
			Value:    finding.Of(in.Until.Days(), "days"), Change: "Stock less or more slowly, seed the filter from a ripe one, or start in warmer water.", Source: source.MonodNitrification,
		})
	}
	if outside := NitrifierKinetics.Outside(KineticsInput{Temperature: in.Temperature}); outside != "" && len(in.Year) == 0 {
		found = append(found, finding.Finding{
			Code: "RIPENING_OUTSIDE_RANGE", Severity: finding.Caution, Subject: "water",
			Sentence: fmt.Sprintf("The growth constants are stated for 8 to 30 °C, not for %.1f °C.", in.Temperature.Celsius()),
			Value:    finding.Of(in.Temperature.Celsius(), "°C"), Change: "Start the filter in water of 10 °C or more.", Source: source.NitrifierGrowth,
		})
	}
	if cold := in.coldDays(); cold > 0 {
		found = append(found, finding.Finding{
			Code: "RIPENING_IN_THE_COLD", Severity: finding.Note, Subject: "water",
			Sentence: fmt.Sprintf("On %d days the water is outside the 8 to 30 °C that the growth constants are stated for; there they were carried on, which nobody has measured.", cold),
			Value:    finding.Of(float64(cold), "days"), Change: "Trust the tests, not the calendar, in cold water.", Source: source.NitrifierGrowth,
		})
	}
	return found
}

// coldDays are those of Year whose water the growth constants are not stated for.
func (in Input) coldDays() int {
	n := 0
	for _, T := range in.Year {
		if NitrifierKinetics.Outside(KineticsInput{Temperature: T}) != "" {
			n++
		}
	}
	return n
}

// peakVerdicts judge what fish go through; where there are none, the peaks are only told.
func peakVerdicts(in Input, r Result) (found []finding.Finding) {
	for _, f := range []*finding.Finding{ammoniaVerdict(in, r), nitriteVerdict(r)} {
		if f == nil {
			continue
		}
		if in.NoFish {
			f.Severity, f.Change = finding.Note, "Put no fish in before both are low."
		}
		found = append(found, *f)
	}
	return found
}

func waterVerdicts(in Input) []finding.Finding {
	share := filter.UnionisedShare.Eval(filter.UnionisedShareInput{Temperature: in.Temperature, PH: in.PH})
	tap := filter.TapVerdict(in.TapTAN, FishLimits(nil, in.Temperature, in.PH).TAN)
	return append(filter.WaterVerdicts(in.PH, share), tap...)
}

var roomAssumed = finding.Finding{
	Code: "MEDIA_ROOM_ASSUMED", Severity: finding.Note, Subject: "filter",
	Sentence: "The media are taken to have room for all the bacteria this ammonia feeds: a filter too small for its fish never gets so far, and stands at more ammonia when ripe.",
	Change:   "Hold the filter against its fish as well.", Source: source.MonodNitrification,
}

var notFed = finding.Finding{
	Code: "FILTER_NOT_FED", Severity: finding.Caution, Subject: "filter",
	Sentence: "No ammonia comes into the water, so nothing ripens: fish that are not fed in the cold leave a filter as new as it was.",
	Change:   "Ask again with the water at which the fish are fed; the peaks come then.", Source: source.MonodNitrification,
}

func ammoniaVerdict(in Input, r Result) *finding.Finding {
	share := filter.UnionisedShare.Eval(filter.UnionisedShareInput{Temperature: in.Temperature, PH: in.PH})
	unionised := unit.Concentration(share.Float() * float64(r.TAN.Value))
	f := finding.Finding{Subject: "fish", Value: finding.Of(unionised.MilligramsPerLitre(), "mg/L"),
		Change: "Stock fewer fish at first, feed little, change water, and test."}
	switch {
	case unionised > unionisedHarm:
		f.Code, f.Severity, f.Source = "AMMONIA_PEAK_HARMFUL", finding.Stop, source.AmmoniaHarm
		f.Limit = finding.Of(unionisedHarm.MilligramsPerLitre(), "mg/L")
	case unionised > filter.UnionisedLimit:
		f.Code, f.Severity, f.Source = "AMMONIA_PEAK_HIGH", finding.Caution, source.AmmoniaLimit
		f.Limit = finding.Of(filter.UnionisedLimit.MilligramsPerLitre(), "mg/L")
	default:
		return nil
	}
	harm := ""
	if f.Severity == finding.Stop {
		harm = fmt.Sprintf(" and harmed above %.2f mg/L", unionisedHarm.MilligramsPerLitre())
	}
	f.Sentence = fmt.Sprintf("Ammonia peaks at %s mg/L about day %.0f, of which %s mg/L is un-ionised; of that fish are kept below %.2f mg/L%s.",
		finding.Figures(r.TAN.Value.MilligramsPerLitre()), r.TAN.At.Days(), finding.Figures(unionised.MilligramsPerLitre()), filter.UnionisedLimit.MilligramsPerLitre(), harm)
	return &f
}

func nitriteVerdict(r Result) *finding.Finding {
	f := finding.Finding{Subject: "fish", Value: finding.Of(r.Nitrite.Value.MilligramsPerLitre(), "mg/L"),
		Change: "Stock fewer fish at first, change water, and test. Salt is commonly given against nitrite: ask a vet how much."}
	switch {
	case r.Nitrite.Value > NitriteToxic:
		f.Code, f.Severity, f.Source = "NITRITE_PEAK_HARMFUL", finding.Stop, source.SmallScale
		f.Limit = finding.Of(NitriteToxic.MilligramsPerLitre(), "mg/L")
	case r.Nitrite.Value > NitritePractice:
		f.Code, f.Severity, f.Source = "NITRITE_PEAK_HIGH", finding.Caution, source.Practice
		f.Limit = finding.Of(NitritePractice.MilligramsPerLitre(), "mg/L")
	default:
		return nil
	}
	toxic := ""
	if f.Severity == finding.Stop {
		toxic = fmt.Sprintf(" and is toxic above %.0f mg/L", NitriteToxic.MilligramsPerLitre())
	}
	f.Sentence = fmt.Sprintf("Nitrite peaks at %s mg/L of nitrogen about day %.0f; it is held below %.1f mg/L%s.",
		finding.Figures(r.Nitrite.Value.MilligramsPerLitre()), r.Nitrite.At.Days(), NitritePractice.MilligramsPerLitre(), toxic)
	return &f
}

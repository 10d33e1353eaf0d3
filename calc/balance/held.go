package balance

import (
	"fmt"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// Held is one thing in the water held against a limit.
type Held struct {
	Name   string
	Value  *finding.Value // nothing where it does not settle or is not known
	Limit  finding.Value
	Least  bool // whether the limit is the least wanted and not the most
	Source source.Source
}

// held lists what water is judged by, each with where its limit comes from.
func held(in Input, w Water, share unit.Ratio) []Held {
	most := func(name string, known bool, value, limit unit.Concentration, src source.Source) Held {
		h := Held{Name: name, Limit: *finding.Of(limit.MilligramsPerLitre(), "mg/L"), Source: src}
		if known {
			h.Value = finding.Of(value.MilligramsPerLitre(), "mg/L")
		}
		return h
	}
	nitrite := unit.Concentration(0)
	if w.Nitrite != nil {
		nitrite = *w.Nitrite
	}
	alkalinity := most("carbonate hardness now, as CaCO₃", true, in.Alkalinity, LeastAlkalinity, source.AlkalinityBand)
	alkalinity.Least = true
	return []Held{
		most("total ammonia nitrogen", w.Rests, w.TAN, tanLimit(share), source.AmmoniaLimit),
		most("un-ionised ammonia nitrogen", w.Rests, w.Unionised, filter.UnionisedLimit, source.AmmoniaLimit),
		most("nitrite nitrogen, by habit of the trade", w.Nitrite != nil, nitrite, ripening.NitritePractice, source.Practice),
		most("nitrite nitrogen, toxic", w.Nitrite != nil, nitrite, ripening.NitriteToxic, source.SmallScale),
		most("nitrate nitrogen", in.WeeklyChange > 0, w.Nitrate.Before, nitrateCeiling, source.NitrateCeiling),
		alkalinity,
	}
}

func tanLimit(share unit.Ratio) unit.Concentration {
	return filter.TANLimit.Eval(filter.TANLimitInput{Unionised: filter.UnionisedLimit, Total: filter.TotalLimit, Share: share})
}

func nitriteVerdict(in Input, w Water) []finding.Finding {
	f := finding.Finding{Subject: "water", Source: source.MonodNitrification}
	switch nitrite := w.Nitrite; {
	case nitrite != nil && *nitrite <= ripening.NitritePractice:
		return nil
	case nitrite != nil:
		f.Code, f.Severity, f.Source = "NITRITE_SETTLES_HIGH", finding.Caution, source.Practice
		f.Sentence = fmt.Sprintf("Nitrite settles at %s mg/L of nitrogen; it is held below %.1f mg/L.", finding.Figures(nitrite.MilligramsPerLitre()), ripening.NitritePractice.MilligramsPerLitre())
		f.Value, f.Limit = finding.Of(nitrite.MilligramsPerLitre(), "mg/L"), finding.Of(ripening.NitritePractice.MilligramsPerLitre(), "mg/L")
		f.Change = "Give the filter more oxygen, keep the pH above 7, and test."
		if *nitrite > ripening.NitriteToxic {
			f.Severity = finding.Stop
		}
	case ripening.NitrifierKinetics.Outside(ripening.KineticsInput{Temperature: in.Temperature}) != "":
		f.Code, f.Severity = "NITRITE_NOT_KNOWN", finding.Note
		f.Sentence = fmt.Sprintf("At %.1f °C nothing is said of nitrite: the growth of the bacteria is stated for 8 to 30 °C.", in.Temperature.Celsius())
		f.Value, f.Change, f.Source = finding.Of(in.Temperature.Celsius(), "°C"), "Test it, above all in spring.", source.NitrifierGrowth
	default:
		f.Code, f.Severity = "NITRITE_RISES", finding.Stop
		f.Sentence = "In water this sour or this poor in oxygen the bacteria that live on nitrite die faster than they grow: nitrite rises."
		f.Change = "Aerate, raise the carbonate hardness slowly, and test."
	}
	return []finding.Finding{f}
}

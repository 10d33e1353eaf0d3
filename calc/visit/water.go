package visit

import (
	"fmt"

	"example.com/pondwright/calc/balance"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/ripening"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Water is what was tested. What is nil was not.
type Water struct {
	Temperature                                      *unit.Temperature
	PH                                               *float64
	TAN, Nitrite, Nitrate, Alkalinity, Oxygen, Chlor *unit.Concentration
}

// Limits of common practice that stand nowhere else.
const (
	leastPH, mostPH = 6.5, 9.0
	leastOxygen     = unit.Concentration(6e-3)
	mostChlorine    = unit.Concentration(0.003e-3)
	nitrateHabit    = unit.Concentration(50e-3 / 4.43)
)

// Judge holds each test against its limit, with what to do where it is broken.
func (w Water) Judge(t *working.Trail) ([]balance.Held, []finding.Finding) {
	j := &judge{}
	t.About("water tests")
	if w.PH != nil {
		j.least("pH", *w.PH, leastPH, "", source.Practice)
		j.most("pH", *w.PH, mostPH, "", "Fresh mortar, or green water in the afternoon sun: test at dawn as well, and change a tenth of the water.", source.Practice)
	}
	w.ammonia(t, j)
	mgL := func(name string, c *unit.Concentration, limit unit.Concentration, change string, src source.Source) {
		if c != nil {
			j.most(name, c.MilligramsPerLitre(), limit.MilligramsPerLitre(), "mg/L", change, src)
		}
	}
	mgL("nitrite nitrogen", w.Nitrite, ripening.NitritePractice, "Stop feeding, aerate, change a third of the water with treated water, test daily. Salt against nitrite only as a vet or the literature says.", source.Practice)
	mgL("nitrate nitrogen", w.Nitrate, nitrateHabit, "More plants, less feed, a little water changed each week.", source.Practice)
	mgL("chlorine", w.Chlor, mostChlorine, "Treat the whole pond at once, and find where untreated water comes in.", source.Practice)
	if w.Alkalinity != nil {
		j.least("carbonate hardness, as CaCO₃", w.Alkalinity.MilligramsPerLitre(), balance.LeastAlkalinity.MilligramsPerLitre(), "mg/L", source.AlkalinityBand)
	}
	if w.Oxygen != nil {
		j.least("oxygen", w.Oxygen.MilligramsPerLitre(), leastOxygen.MilligramsPerLitre(), "mg/L", source.Practice)
	}
	return j.held, j.found
}

// ammonia judges the total by its poisonous share where temperature and pH are known, and else the total alone.
func (w Water) ammonia(t *working.Trail, j *judge) {
	if w.TAN == nil {
		return
	}
	const first = "Stop feeding, aerate, change a third of the water with treated water, and test daily."
	total := w.TAN.MilligramsPerLitre()
	j.most("total ammonia nitrogen", total, filter.TotalLimit.MilligramsPerLitre(), "mg/L", first, source.AmmoniaLimit)
	if w.PH == nil || w.Temperature == nil {
		j.found = append(j.found, finding.Finding{
			Code: "AMMONIA_NEEDS_PH", Severity: finding.Note, Subject: "water",
			Sentence: "How poisonous the ammonia is hangs on pH and temperature, which were not both measured.",
			Change:   "measure pH and temperature at the same hour", Source: source.AmmoniaLimit,
		})
		return
	}
	share := filter.UnionisedShare.Run(t, filter.UnionisedShareInput{Temperature: *w.Temperature, PH: *w.PH})
	j.most("un-ionised ammonia nitrogen", total*share.Float(), filter.UnionisedLimit.MilligramsPerLitre(), "mg/L", first, source.AmmoniaLimit)
}

// A judge gathers what is held and what is found.
type judge struct {
	held  []balance.Held
	found []finding.Finding
}

func (j *judge) most(name string, value, limit float64, unitName, change string, src source.Source) {
	j.held = append(j.held, balance.Held{Name: name, Value: finding.Of(value, unitName), Limit: *finding.Of(limit, unitName), Source: src})
	if value > limit {
		j.found = append(j.found, finding.Finding{
			Code: "WATER_ABOVE_LIMIT", Severity: finding.Caution, Subject: name,
			Sentence: fmt.Sprintf("%s is %.3g%s; it is kept below %.3g.", capital(name), value, unitOf(unitName), limit),
			Value:    finding.Of(value, unitName), Limit: finding.Of(limit, unitName), Change: change, Source: src,
		})
	}
}

func (j *judge) least(name string, value, limit float64, unitName string, src source.Source) {
	j.held = append(j.held, balance.Held{Name: name, Value: finding.Of(value, unitName), Limit: *finding.Of(limit, unitName), Least: true, Source: src})
	if value < limit {
		j.found = append(j.found, finding.Finding{
			Code: "WATER_BELOW_LIMIT", Severity: finding.Caution, Subject: name,
			Sentence: fmt.Sprintf("%s is %.3g%s; it is kept above %.3g.", capital(name), value, unitOf(unitName), limit),
			Value:    finding.Of(value, unitName), Limit: finding.Of(limit, unitName), Change: belowChange(name), Source: src,
		})
	}
}

func belowChange(name string) string {
	switch name {
	case "oxygen":
		return "Start the air and the fall now, stop feeding, and look for what uses it up."
	case "pH":
		return "Raise the carbonate hardness slowly, over days; ammonia is less poisonous while the pH is low."
	default:
		return "Raise it slowly, with bicarbonate or a part of hard water, over days; the filter uses it up."
	}
}

func unitOf(name string) string {
	if name == "" {
		return ""
	}
	return " " + name
}

// capital begins a name like a sentence, but for those that are written small.
func capital(name string) string {
	if name == "pH" {
		return name
	}
	return string(name[0]-'a'+'A') + name[1:]
}

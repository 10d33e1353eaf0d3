package uv

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/lamp"
	"example.com/pondwright/calc/working"
)

// SeasonInput is a unit that runs for a season, the same one every year.
type SeasonInput struct {
	Unit        Unit
	Condition   Condition // of its Age, that at the start; the transmittance is not read
	Life        unit.Time // rated, of burning
	Days        unit.Time // from the first day to the last
	HoursPerDay unit.Time
	LampPrice   *float64 // of one lamp; nil is not known
	EnergyPrice *float64 // of a kilowatt-hour; nil is not known
}

// A Season is what a season asks of the lamps and of the purse.
type Season struct {
	Burning        unit.Time  // in the season
	AgeStart       unit.Ratio // share of the rated life used
	AgeEnd         unit.Ratio // may be above 1: they burn on beyond their life
	LeftStart      unit.Ratio // of the output when new
	LeftEnd        unit.Ratio // of the output when new, no less than at the end of life
	BurningLeft    unit.Time  // until the lamps are due
	SeasonsLeft    unit.Ratio // of this length, until the lamps are due
	WholeSeasons   int        // that pass before the season they are due in
	DaysIntoSeason unit.Time  // into the season they are due in
	Energy         unit.Energy
	EnergyCost     *float64 // nil without a price
	LampCost       *float64 // of the wear; nil without a price
	Findings       []finding.Finding
}

// PlanSeason works out hours, wear and cost of a season, and when the lamps are due.
func PlanSeason(t *working.Trail, in SeasonInput) (Season, error) {
	if err := in.check().Err(); err != nil {
		return Season{}, err
	}
	s := Season{AgeStart: in.Condition.Age}
	s.Burning = lamp.Burning.Run(t, lamp.SeasonInput{Days: in.Days, HoursPerDay: in.HoursPerDay})
	s.AgeEnd = lamp.Age.Run(t, lamp.AgeInput{Age: s.AgeStart, Burning: s.Burning, Life: in.Life})
	s.SeasonsLeft = lamp.Seasons.Run(t, lamp.SeasonsInput{Life: in.Life, Age: s.AgeStart, Burning: s.Burning})
	whole := math.Floor(s.SeasonsLeft.Float())
	s.BurningLeft = unit.Time(1-s.AgeStart) * in.Life
	s.WholeSeasons = int(whole)
	s.DaysIntoSeason = unit.Time(s.SeasonsLeft.Float()-whole) * in.Days
	s.LeftStart, s.LeftEnd = in.left(t, s.AgeStart), in.left(t, min(s.AgeEnd, 1))
	s.Energy = lamp.Energy.Run(t, lamp.EnergyInput{WallPower: in.Unit.WallPower, Burning: s.Burning})
	if in.EnergyPrice != nil {
		c := lamp.EnergyCost.Run(t, lamp.EnergyCostInput{Energy: s.Energy, Price: *in.EnergyPrice})
		s.EnergyCost = &c
	}
	if in.LampPrice != nil {
		c := lamp.LampCost.Run(t, lamp.LampCostInput{Count: in.Unit.Lamps, Price: *in.LampPrice, Burning: s.Burning, Life: in.Life})
		s.LampCost = &c
	}
	s.Findings = in.findings(s)
	return s, nil
}

// left is the share of the output when new at an age.
func (in SeasonInput) left(t *working.Trail, age unit.Ratio) unit.Ratio {
	end := in.Condition.EndOfLife
	if end == 0 {
		end = lamp.EndOfLifeShare
	}
	return unit.Ratio(lamp.Aged.Run(t, lamp.AgedInput{NewOutput: 1, Age: age, EndShare: end}).Watts())
}

func (in SeasonInput) check() (errs input.Errors) {
	errs.AddUnder("lamp_unit", in.Unit.check())
	between(&errs, "lamp_unit.life_h", in.Life.Hours(), 1, 1e5, "h")
	between(&errs, "days", in.Days.Days(), 1, 366, "days")
	between(&errs, "hours_per_day", in.HoursPerDay.Hours(), 0.1, 24, "h")
	if !(in.Condition.Age >= 0 && in.Condition.Age <= 1) {
		errs.Add("condition.used_life_percent", "put in a new lamp: beyond its rated life nobody states its light", "the lamp has burnt %.0f %% of its rated life", in.Condition.Age.Percent())
	}
	share(&errs, "condition.end_of_life_output_percent", in.Condition.EndOfLife)
	for _, price := range []struct {
		field string
		price *float64
	}{{"energy_price_per_kwh", in.EnergyPrice}, {"lamp_unit.lamp_price", in.LampPrice}} {
		if price.price != nil && !(*price.price >= 0 && *price.price <= 1e6) {
			errs.Add(price.field, "give the price, or leave it out", "%g is no price", *price.price)
		}
	}
	return errs
}

func (in SeasonInput) findings(s Season) (fs []finding.Finding) {
	add := func(code string, severity finding.Severity, value, limit *finding.Value, from source.Source, change, sentence string, args ...any) {
		fs = append(fs, finding.Finding{
			Code: code, Severity: severity, Subject: subject, Value: value, Limit: limit, Source: from, Change: change,
			Sentence: fmt.Sprintf(sentence, args...),
		})
	}
	if s.AgeEnd > 1 {
		add("LAMP_DUE_IN_SEASON", finding.Caution, finding.Of(s.AgeEnd.Percent(), "%"), finding.Of(100, "%"), source.Definition,
			"Put in new lamps before the season, or by the day they are due.",
			"The lamps reach the end of their rated life after %s h; they may glow on, with light nobody states.", finding.Whole(s.BurningLeft.Hours()))
	}
	if in.Condition.EndOfLife == 0 {
		fs = append(fs, ageingAssumed())
	}
	add("LAMP_EVERY_SEASON", finding.Note, nil, nil, source.Practice, "Clean the sleeve two to four times a season.",
		"The trade changes lamps every season, or after 8,000 to 9,000 h, even if they still glow.")
	if in.EnergyPrice == nil {
		add("COST_OF_ENERGY_NOT_KNOWN", finding.Note, nil, nil, source.Definition, "Give the price of a kilowatt-hour.",
			"No price of energy was given: its cost is not told.")
	}
	if in.LampPrice == nil {
		add("PRICE_OF_LAMP_NOT_KNOWN", finding.Note, nil, nil, source.Definition, "Ask for the price of a new lamp.",
			"No price of a lamp was given: the cost of wear is not told.")
	}
	return fs
}

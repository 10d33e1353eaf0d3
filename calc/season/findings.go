package season

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// findings are what the year takes for granted, and what it shows.
func (in Input) findings(y *Year) []finding.Finding {
	found := []finding.Finding{stirred, dayShape, twoRoads(y)}
	if in.Usual {
		found = append(found, usualWeather)
	}
	if y.Ice != nil {
		found = append(found, iceSimple(y))
	}
	if y.WinterPlace != nil {
		found = append(found, winterPlace(y))
	} else {
		found = append(found, noWinterPlace)
	}
	if y.Lamp != nil {
		found = append(found, lampSeason(y))
	}
	if f := in.topUps(y); f != nil {
		found = append(found, *f)
	}
	if y.Moves.Overflow > 0 {
		found = append(found, overflows(y))
	}
	if warm := y.Days[y.Warmest]; warm.Most > hotWater {
		found = append(found, tooWarm(warm.Most))
	}
	if f := in.oftenCleaned(y); f != nil {
		found = append(found, *f)
	}
	if len(in.Loads) > 0 && len(in.Tariff) == 0 {
		found = append(found, finding.Finding{
			Code: "COST_OF_ENERGY_NOT_KNOWN", Severity: finding.Note, Subject: "energy",
			Sentence: "No price of electricity was given: its cost is not told.", Change: "Give the price of a kilowatt-hour.", Source: source.Definition,
		})
	}
	return found
}

// hotWater is above what cold-water fish are kept in. Source: common practice.
const hotWater = unit.Temperature(28)

var stirred = finding.Finding{
	Code: "POND_TAKEN_AS_STIRRED", Severity: finding.Note, Subject: "water",
	Sentence: "The pond is followed as stirred, with one temperature. Heat from and to the ground is left out.",
	Change:   "Expect a still pond to be warmer at the top on summer afternoons, and its deep water warmer in winter.", Source: source.PondHeat,
}

var dayShape = finding.Finding{
	Code: "DAY_SHAPE_ASSUMED", Severity: finding.Note, Subject: "climate",
	Sentence: "Within a day the sun was taken as half a wave from sunrise to sunset, the air as warmest at three in the afternoon, wind and damp as the same all day.",
	Change:   "Take the warmest and coldest hour as good to a degree or so.", Source: source.DayShape,
}

var usualWeather = finding.Finding{
	Code: "USUAL_WEATHER", Severity: finding.Note, Subject: "climate",
	Sentence: "Monthly weather was spread smoothly over its days, with rain in equal parts; real weather comes in spells, and no year is the usual one.",
	Change:   "Give daily weather to follow a year that was, and plan top-ups by the interval without rain.", Source: source.EvenRain,
}

// twoRoads holds the published ways to evaporation against each other.
func twoRoads(y *Year) finding.Finding {
	var pond, penman, shallow unit.Length
	for _, m := range y.Months {
		pond += m.Evaporation
		penman += m.Penman
		shallow += m.Shallow
	}
	return finding.Finding{
		Code: "EVAPORATION_ROADS", Severity: finding.Note, Subject: "evaporation",
		Sentence: fmt.Sprintf("The pond evaporates %s mm in the year; Penman without the warmth the pond keeps gives %s, and the reference crop of FAO-56 times 1.05 gives %s. The published roads differ by about a third.",
			finding.Whole(pond.Millimetres()), finding.Whole(penman.Millimetres()), finding.Whole(shallow.Millimetres())),
		Value: finding.Of(pond.Millimetres(), "mm"), Limit: finding.Of(shallow.Millimetres(), "mm"),
		Change: "Measure: a bucket of pond water standing in the pond loses what the pond does.", Source: source.ShallowWater,
	}
}

func iceSimple(y *Year) finding.Finding {
	return finding.Finding{
		Code: "ICE_SIMPLE", Severity: finding.Caution, Subject: "ice",
		Sentence: fmt.Sprintf("Ice stands on the pond on %d days of a usual winter, up to %s cm, by a simple account: a sheet without snow on a stirred pond. A hard winter makes far more.", y.Ice.Days, finding.Figures(y.IceMost.Centimetres())),
		Value:    finding.Of(y.IceMost.Centimetres(), "cm"),
		Change:   "Never step on it, and keep children off; plan the winter by the hardest frost to be expected.", Source: source.IceSheet,
	}
}

func winterPlace(y *Year) finding.Finding {
	return finding.Finding{
		Code: "WINTER_PLACE", Severity: finding.Note, Subject: "pump",
		Sentence: fmt.Sprintf("For %d days the water is so cold that the pump is best up beside the return, so that the deep lies still: from %.0f °C in autumn until %.0f °C in spring, both as the mean of a week.", y.WinterPlace.Days, ToWinterPlace.Celsius(), FromWinterPlace.Celsius()),
		Value:    finding.Of(float64(y.WinterPlace.Days), "days"),
		Change:   "Switch off before a hand goes into the water, and go by the thermometer.", Source: source.Practice,
	}
}

var noWinterPlace = finding.Finding{
	Code: "NO_WINTER_PLACE", Severity: finding.Note, Subject: "pump",
	Sentence: "In a usual year the water never gets so cold that the pump must be moved.",
	Change:   "Look at the thermometer in a hard winter.", Source: source.Practice,
}

func lampSeason(y *Year) finding.Finding {
	return finding.Finding{
		Code: "LAMP_SEASON", Severity: finding.Note, Subject: "lamp unit",
		Sentence: fmt.Sprintf("On %d days the water stands at %.0f °C or above as the mean of a week, from where the trade lets lamps burn. Algae grow in colder water too, more slowly.", y.Lamp.Days, LampOn.Celsius()),
		Value:    finding.Of(float64(y.Lamp.Days), "days"),
		Change:   "Switch the lamps on before the water turns green. Never look into a burning lamp.", Source: source.Practice,
	}
}

func (in Input) topUps(y *Year) *finding.Finding {
	if y.Shortest < 0 {
		return nil
	}
	f := finding.Finding{
		Code: "TOP_UP", Severity: finding.Note, Subject: "level",
		Sentence: fmt.Sprintf("Without rain the level falls by %.0f mm in %s days of the worst month; topping up takes about %s L. The trade has %s L a day in hand for hot spells, half as much again as the worst month.",
			in.Allowance.Millimetres(), finding.Figures(y.Shortest.Days()), finding.Whole(y.TopUpEach.Litres()), finding.Whole(y.Reserve.LitresPerDay())),
		Value:  finding.Of(y.Shortest.Days(), "days"),
		Change: "Treat tap water against chlorine, and let in a little at a time.", Source: source.Practice,
	}
	if y.Shortest.Days() < 3 {
		f.Severity = finding.Caution
		f.Change = "Look for splash and leaks, fit a float valve, or allow the level to fall further."
	}
	return &f
}

func overflows(y *Year) finding.Finding {
	return finding.Finding{
		Code: "RUNS_OVER", Severity: finding.Note, Subject: "level",
		Sentence: fmt.Sprintf("The pond runs over with %s L in the year.", finding.Whole(y.Moves.Overflow.Litres())),
		Value:    finding.Of(y.Moves.Overflow.Litres(), "L"),
		Change:   "Lead the overflow where it does no harm, through a grid that keeps fish in.", Source: source.Balance,
	}
}

func tooWarm(most unit.Temperature) finding.Finding {
	return finding.Finding{
		Code: "WATER_TOO_WARM", Severity: finding.Caution, Subject: "fish",
		Sentence: fmt.Sprintf("On the warmest afternoon the water comes to %.1f °C; fish of cold water are kept below %.0f °C.", most.Celsius(), hotWater.Celsius()),
		Value:    finding.Of(most.Celsius(), "°C"), Limit: finding.Of(hotWater.Celsius(), "°C"),
		Change: "Shade the pond, make it deeper, and keep falls or air running at night.", Source: source.Practice,
	}
}

// oftenCleaned warns where the filter fills faster than a day.
func (in Input) oftenCleaned(y *Year) *finding.Finding {
	most := 0
	for _, m := range y.Months {
		most = max(most, m.Cleanings)
	}
	if most < 15 {
		return nil
	}
	return &finding.Finding{
		Code: "CLEANING_TOO_OFTEN", Severity: finding.Caution, Subject: "filter",
		Sentence: fmt.Sprintf("In the busiest month the filter is due %d times.", most), Value: finding.Of(float64(most), "times"),
		Change: "Take a larger filter, or something before it that catches the coarse dirt.", Source: source.KozenyCarman,
	}
}

// DryMedia is the finding that a filter has no media that fill with dirt.
func DryMedia(medium string) finding.Finding {
	return finding.Finding{
		Code: "NO_CLEANING_DAYS", Severity: finding.Note, Subject: "filter",
		Sentence: fmt.Sprintf("For %s no cleaning days are told: they hold next to no dirt.", medium),
		Change:   "Plan the cleaning of what stands before them.", Source: source.KozenyCarman,
	}
}

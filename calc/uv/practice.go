package uv

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Rule is a rule of the trade beside what the physics gives: common practice, no source.
type Rule struct {
	Name, Basis string
	Value       *finding.Value // of this unit and pond
	Low, High   *finding.Value // what the trade wants; nil is no bound
	Source      source.Source
}

// RulesInput is a unit on a pond.
type RulesInput struct {
	WallPower   unit.Power
	Flow        unit.Flow
	Volume      unit.Volume
	HoursPerDay unit.Time
	Practice    PracticeInput
}

// Rules are what the trade holds a lamp unit to. The words heard for one pond differ by a factor of four or more; they
// stand beside the calculated dose and are no part of it.
//
// Source: common practice, no source.
func Rules(in RulesInput) []Rule {
	power := PracticePower(in.Practice)
	perWatt := in.Flow.LitresPerHour() / in.WallPower.Watts()
	rule := func(name, basis, unit string, value float64, low, high *finding.Value) Rule {
		return Rule{Name: name, Basis: basis, Value: finding.Of(value, unit), Low: low, High: high, Source: source.Practice}
	}
	const watts, flow = "W/1000 L", "L/h per W"
	return []Rule{
		rule("lamp power for the pond", "watts of lamp for each 1,000 L, by fish and sun", watts,
			in.WallPower.Watts()/in.Volume.CubicMetres(),
			finding.Of(power.Low.WattsPerCubicMetre(), watts), finding.Of(power.High.WattsPerCubicMetre(), watts)),
		rule("turnover", "the whole pond through the unit every one to two hours", "h",
			in.Volume.CubicMetres()/in.Flow.CubicMetresPerHour(), finding.Of(1, "h"), finding.Of(2, "h")),
		rule("flow against green water", "at most 100 to 200 L/h for each watt of lamp", flow, perWatt, nil, finding.Of(200, flow)),
		rule("flow against germs", "at most 30 to 60 L/h for each watt of lamp", flow, perWatt, nil, finding.Of(60, flow)),
		rule("hours a day", "day and night from spring on", "h", in.HoursPerDay.Hours(), finding.Of(24, "h"), nil),
	}
}

// PracticeInput is what the trade asks before it names a lamp.
type PracticeInput struct {
	Koi     bool // or as many other fish; else goldfish, or plants and few fish
	FullSun bool
}

// Practice is a range of electrical lamp power for a volume of pond, from the lowest to the highest word heard.
type Practice struct {
	Low, High unit.PowerPerVolume
	Source    source.Source
}

// PracticePower gives the trade's lamp power, to stand beside the calculated dose:
//
//	W for each 1000 L      shade     full sun
//	goldfish, plants       1 to 2    1 to 4.2
//	koi                    2 to 4    2 to 5.5
//
// Source: common practice, no source; the words heard for one pond differ by a factor of four.
func PracticePower(in PracticeInput) Practice {
	low, high := 1.0, 2.0
	switch {
	case in.Koi && in.FullSun:
		low, high = 2, 5.5
	case in.Koi:
		low, high = 2, 4
	case in.FullSun:
		high = 4.2
	}
	return Practice{
		Low: unit.WattsPerCubicMetre(low), High: unit.WattsPerCubicMetre(high), Source: source.Practice,
	}
}

package lamp

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// DueInput is a lamp on a daily habit.
type DueInput struct {
	Life        unit.Time  `sym:"tl"` // rated, of burning
	Age         unit.Ratio `sym:"x"`  // share of it used
	HoursPerDay unit.Time  `sym:"td"` // burning
}

// Due gives the time until the lamp has used its rated life.
//
//	t = (1 - x) tl · day/td        s; a day is 86400 s
//
// It glows on beyond that, with an output nobody states. Valid for 0 <= x <= 1, td > 0. Source: definition.
var Due = working.Formula[DueInput, unit.Time]{
	ID: "lamp.due", Name: "time until a new lamp is due", Equation: "t = (1 - x) tl · day/td", Symbol: "t",
	Source: source.Definition, Eval: due,
}

func due(in DueInput) unit.Time {
	left := (1 - in.Age.Float()) * in.Life.Seconds()
	return unit.Days(left / in.HoursPerDay.Seconds())
}

// SeasonInput is a run of days on a daily habit.
type SeasonInput struct {
	Days        unit.Time `sym:"t"`  // from first to last
	HoursPerDay unit.Time `sym:"td"` // burning
}

// Burning gives the time a lamp burns over a run of days.
//
//	tb = t td/day        s
//
// Source: definition.
var Burning = working.Formula[SeasonInput, unit.Time]{
	ID: "lamp.burning", Name: "time the lamp burns", Equation: "tb = t td/day", Symbol: "tb",
	Source: source.Definition, Eval: burning,
}

func burning(in SeasonInput) unit.Time {
	return unit.Seconds(in.Days.Days() * in.HoursPerDay.Seconds())
}

// AgeInput is a lamp before it burns for a time.
type AgeInput struct {
	Age     unit.Ratio `sym:"x"`
	Burning unit.Time  `sym:"tb"`
	Life    unit.Time  `sym:"tl"`
}

// Age gives the share of its rated life a lamp has used after it burnt for a time.
//
//	x' = x + tb/tl
//
// Source: definition.
var Age = working.Formula[AgeInput, unit.Ratio]{
	ID: "lamp.age", Name: "share of the rated life used", Equation: "x' = x + tb/tl", Symbol: "x'",
	Source: source.Definition, Outside: ageOutside, Eval: age,
}

func age(in AgeInput) unit.Ratio {
	return in.Age + unit.Ratio(in.Burning/in.Life)
}

func ageOutside(in AgeInput) string {
	if age(in) > 1 {
		return "the lamp burns beyond its rated life"
	}
	return ""
}

// EnergyInput is a unit that burns for a time.
type EnergyInput struct {
	WallPower unit.Power `sym:"W"`
	Burning   unit.Time  `sym:"tb"`
}

// Energy gives the electricity a unit takes.
//
//	A = W tb        J, W, s
//
// Source: definition.
var Energy = working.Formula[EnergyInput, unit.Energy]{
	ID: "lamp.energy", Name: "electricity taken", Equation: "A = W tb", Symbol: "A",
	Source: source.Definition, Eval: energy,
}

func energy(in EnergyInput) unit.Energy { return in.WallPower.Over(in.Burning) }

// SeasonsInput is a lamp that burns for as long every season.
type SeasonsInput struct {
	Life    unit.Time  `sym:"tl"`
	Age     unit.Ratio `sym:"x"`
	Burning unit.Time  `sym:"tb"` // in one season
}

// Seasons gives how many seasons the lamp has left of its rated life.
//
//	n = (1 - x) tl/tb
//
// Valid for 0 <= x <= 1. Source: definition.
var Seasons = working.Formula[SeasonsInput, unit.Ratio]{
	ID: "lamp.seasons", Name: "seasons left of the rated life", Equation: "n = (1 - x) tl/tb", Symbol: "n",
	Source: source.Definition, Eval: seasons,
}

func seasons(in SeasonsInput) unit.Ratio {
	return (1 - in.Age) * unit.Ratio(in.Life/in.Burning)
}

// EnergyCostInput is electricity and its price.
type EnergyCostInput struct {
	Energy unit.Energy `sym:"A"`
	Price  float64     `sym:"p"` // of a kilowatt-hour
}

// EnergyCost gives what electricity costs, in the currency of its price.
//
//	C = p A/3.6 MJ        A in J
//
// Source: definition.
var EnergyCost = working.Formula[EnergyCostInput, float64]{
	ID: "lamp.energy-cost", Name: "cost of the electricity", Equation: "C = p A/3.6 MJ", Symbol: "C",
	Source: source.Definition, Eval: func(in EnergyCostInput) float64 { return in.Price * in.Energy.KilowattHours() },
}

// LampCostInput is lamps that wear.
type LampCostInput struct {
	Count   int       `sym:"n"`
	Price   float64   `sym:"p"` // of one lamp
	Burning unit.Time `sym:"tb"`
	Life    unit.Time `sym:"tl"`
}

// LampCost gives what the wear of the lamps costs, in the currency of their price.
//
//	C = n p tb/tl
//
// Source: definition.
var LampCost = working.Formula[LampCostInput, float64]{
	ID: "lamp.lamp-cost", Name: "cost of the lamps' wear", Equation: "C = n p tb/tl", Symbol: "C",
	Source: source.Definition, Eval: func(in LampCostInput) float64 {
		return float64(in.Count) * in.Price * float64(in.Burning/in.Life)
	},
}

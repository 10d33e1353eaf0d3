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

package work

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry { return []working.Entry{&TeamTime, &LabourAtRate} }

// TeamTimeInput is a task and the people who share it.
type TeamTimeInput struct {
	Labour unit.Time `sym:"w"` // of one person
	People int       `sym:"n"`
}

// TeamTime gives the time (s) a task takes people who share it evenly:
//
//	t = w / n
//
// For at least one person. Source: by definition.
var TeamTime = working.Formula[TeamTimeInput, unit.Time]{
	ID: "work.team-time", Name: "time of the team", Symbol: "t", Equation: "t = w / n", Source: source.Definition,
	Eval: func(in TeamTimeInput) unit.Time { return in.Labour / unit.Time(in.People) },
}

// RateInput is an amount and how much of it is done in an hour. Both are in the unit of the amount: m³, m², t or m.
type RateInput struct {
	Amount  float64 `sym:"Q"`
	PerHour float64 `sym:"r"` // an hour, by one person or one machine
}

// LabourAtRate gives the work (s) in an amount done at a steady rate, with Q in m³, m², t or m and r in the same an hour:
//
//	w = 3600 Q / r
//
// For a rate above 0. Source: by definition; the rates are common practice.
var LabourAtRate = working.Formula[RateInput, unit.Time]{
	ID: "work.labour-at-rate", Name: "work in an amount", Symbol: "w", Equation: "w = 3600 Q / r", Source: source.Definition,
	Eval: func(in RateInput) unit.Time { return unit.Hours(in.Amount / in.PerHour) },
}

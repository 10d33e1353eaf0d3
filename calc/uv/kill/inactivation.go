package kill

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// LogInput is a dose that counts and the organism it meets.
type LogInput struct {
	Dose unit.Fluence `sym:"D"`   // reduction equivalent
	D10  unit.Fluence `sym:"D10"` // the dose that leaves one in ten
}

// LogInactivation gives how many powers of ten of an organism a dose takes.
//
//	log = D / D10
//
// Chick's law: no shoulder before, no tail after. Valid between the doses D10 was read from; particles and clumps make a
// tail that this leaves out. Source: Chick's law.
var LogInactivation = working.Formula[LogInput, unit.Ratio]{
	ID: "kill.log-inactivation", Name: "inactivation in powers of ten", Equation: "log = D / D10", Symbol: "log",
	Source: source.Chick, Eval: logInactivation,
}

func logInactivation(in LogInput) unit.Ratio {
	return unit.Ratio(in.Dose.JoulesPerSquareMetre() / in.D10.JoulesPerSquareMetre())
}

// ShareInput is an inactivation in powers of ten.
type ShareInput struct {
	Log unit.Ratio `sym:"log"`
}

// Share gives the part of an organism that an inactivation takes.
//
//	eta = 1 - 10^-log
//
// Source: definition.
var Share = working.Formula[ShareInput, unit.Ratio]{
	ID: "kill.share", Name: "share inactivated", Equation: "eta = 1 - 10^-log", Symbol: "eta",
	Source: source.Definition, Eval: share,
}

func share(in ShareInput) unit.Ratio { return unit.Ratio(-math.Expm1(-math.Ln10 * in.Log.Float())) }

// D10Input is a published dose and its effect.
type D10Input struct {
	Dose unit.Fluence `sym:"D"`
	Log  unit.Ratio   `sym:"log"`
}

// ImpliedD10 gives the dose that leaves one in ten, from one published dose and its reduction.
//
//	D10 = D / log        J/m²
//
// A straight line through nothing: shoulders and tails are lost in it. Source: Chick's law.
var ImpliedD10 = working.Formula[D10Input, unit.Fluence]{
	ID: "kill.implied-d10", Name: "dose that leaves one in ten", Equation: "D10 = D / log", Symbol: "D10",
	Source: source.Chick, Eval: impliedD10,
}

func impliedD10(in D10Input) unit.Fluence {
	return unit.Fluence(in.Dose.JoulesPerSquareMetre() / in.Log.Float())
}

// Formulas are the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{&LogInactivation, &Share, &ImpliedD10}
}

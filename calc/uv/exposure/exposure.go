// Package exposure says how soon a bare lamp reaches the limit for eyes and skin. It is there to warn, not to plan by:
// never look at a lit lamp, and unplug before opening.
package exposure

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// BareLampInput is a person in front of a lamp out of its chamber.
type BareLampInput struct {
	Output    unit.Power  `sym:"P"` // at 254 nm, in air
	ArcLength unit.Length `sym:"L"`
	Distance  unit.Length `sym:"d"` // from mid-arc, square to it
}

// Irradiance gives what a lamp throws on a surface that faces it, through air.
//
//	E = P (2A + sin 2A)/(2 pi² L d),  A = atan(L/2d)        W/m², W, m
//
// Valid from twice the arc length on, where lamps are measured; nearer, real lamps depart from the even glow this takes.
// Source: Keitz formula as given in IOA/IUVA 2007.
var Irradiance = working.Formula[BareLampInput, unit.FluenceRate]{
	ID: "exposure.irradiance", Name: "irradiance from a bare lamp", Equation: "E = P (2A + sin 2A)/(2 pi² L d), A = atan(L/2d)",
	Symbol: "E", Source: source.Keitz, Outside: irradianceOutside, Eval: irradiance,
}

func irradiance(in BareLampInput) unit.FluenceRate {
	P, L, d := in.Output.Watts(), in.ArcLength.Metres(), in.Distance.Metres()
	A := math.Atan(L / (2 * d))
	return unit.FluenceRate(P * (2*A + math.Sin(2*A)) / (2 * math.Pi * math.Pi * L * d))
}

func irradianceOutside(in BareLampInput) string {
	if in.Distance < 2*in.ArcLength {
		return "nearer than twice the arc length"
	}
	return ""
}

// Limit is the exposure of eyes and skin to 254 nm allowed in 8 hours: 60 J/m².
//
// Source: CIE 187:2010, abstract, for the ACGIH and ICNIRP limits. Later ACGIH editions part eye from skin.
func Limit() (unit.Fluence, source.Source) { return 60, source.CIE187 }

// TimeInput is an exposure to 254 nm.
type TimeInput struct {
	Irradiance unit.FluenceRate `sym:"E"`
	Limit      unit.Fluence     `sym:"H"`
}

// TimeToLimit gives the time in which an exposure reaches a limit.
//
//	t = H / E        s, J/m², W/m²
//
// Valid up to the 8 hours the limit is set for. Source: definition.
var TimeToLimit = working.Formula[TimeInput, unit.Time]{
	ID: "exposure.time-to-limit", Name: "time to the exposure limit", Equation: "t = H / E", Symbol: "t",
	Source: source.Definition, Outside: timeOutside, Eval: timeToLimit,
}

func timeToLimit(in TimeInput) unit.Time {
	return unit.Seconds(in.Limit.JoulesPerSquareMetre() / in.Irradiance.WattsPerSquareMetre())
}

func timeOutside(in TimeInput) string {
	if timeToLimit(in).Hours() > 8.5 { // the published table rounds 8 h 20 min to 8 h
		return "beyond the 8 hours of the limit"
	}
	return ""
}

// Formulas are the formulas of this package.
func Formulas() []working.Entry { return []working.Entry{&Irradiance, &TimeToLimit} }

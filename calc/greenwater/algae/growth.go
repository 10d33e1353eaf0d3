// Package algae holds the growth of suspended algae and the balance of a well-mixed pond between growth, natural loss and
// what a lamp takes.
package algae

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// GrowthInput is the water algae grow in.
type GrowthInput struct {
	Temperature unit.Temperature `sym:"T"`
}

// Envelope gives the fastest growth seen in cultures with light and nutrients in excess.
//
//	mu = ln 2 · 10^(0.0275 T - 0.070)        1/day, T in °C
//
// Upper edge of marine cultures; a garden pond, short of light below its first decimetres, grows at a tenth to a third of
// it. Valid from 2 to 40 °C. Source: Eppley 1972, as quoted in Kremer & Nixon 1978, abstract.
var Envelope = working.Formula[GrowthInput, unit.PerTime]{
	ID: "algae.envelope", Name: "fastest growth of algae at this temperature",
	Equation: "mu = ln 2 · 10^(0.0275 T - 0.070) a day", Symbol: "mu",
	Source: source.Eppley1972, Outside: growthOutside, Eval: envelope,
}

func envelope(in GrowthInput) unit.PerTime {
	T := in.Temperature.Celsius()
	return unit.PerDay(math.Ln2 * math.Pow(10, 0.0275*T-0.070))
}

// EnvelopeBissinger gives the same envelope from a larger set of cultures, a good third higher.
//
//	mu = 0.81 exp(0.0631 T)        1/day, T in °C
//
// Valid from 2 to 40 °C. Source: Bissinger et al. 2008, abstract.
var EnvelopeBissinger = working.Formula[GrowthInput, unit.PerTime]{
	ID: "algae.envelope-bissinger", Name: "fastest growth of algae at this temperature, later data",
	Equation: "mu = 0.81 exp(0.0631 T) a day", Symbol: "mu",
	Source: source.Bissinger2008, Outside: growthOutside, Eval: envelopeBissinger,
}

func envelopeBissinger(in GrowthInput) unit.PerTime {
	return unit.PerDay(0.81 * math.Exp(0.0631*in.Temperature.Celsius()))
}

func growthOutside(in GrowthInput) string {
	if T := in.Temperature.Celsius(); T < 2 || T > 40 {
		return "temperature outside the cultures' 2 to 40 °C"
	}
	return ""
}

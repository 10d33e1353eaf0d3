package clarity

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// NaperianInput is the absorption of water in base e, with which the light of a chamber is worked out.
type NaperianInput struct {
	Naperian unit.AbsorptionCoefficient `sym:"a"`
}

// Decadic gives the absorption of water in base 10, as laboratories report it (SAK 254, or 100 times the absorbance on
// 10 mm).
//
//	a10 = a / ln 10        1/m
//
// Source: Beer–Lambert law.
var Decadic = working.Formula[NaperianInput, unit.AbsorptionCoefficient]{
	ID: "clarity.decadic", Name: "absorption coefficient in base 10", Equation: "a10 = a / ln 10", Symbol: "a10",
	Source: source.BeerLambert, Eval: func(in NaperianInput) unit.AbsorptionCoefficient { return in.Naperian / math.Ln10 },
}

// DecadicInput is the absorption of water in base 10.
type DecadicInput struct {
	Decadic unit.AbsorptionCoefficient `sym:"a10"`
}

// FromDecadic gives the absorption of water in base e.
//
//	a = ln 10 a10        1/m
//
// Source: Beer–Lambert law.
var FromDecadic = working.Formula[DecadicInput, unit.AbsorptionCoefficient]{
	ID: "clarity.from-decadic", Name: "absorption coefficient in base e", Equation: "a = ln 10 a10", Symbol: "a",
	Source: source.BeerLambert, Eval: func(in DecadicInput) unit.AbsorptionCoefficient { return math.Ln10 * in.Decadic },
}

// Formulas are the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{&FromCarbon, &Green, &Transmittance, &Decadic, &FromDecadic}
}

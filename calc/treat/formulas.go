// Package treat works out what makes tap water safe, and how much of a substance makes a dose. The label of a product and, for sick
// fish, a vet decide; this is only the arithmetic.
package treat

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry {
	return []working.Entry{&MassInWater, &Mixed, &Thiosulphate, &AmmoniaLeft}
}

// MassInput is water and what is in it.
type MassInput struct {
	Volume        unit.Volume        `sym:"V"`
	Concentration unit.Concentration `sym:"c"`
}

// MassInWater gives the mass (kg) of a substance in water:
//
//	m = c V
//
// With c in kg/m³, which is g/L. Source: by definition.
var MassInWater = working.Formula[MassInput, unit.Mass]{
	ID: "treat.mass-in-water", Name: "mass in the water", Symbol: "m", Equation: "m = c V", Source: source.Definition,
	Eval: func(in MassInput) unit.Mass { return unit.Mass(float64(in.Volume) * float64(in.Concentration)) },
}

// MixedInput is some new water in a full pond.
type MixedInput struct {
	Share unit.Ratio         `sym:"f"` // of the pond that is new
	New   unit.Concentration `sym:"c₁"`
	Old   unit.Concentration `sym:"c₀"`
}

// Mixed gives the concentration (kg/m³) when a share of the water is replaced and mixed in, before any of it decays:
//
//	c = f c₁ + (1 - f) c₀
//
// For f from 0 to 1. Source: balance of mass.
var Mixed = working.Formula[MixedInput, unit.Concentration]{
	ID: "treat.mixed", Name: "concentration after new water is mixed in", Symbol: "c",
	Equation: "c = f c₁ + (1 - f) c₀", Source: source.Balance,
	Eval: func(in MixedInput) unit.Concentration {
		f := unit.Concentration(in.Share)
		return f*in.New + (1-f)*in.Old
	},
}

// Masses of a mole in g, by the atomic weights of AtomicWeights.
const (
	chlorine     = 2 * 35.45                                          // Cl₂
	nitrogen     = 14.007                                             // N
	thiosulphate = 2*22.990 + 2*32.06 + 3*15.999 + 5*(2*1.008+15.999) // Na₂S₂O₃·5H₂O
)

// ThiosulphateInput is chlorine to be taken out.
type ThiosulphateInput struct {
	Chlorine unit.Mass  `sym:"m"` // as Cl₂
	PerMole  unit.Ratio `sym:"n"` // moles of thiosulphate for each of Cl₂
}

// Ways the reaction can go, in moles of thiosulphate for each mole of chlorine.
const (
	// ToSulphate: S₂O₃²⁻ + 4 Cl₂ + 5 H₂O → 2 SO₄²⁻ + 8 Cl⁻ + 10 H⁺, the least that can do.
	ToSulphate = unit.Ratio(0.25)
	// ToTetrathionate: 2 S₂O₃²⁻ + Cl₂ → S₄O₆²⁻ + 2 Cl⁻, which takes the most, and is what is dosed by.
	ToTetrathionate = unit.Ratio(2)
)

// Thiosulphate gives the mass (kg) of sodium thiosulphate pentahydrate that takes out a mass of chlorine:
//
//	M = m n 248.17 / 70.90
//
// Source: stoichiometry, by the IUPAC atomic weights.
var Thiosulphate = working.Formula[ThiosulphateInput, unit.Mass]{
	ID: "treat.thiosulphate", Name: "sodium thiosulphate pentahydrate", Symbol: "M",
	Equation: "M = m n 248.17 / 70.90", Source: source.AtomicWeights,
	Eval: func(in ThiosulphateInput) unit.Mass {
		return in.Chlorine * unit.Mass(in.PerMole.Float()*thiosulphate/chlorine)
	},
}

// ChloramineInput is water treated with monochloramine, told as chlorine.
type ChloramineInput struct {
	Chlorine unit.Concentration `sym:"c"` // as Cl₂
}

// AmmoniaLeft gives the ammonia nitrogen (kg/m³) that monochloramine leaves behind when its chlorine is taken out:
//
//	c_N = c 14.007 / 70.90
//
// One nitrogen for each Cl₂ that the test reads. Source: stoichiometry, by the IUPAC atomic weights.
var AmmoniaLeft = working.Formula[ChloramineInput, unit.Concentration]{
	ID: "treat.ammonia-left", Name: "ammonia nitrogen that chloramine leaves", Symbol: "c_N",
	Equation: "c_N = c 14.007 / 70.90", Source: source.AtomicWeights,
	Eval: func(in ChloramineInput) unit.Concentration {
		return in.Chlorine * unit.Concentration(nitrogen/chlorine)
	},
}

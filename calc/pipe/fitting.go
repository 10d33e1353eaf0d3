package pipe

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// ThreeKInput is the input of ThreeK.
type ThreeKInput struct {
	K1       float64     `sym:"K₁"`
	Ki       float64     `sym:"Kᵢ"`
	Kd       float64     `sym:"K_d"`
	Reynolds float64     `sym:"Re"`
	Bore     unit.Length `sym:"D"`
}

// ThreeK gives the loss coefficient of a fitting by Darby's three constants.
//
//	K = K₁/Re + Kᵢ (1 + K_d/(D/25.4 mm)^0.3)
//
// The table asks for the nominal size in inches; the true bore is used, which hose sizes are named after.
// Holds for turbulent and laminar flow. K belongs to the velocity in the bore D.
// Source: Darby 2001, eq. 7-38 and table 7-3.
var ThreeK = working.Formula[ThreeKInput, float64]{
	ID: "pipe.three-k", Name: "loss coefficient of a fitting", Symbol: "K",
	Equation: "K = K₁/Re + Kᵢ (1 + K_d/(D/25.4 mm)^0.3)", Source: source.Darby2001,
	Eval: func(in ThreeKInput) float64 { return in.K1/in.Reynolds + threeKTurbulent(in.Ki, in.Kd, in.Bore) },
}

func threeKTurbulent(ki, kd float64, bore unit.Length) float64 {
	return ki * (1 + kd/math.Pow(bore.Inches(), 0.3))
}

// TwoKInput is the input of TwoK.
type TwoKInput struct {
	K1       float64     `sym:"K₁"`
	KInf     float64     `sym:"K∞"`
	Reynolds float64     `sym:"Re"`
	Bore     unit.Length `sym:"D"`
}

// TwoK gives the loss coefficient of a fitting by Hooper's two constants.
//
//	K = K₁/Re + K∞ (1 + 25.4 mm/D)
//
// Holds for turbulent and laminar flow. K belongs to the velocity in the bore D.
// Source: Hooper 1981.
var TwoK = working.Formula[TwoKInput, float64]{
	ID: "pipe.two-k", Name: "loss coefficient of a fitting", Symbol: "K",
	Equation: "K = K₁/Re + K∞ (1 + 25.4 mm/D)", Source: source.HooperTwoK1981,
	Eval: func(in TwoKInput) float64 { return in.K1/in.Reynolds + twoKTurbulent(in.KInf, in.Bore) },
}

func twoKTurbulent(kInf float64, bore unit.Length) float64 { return kInf * (1 + 1/bore.Inches()) }

// EquivalentInput is the input of EquivalentLengths.
type EquivalentInput struct {
	Lengths float64     `sym:"n"`
	Bore    unit.Length `sym:"D"`
}

// EquivalentLengths gives the loss coefficient of a fitting that loses as much as n bores of clean steel pipe in fully
// turbulent flow.
//
//	K = n f_T,  1/√f_T = −2 log₁₀[e/3.7 + 2.51/(7.5×10⁶ D √f_T)],  e = 3.4126825×10⁻⁵ D^−1.0112    D in m
//
// The friction factor f_T is that of the handbook's table, by the fit that the python fluids library made of it.
// Holds for turbulent flow. K belongs to the velocity in the bore D.
// Source: Flow of Fluids TP-410, 2009, appendix A.
var EquivalentLengths = working.Formula[EquivalentInput, float64]{
	ID: "pipe.equivalent-lengths", Name: "loss coefficient of a fitting", Symbol: "K",
	Equation: "K = n f_T, 1/√f_T = −2 log₁₀[e/3.7 + 2.51/(7.5×10⁶ D √f_T)], e = 3.4126825×10⁻⁵ D^−1.0112",
	Source:   source.FlowOfFluids,
	Eval:     func(in EquivalentInput) float64 { return in.Lengths * turbulentFactor(in.Bore.Metres()) },
}

func turbulentFactor(D float64) float64 {
	return colebrook(7.5e6*D, 3.4126825352925e-5*math.Pow(D, -1.0112))
}

// RoundedInput is the input of RoundedEntryLoss.
type RoundedInput struct {
	Radius unit.Length `sym:"r"`
	Bore   unit.Length `sym:"D"`
}

// RoundedEntryLoss gives the loss coefficient of a flush entry with a rounded edge.
//
//	K = 0.5/(1 + 36 (r/D)^1.2)
//
// A sharp edge, r = 0, has 0.5. K belongs to the velocity in the bore D.
// Source: Swamee and Sharma 2008.
var RoundedEntryLoss = working.Formula[RoundedInput, float64]{
	ID: "pipe.rounded-entry", Name: "loss coefficient of a rounded entry", Symbol: "K",
	Equation: "K = 0.5/(1 + 36 (r/D)^1.2)", Source: source.SwameeSharma2008,
	Eval: func(in RoundedInput) float64 { return 0.5 / (1 + 36*math.Pow(float64(in.Radius/in.Bore), 1.2)) },
}

func square(x float64) float64 { return x * x }

func fourthPower(l unit.Length) float64 { return square(square(l.Metres())) }

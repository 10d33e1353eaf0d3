package pipe

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// TailInput is the input of Tail.
type TailInput struct {
	Bore     unit.Length `sym:"D"`
	TailBore unit.Length `sym:"d"`
}

// Tail gives the loss coefficient of a hose tail: a sudden narrowing and a sudden widening one after the other.
//
//	K = [0.5 (1 − β²) + (1 − β²)²]/β⁴,  β = d/D
//
// K belongs to the velocity in the hose of bore D. Friction in the short throat is left out.
// Holds for 0 < β ≤ 1 and turbulent flow.
// Source: narrowing, Flow of Fluids TP-410; widening, Borda–Carnot.
var Tail = working.Formula[TailInput, float64]{
	ID: "pipe.hose-tail", Name: "loss coefficient of a hose tail", Symbol: "K",
	Equation: "K = [0.5 (1 − β²) + (1 − β²)²]/β⁴, β = d/D", Source: source.FlowOfFluids,
	Eval: func(in TailInput) float64 {
		beta := in.TailBore.Metres() / in.Bore.Metres()
		narrowing := 1 - beta*beta
		return (0.5*narrowing + narrowing*narrowing) / (beta * beta * beta * beta)
	},
}

// ChangeInput is a change of bore, whichever way the water goes.
type ChangeInput struct {
	Large unit.Length `sym:"D"`
	Small unit.Length `sym:"d"`
}

// SuddenNarrowing gives the loss coefficient of a step from a large bore to a small one.
//
//	K = 0.5 (1 − β²),  β = d/D
//
// K belongs to the velocity in the small bore. Other handbooks have up to 0.12 more.
// Holds for turbulent flow.
// Source: Flow of Fluids TP-410.
var SuddenNarrowing = working.Formula[ChangeInput, float64]{
	ID: "pipe.sudden-narrowing", Name: "loss coefficient of a sudden narrowing", Symbol: "K",
	Equation: "K = 0.5 (1 − β²), β = d/D", Source: source.FlowOfFluids,
	Eval: func(in ChangeInput) float64 { return 0.5 * (1 - square(float64(in.Small/in.Large))) },
}

// SuddenWidening gives the loss coefficient of a step from a small bore to a large one.
//
//	K = (1 − β²)²,  β = d/D
//
// K belongs to the velocity in the small bore.
// Holds for turbulent flow.
// Source: Borda–Carnot.
var SuddenWidening = working.Formula[ChangeInput, float64]{
	ID: "pipe.sudden-widening", Name: "loss coefficient of a sudden widening", Symbol: "K",
	Equation: "K = (1 − β²)², β = d/D", Source: source.BordaCarnot,
	Eval: func(in ChangeInput) float64 { return square(1 - square(float64(in.Small/in.Large))) },
}

// ConeInput is a conical change of bore, whichever way the water goes.
type ConeInput struct {
	Large  unit.Length `sym:"D"`
	Small  unit.Length `sym:"d"`
	Angle  unit.Angle  `sym:"θ"` // between opposite walls
	Factor float64     `sym:"f"` // friction factor in the small bore
}

// ConicalNarrowing gives the loss coefficient of a cone from a large bore to a small one.
//
//	K = 0.0696 sin(θ/2) (1 − β⁵) λ² + (λ − 1)² + f (1 − β⁴)/(8 sin(θ/2)),  β = d/D
//	λ = 1 + 0.622 (θ/180°)^0.8 (1 − 0.215 β² − 0.785 β⁵)
//
// K belongs to the velocity in the small bore; it depends on the Reynolds number through f.
// Holds for 0 < θ ≤ 180° and turbulent flow.
// Source: Rennels and Hudson 2012.
var ConicalNarrowing = working.Formula[ConeInput, float64]{
	ID: "pipe.conical-narrowing", Name: "loss coefficient of a conical narrowing", Symbol: "K",
	Equation: "K = 0.0696 sin(θ/2) (1 − β⁵) λ² + (λ − 1)² + f (1 − β⁴)/(8 sin(θ/2)), β = d/D, " +
		"λ = 1 + 0.622 (θ/π)^0.8 (1 − 0.215 β² − 0.785 β⁵)",
	Source: source.RennelsHudson2012,
	Eval: func(in ConeInput) float64 {
		form, friction := in.narrowing()
		return form + friction*in.Factor
	},
}

// ConicalWidening gives the loss coefficient of a cone from a small bore to a large one.
//
//	θ ≤ 20°:        K = 8.3 tan(θ/2)^1.75 (1 − β²)² + f (1 − β⁴)/(8 sin(θ/2)),  β = d/D
//	20° < θ ≤ 60°:  K = [1.366 √sin(2(θ − 15°)) − 0.17 − 3.28 (0.0625 − β⁴) √((θ − 20°)/40°)] (1 − β²)² + the same friction
//	θ > 60°:        K = [1.205 − 3.28 (0.0625 − β⁴) − 12.8 β⁶ √((θ − 60°)/120°)] (1 − β²)²
//
// From β = 0.5 on, the term with 3.28 is left out and 12.8 β⁶ is 0.2.
// K belongs to the velocity in the small bore; it depends on the Reynolds number through f.
// Holds for 0 < θ ≤ 180° and turbulent flow.
// Source: Rennels and Hudson 2012.
var ConicalWidening = working.Formula[ConeInput, float64]{
	ID: "pipe.conical-widening", Name: "loss coefficient of a conical widening", Symbol: "K",
	Equation: "θ ≤ 20°: K = 8.3 tan(θ/2)^1.75 (1 − β²)² + F; " +
		"θ ≤ 60°: K = [1.366 √sin(2(θ − 15°)) − 0.17 − 3.28 (0.0625 − β⁴)₊ √((θ − 20°)/40°)] (1 − β²)² + F; " +
		"θ > 60°: K = [1.205 − 3.28 (0.0625 − β⁴)₊ − min(12.8 β⁶, 0.2) √((θ − 60°)/120°)] (1 − β²)²; F = f (1 − β⁴)/(8 sin(θ/2)), β = d/D",
	Source: source.RennelsHudson2012,
	Eval: func(in ConeInput) float64 {
		form, friction := in.widening()
		return form + friction*in.Factor
	},
}

// narrowing is K in two parts: one that does not depend on the friction factor, and one that goes with it.
func (in ConeInput) narrowing() (form, friction float64) {
	beta, half := float64(in.Small/in.Large), math.Sin(in.Angle.Radians()/2)
	b2 := beta * beta
	b5 := b2 * b2 * beta
	lambda := 1 + 0.622*math.Pow(in.Angle.Radians()/math.Pi, 0.8)*(1-0.215*b2-0.785*b5)
	return 0.0696*half*(1-b5)*lambda*lambda + square(lambda-1), (1 - b2*b2) / (8 * half)
}

// widening is the same for the other way. The terms in 0.0625 − β⁴ and 12.8 β⁶ − 0.2 vanish at β = 0.5, where the source
// changes its formula.
func (in ConeInput) widening() (form, friction float64) {
	beta, theta := float64(in.Small/in.Large), in.Angle.Radians()
	degrees := in.Angle.Degrees()
	b4 := square(square(beta))
	friction = (1 - b4) / (8 * math.Sin(theta/2))
	gradual := square(1 - beta*beta)
	wide := 3.28 * max(0.0625-b4, 0)
	switch {
	case degrees <= 20:
		return 8.3 * math.Pow(math.Tan(theta/2), 1.75) * gradual, friction
	case degrees <= 60:
		return (1.366*math.Sqrt(math.Sin(2*math.Pi*(degrees-15)/180)) - 0.17 - wide*math.Sqrt((degrees-20)/40)) * gradual, friction
	default:
		return (1.205 - wide - min(12.8*b4*beta*beta, 0.2)*math.Sqrt((degrees-60)/120)) * gradual, 0
	}
}

// ReferInput is the input of ReferToBore.
type ReferInput struct {
	Coefficient float64     `sym:"K"`
	Own         unit.Length `sym:"d"` // the bore K belongs to
	Other       unit.Length `sym:"D"` // the bore it is wanted for
}

// ReferToBore gives a loss coefficient for the velocity in another bore of the same line.
//
//	K' = K (D/d)⁴
//
// Source: the same head with the velocity of the other bore, by continuity.
var ReferToBore = working.Formula[ReferInput, float64]{
	ID: "pipe.refer-to-bore", Name: "loss coefficient for another bore", Symbol: "K'", Equation: "K' = K (D/d)⁴",
	Source: source.Definition,
	Eval:   func(in ReferInput) float64 { return in.Coefficient * referred(in.Own, in.Other) },
}

func referred(own, other unit.Length) float64 { return square(square(float64(other / own))) }

// Package pipe gives the head that water loses in a full round pipe or hose and its fittings.
//
// All friction factors are Darcy's, four times Fanning's. Heads are in metres of the water that flows.
package pipe

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// Reynolds numbers between which flow is neither surely laminar nor surely turbulent.
const (
	laminarBelow   = 2000.0
	turbulentAbove = 4000.0
)

// VelocityInput is the input of Velocity.
type VelocityInput struct {
	Flow unit.Flow   `sym:"Q"`
	Bore unit.Length `sym:"D"`
}

// Velocity gives the mean velocity in a full round bore.
//
//	v = 4 Q/(π D²)    Q in m³/s, D in m, v in m/s
//
// Source: definition.
var Velocity = working.Formula[VelocityInput, unit.Velocity]{
	ID: "pipe.velocity", Name: "mean velocity", Symbol: "v", Equation: "v = 4 Q/(π D²)", Source: source.Definition,
	Eval: func(in VelocityInput) unit.Velocity {
		D := in.Bore.Metres()
		return unit.Velocity(4 * in.Flow.CubicMetresPerSecond() / (math.Pi * D * D))
	},
}

// ReynoldsInput is the input of Reynolds.
type ReynoldsInput struct {
	Velocity  unit.Velocity           `sym:"v"`
	Bore      unit.Length             `sym:"D"`
	Viscosity unit.KinematicViscosity `sym:"ν"`
}

// Reynolds gives the ratio of inertia to viscosity that decides how water flows.
//
//	Re = v D/ν    v in m/s, D in m, ν in m²/s
//
// Source: definition.
var Reynolds = working.Formula[ReynoldsInput, float64]{
	ID: "pipe.reynolds", Name: "Reynolds number", Symbol: "Re", Equation: "Re = v D/ν", Source: source.Definition,
	Eval: func(in ReynoldsInput) float64 {
		return in.Velocity.MetresPerSecond() * in.Bore.Metres() / in.Viscosity.SquareMetresPerSecond()
	},
}

// FactorInput is the input of FrictionFactor.
type FactorInput struct {
	Reynolds          float64    `sym:"Re"`
	RelativeRoughness unit.Ratio `sym:"ε/D"`
}

// FrictionFactor gives Darcy's friction factor of a full round pipe with a wall of even roughness.
//
//	Re ≤ 2000:  f = 64/Re
//	Re ≥ 4000:  1/√f = −2 log₁₀[(ε/D)/3.7 + 2.51/(Re √f)]
//	between:    a straight line in Re from 64/2000 to the f of Re 4000
//
// No measurement fixes the middle range; the line is continuous, lets head rise with flow without a step, and lies above
// the cubic that the US EPA network model uses there.
// Holds for Re > 0 and ε/D ≤ 0.05.
// Source: Colebrook 1939; laminar law of Hagen and Poiseuille; the line is this engine's choice.
var FrictionFactor = working.Formula[FactorInput, float64]{
	ID: "pipe.friction-factor", Name: "friction factor", Symbol: "f",
	Equation: "f = 64/Re (Re ≤ 2000); 1/√f = −2 log₁₀[(ε/D)/3.7 + 2.51/(Re √f)] (Re ≥ 4000); a straight line in Re between",
	Source:   source.Colebrook1939,
	Outside: func(in FactorInput) string {
		switch {
		case in.RelativeRoughness > 0.05:
			return "relative roughness above 0.05"
		case in.Reynolds > laminarBelow && in.Reynolds < turbulentAbove:
			return "flow is between laminar and turbulent, where friction may be 30 % off"
		}
		return ""
	},
	Eval: func(in FactorInput) float64 { return frictionFactor(in.Reynolds, in.RelativeRoughness.Float()) },
}

func frictionFactor(re, roughness float64) float64 {
	switch {
	case re <= laminarBelow:
		return 64 / re
	case re >= turbulentAbove:
		return colebrook(re, roughness)
	}
	const start = 64 / laminarBelow
	end := colebrook(turbulentAbove, roughness)
	return start + (end-start)*(re-laminarBelow)/(turbulentAbove-laminarBelow)
}

// colebrook solves the implicit law for x = 1/√f, written x + c ln(a + b x) = 0 with c = 2/ln 10, by Halley's method from an
// estimate that puts 7, a middling x, into the logarithm. The function is nearly straight, so that two steps reach the last
// bits and the third finds nothing more to do.
func colebrook(re, roughness float64) float64 {
	const c = 2 / math.Ln10
	a, b := roughness/3.7, 2.51/re
	x := -c * math.Log(a+7*b)
	for range 8 {
		inner := a + b*x
		slope := c * b / inner
		newton := (x + c*math.Log(inner)) / (1 + slope)
		step := newton / (1 + newton*slope*(b/inner)/(2*(1+slope)))
		x -= step
		if math.Abs(step) < 1e-6*x { // what a cubic method leaves is then the cube of it
			break
		}
	}
	return 1 / (x * x)
}

// FrictionInput is the input of FrictionLoss.
type FrictionInput struct {
	Factor   float64       `sym:"f"`
	Length   unit.Length   `sym:"L"`
	Bore     unit.Length   `sym:"D"`
	Velocity unit.Velocity `sym:"v"`
}

// FrictionLoss gives the head lost to the wall of a straight full pipe.
//
//	h = f (L/D) v²/(2 g)    L, D, h in m; v in m/s; g = 9.80665 m/s²
//
// Source: Darcy–Weisbach.
var FrictionLoss = working.Formula[FrictionInput, unit.Head]{
	ID: "pipe.friction-loss", Name: "head lost to the wall", Symbol: "h", Equation: "h = f (L/D) v²/(2 g)",
	Source: source.DarcyWeisbach,
	Eval: func(in FrictionInput) unit.Head {
		return unit.Head(in.Factor * in.Length.Metres() / in.Bore.Metres() * velocityHead(in.Velocity.MetresPerSecond()))
	},
}

// MinorInput is the input of MinorLoss.
type MinorInput struct {
	Coefficient float64       `sym:"K"`
	Velocity    unit.Velocity `sym:"v"`
}

// MinorLoss gives the head lost where flow is turned, squeezed or let go.
//
//	h = K v²/(2 g)    v in m/s, h in m, g = 9.80665 m/s²
//
// Source: definition of the loss coefficient K.
var MinorLoss = working.Formula[MinorInput, unit.Head]{
	ID: "pipe.minor-loss", Name: "head lost in fittings", Symbol: "h", Equation: "h = K v²/(2 g)", Source: source.Definition,
	Eval: func(in MinorInput) unit.Head {
		return unit.Head(in.Coefficient * velocityHead(in.Velocity.MetresPerSecond()))
	},
}

func velocityHead(v float64) float64 { return v * v / (2 * water.Gravity) }

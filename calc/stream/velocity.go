package stream

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// ManningInput is the input of Manning.
type ManningInput struct {
	Radius    unit.Length             `sym:"R"`
	Slope     unit.Ratio              `sym:"S"`
	Roughness unit.ManningCoefficient `sym:"n"`
}

// Manning gives the mean velocity of even flow in an open channel.
//
//	v = R^(2/3) √S/n    R in m, n in s/m^⅓, v in m/s
//
// Holds for rough, fully turbulent flow that is deep beside the stones of its bed, three or four of them at least.
// Source: Manning 1891.
var Manning = working.Formula[ManningInput, unit.Velocity]{
	ID: "stream.manning", Name: "velocity in an open channel", Symbol: "v", Equation: "v = R^(2/3) √S/n", Source: source.Manning1891,
	Eval: func(in ManningInput) unit.Velocity {
		return unit.MetresPerSecond(math.Pow(in.Radius.Metres(), 2.0/3) * math.Sqrt(in.Slope.Float()) / in.Roughness.SecondsPerCubeRootMetre())
	},
}

// RoughPipeInput is the input of RoughPipe.
type RoughPipeInput struct {
	Radius    unit.Length             `sym:"R"`
	Slope     unit.Ratio              `sym:"S"`
	Roughness unit.Length             `sym:"k_s"`
	Viscosity unit.KinematicViscosity `sym:"ν"`
}

// RoughPipe gives the mean velocity of even flow in a part-full pipe, from the same law as in a full one.
//
//	v = −√(32 g R S) log₁₀[k_s/(14.8 R) + 1.255 ν/(R √(32 g R S))]
//
// Holds for turbulent flow.
// Source: Colebrook–White law with four hydraulic radii for the bore.
var RoughPipe = working.Formula[RoughPipeInput, unit.Velocity]{
	ID: "stream.rough-pipe", Name: "velocity in a part-full pipe", Symbol: "v",
	Equation: "v = −√(32 g R S) log₁₀[k_s/(14.8 R) + 1.255 ν/(R √(32 g R S))]", Source: source.ColebrookOpen,
	Eval: func(in RoughPipeInput) unit.Velocity {
		R := in.Radius.Metres()
		u := math.Sqrt(32 * water.Gravity * R * in.Slope.Float())
		return unit.MetresPerSecond(-u * math.Log10(in.Roughness.Metres()/(14.8*R)+1.255*in.Viscosity.SquareMetresPerSecond()/(R*u)))
	},
}

// FroudeInput is the input of Froude.
type FroudeInput struct {
	Velocity unit.Velocity `sym:"v"`
	Area     unit.Area     `sym:"A"`
	Surface  unit.Length   `sym:"T"`
}

// Froude gives the velocity of a stream by that of a wave on it.
//
//	Fr = v/√(g A/T)
//
// Below 1 the stream is quiet and hears of what lies ahead; above 1 it shoots; near 1 its surface is wavy and its depth
// unsure.
// Source: definition.
var Froude = working.Formula[FroudeInput, float64]{
	ID: "stream.froude", Name: "Froude number", Symbol: "Fr", Equation: "Fr = v/√(g A/T)", Source: source.FroudeNumber,
	Eval: func(in FroudeInput) float64 {
		return in.Velocity.MetresPerSecond() / math.Sqrt(water.Gravity*in.Area.SquareMetres()/in.Surface.Metres())
	},
}

// StandpipeInput is the input of Standpipe.
type StandpipeInput struct {
	Bore unit.Length `sym:"D"`
	Head unit.Length `sym:"h"` // of the water over the rim
}

// Standpipe gives what an upright open pipe swallows: over its rim as over a weir while the water is low, through its mouth
// as through a hole when it is high; the less of the two.
//
//	Q = min{0.60 (2/3) √(2 g) π D h^1.5, 0.60 (π/4) D² √(2 g h)}
//
// Holds for water that runs in from all sides without a swirl; air drawn in takes a share of it. The weir part holds up to
// h/D of some 0.2.
// Source: textbook drop inlet, coefficients from memory.
var Standpipe = working.Formula[StandpipeInput, unit.Flow]{
	ID: "stream.standpipe", Name: "flow into an upright pipe", Symbol: "Q",
	Equation: "Q = min{0.60 (2/3) √(2 g) π D h^1.5, 0.60 (π/4) D² √(2 g h)}", Source: source.DropInlet,
	Outside: func(in StandpipeInput) string {
		if in.Head > in.Bore/5 {
			return "water stands higher over the rim than a fifth of the bore: swirl and air may halve the flow"
		}
		return ""
	},
	Eval: func(in StandpipeInput) unit.Flow {
		D, h := in.Bore.Metres(), in.Head.Metres()
		jet := 0.60 * math.Pi * D * math.Sqrt(2*water.Gravity*h)
		return unit.CubicMetresPerSecond(jet * min(2.0/3*h, D/4))
	},
}

package pipe

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// KvLossInput is the input of KvLoss.
type KvLossInput struct {
	Flow unit.Flow `sym:"Q"`
	Kv   unit.Flow `sym:"Kv"`
}

// KvLoss gives the head lost in a valve by its flow coefficient.
//
//	h = (Q/Kv)² 1 bar/(ρ₀ g)    ρ₀ = 1000 kg/m³, g = 9.80665 m/s²; 1 bar is 10.197 m
//
// Kv is the flow of water that takes 1 bar, usually in m³/h.
// Holds for turbulent flow.
// Source: definition of Kv.
var KvLoss = working.Formula[KvLossInput, unit.Head]{
	ID: "pipe.kv-loss", Name: "head lost in a valve", Symbol: "h", Equation: "h = (Q/Kv)² 1 bar/(1000 kg/m³ g)",
	Source: source.ValveCoefficient,
	Eval: func(in KvLossInput) unit.Head {
		ratio := float64(in.Flow / in.Kv)
		return unit.Head(oneBar * ratio * ratio)
	},
}

// KvForInput is the input of KvFor.
type KvForInput struct {
	Flow unit.Flow `sym:"Q"`
	Head unit.Head `sym:"h"`
}

// KvFor gives the flow coefficient of a valve that takes a head at a flow: KvLoss turned round.
//
//	Kv = Q √(1 bar/(ρ₀ g h))    ρ₀ = 1000 kg/m³, g = 9.80665 m/s²; 1 bar is 10.197 m
//
// Holds for h > 0 and turbulent flow.
// Source: definition of Kv.
var KvFor = working.Formula[KvForInput, unit.Flow]{
	ID: "pipe.kv-for", Name: "flow coefficient to set a valve to", Symbol: "Kv", Equation: "Kv = Q √(1 bar/(1000 kg/m³ g h))",
	Source: source.ValveCoefficient,
	Eval:   func(in KvForInput) unit.Flow { return in.Flow * unit.Flow(math.Sqrt(oneBar/in.Head.Metres())) },
}

const oneBar = 1e5 / (1000 * water.Gravity) // m

// KvInput is the input of LossOfKv.
type KvInput struct {
	Kv   unit.Flow   `sym:"Kv"` // the flow of water that loses one bar in the valve
	Bore unit.Length `sym:"D"`
}

// LossOfKv gives the loss coefficient of a valve from its flow coefficient.
//
//	K = 1.6×10⁹ D⁴/Kv²    D in m, Kv in m³/h at 1 bar
//
// Holds for turbulent flow of water near 15 °C. K belongs to the velocity in the bore D.
// Source: IEC 60534-2-1.
var LossOfKv = working.Formula[KvInput, float64]{
	ID: "pipe.loss-of-kv", Name: "loss coefficient of a valve of known Kv", Symbol: "K",
	Equation: "K = 1.6×10⁹ D⁴/(3600 Kv)²", Source: source.FlowCoefficientKv,
	Eval: func(in KvInput) float64 {
		return kvConstant * fourthPower(in.Bore) / square(in.Kv.CubicMetresPerHour())
	},
}

// LossInput is the input of KvOfLoss.
type LossInput struct {
	Coefficient float64     `sym:"K"`
	Bore        unit.Length `sym:"D"`
}

// KvOfLoss gives the flow coefficient that a valve must have for a loss coefficient.
//
//	Kv = √(1.6×10⁹ D⁴/K)    D in m, Kv in m³/h at 1 bar
//
// Holds for turbulent flow of water near 15 °C.
// Source: IEC 60534-2-1.
var KvOfLoss = working.Formula[LossInput, unit.Flow]{
	ID: "pipe.kv-of-loss", Name: "flow coefficient of a valve", Symbol: "Kv",
	Equation: "Kv = √(1.6×10⁹ D⁴/K)/3600", Source: source.FlowCoefficientKv,
	Eval: func(in LossInput) unit.Flow {
		return unit.CubicMetresPerHour(math.Sqrt(kvConstant * fourthPower(in.Bore) / in.Coefficient))
	},
}

const kvConstant = 1.6e9 // h²/m⁶ times 1 bar over half the density of water at 15 °C, rounded as the standard rounds it

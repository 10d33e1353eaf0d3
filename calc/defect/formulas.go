package defect

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// ReferenceInput is the input of ReferencePower.
type ReferenceInput struct {
	Hydraulic unit.Power `sym:"Pₕ"`
}

// ReferencePower gives the electrical power that the average small glandless circulator takes for a hydraulic power.
//
//	P_ref = 1.7 Pₕ + 17 (1 - exp(-0.3 Pₕ))    both in W
//
// Holds from 1 to 2500 W. Below 1 W it is continued, which makes efficiency fall to 15 %; that serves to compare, not to judge.
// Source: Regulation (EC) 641/2009 as amended by (EU) 622/2012, annex II, from memory.
var ReferencePower = working.Formula[ReferenceInput, unit.Power]{
	ID: "defect.reference-power", Name: "power of the average small circulator", Symbol: "P_ref",
	Equation: "P_ref = 1.7 Pₕ + 17 (1 - exp(-0.3 Pₕ))", Source: source.CirculatorReference,
	Outside: func(in ReferenceInput) string {
		if p := in.Hydraulic.Watts(); p < 1 || p > 2500 {
			return "hydraulic power is not between 1 and 2500 W"
		}
		return ""
	},
	Eval: func(in ReferenceInput) unit.Power {
		p := in.Hydraulic.Watts()
		return unit.Watts(1.7*p - 17*math.Expm1(-0.3*p))
	},
}

// SpeedInput is the input of SpecificSpeed.
type SpeedInput struct {
	Speed unit.PerTime `sym:"n"`
	Flow  unit.Flow    `sym:"Q"`
	Head  unit.Head    `sym:"H"`
}

// SpecificSpeed gives what tells the kind of wheel: about 10 to 40 radial, to 80 between, to 160 mixed, beyond it axial.
//
//	n_q = n √Q / H^(3/4)    n in 1/min, Q in m³/s, H in m; by habit a pure number
//
// Source: definition.
var SpecificSpeed = working.Formula[SpeedInput, unit.Ratio]{
	ID: "defect.specific-speed", Name: "specific speed", Symbol: "n_q", Equation: "n_q = n √Q / H^(3/4)", Source: source.Definition,
	Eval: func(in SpeedInput) unit.Ratio {
		return unit.Ratio(in.Speed.PerHour() / minutesPerHour * math.Sqrt(in.Flow.CubicMetresPerSecond()) / math.Pow(in.Head.Metres(), 0.75))
	},
}

const minutesPerHour = 60

// speedTaken is the speed of a two-pole motor at 50 Hz under load, which catalogues do not print. Common practice, no source.
var speedTaken = unit.PerHour(2900 * minutesPerHour)

// Formulas lists the formulas of this package.
func Formulas() []working.Entry { return []working.Entry{&ReferencePower, &SpecificSpeed} }

// specificSpeed is the bare formula, of a flow in m³/s and a head in m.
func specificSpeed(q, h float64) float64 {
	return SpecificSpeed.Eval(SpeedInput{Speed: speedTaken, Flow: unit.CubicMetresPerSecond(q), Head: unit.MetresOfWater(h)}).Float()
}

// referenceEfficiency is what the average small circulator reaches at a hydraulic power in W.
func referenceEfficiency(hydraulic float64) float64 {
	return hydraulic / ReferencePower.Eval(ReferenceInput{Hydraulic: unit.Watts(hydraulic)}).Watts()
}

package fill

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry {
	return []working.Entry{&MeterVolume, &FilledVolume, &FillTime, &SaltVolume, &SaltUncertainty}
}

// MeterInput is a water meter before and after filling.
type MeterInput struct {
	Before unit.Volume `sym:"R1"`
	After  unit.Volume `sym:"R2"`
}

// MeterVolume gives the water (m³) that went through a meter:
//
//	V = R2 - R1
//
// Source: by definition.
var MeterVolume = working.Formula[MeterInput, unit.Volume]{
	ID: "fill.meter-volume", Name: "volume by the water meter", Symbol: "V",
	Equation: "V = R2 - R1", Source: source.Definition,
	Eval: func(in MeterInput) unit.Volume { return in.After - in.Before },
}

// FilledInput is a steady flow and how long it ran.
type FilledInput struct {
	Flow unit.Flow `sym:"Q"`
	Time unit.Time `sym:"t"`
}

// FilledVolume gives the water (m³) a steady flow brings:
//
//	V = Q t
//
// Source: by definition.
var FilledVolume = working.Formula[FilledInput, unit.Volume]{
	ID: "fill.filled-volume", Name: "volume by filling time", Symbol: "V",
	Equation: "V = Q t", Source: source.Definition,
	Eval: func(in FilledInput) unit.Volume {
		return unit.CubicMetres(in.Flow.CubicMetresPerSecond() * in.Time.Seconds())
	},
}

// TimeInput is a volume and the flow that fills it.
type TimeInput struct {
	Volume unit.Volume `sym:"V"`
	Flow   unit.Flow   `sym:"Q"`
}

// FillTime gives the time (s) to fill a volume:
//
//	t = V / Q
//
// Source: by definition.
var FillTime = working.Formula[TimeInput, unit.Time]{
	ID: "fill.fill-time", Name: "time to fill", Symbol: "t",
	Equation: "t = V / Q", Source: source.Definition,
	Eval: func(in TimeInput) unit.Time {
		return unit.Seconds(in.Volume.CubicMetres() / in.Flow.CubicMetresPerSecond())
	},
}

// SaltInput is salt dissolved in the pond and what a meter says before and after.
type SaltInput struct {
	Mass   unit.Mass          `sym:"m"`
	Purity unit.Ratio         `sym:"p"` // share of sodium chloride, 1 for pure dry salt
	Before unit.Concentration `sym:"c1"`
	After  unit.Concentration `sym:"c2"`
}

// SaltVolume gives the water (m³) in which the salt has spread evenly:
//
//	V = m p / (c2 - c1)
//
// Valid when all of it has dissolved and the pond has been turned over several times.
//
// Source: conservation of mass.
var SaltVolume = working.Formula[SaltInput, unit.Volume]{
	ID: "fill.salt-volume", Name: "volume by salt", Symbol: "V",
	Equation: "V = m p / (c2 - c1)", Source: source.SaltBalance,
	Eval: func(in SaltInput) unit.Volume {
		rise := in.After.KilogramsPerCubicMetre() - in.Before.KilogramsPerCubicMetre()
		return unit.CubicMetres(in.Mass.Kilograms() * in.Purity.Float() / rise)
	},
}

// UncertaintyInput is how far scale and meter may be off.
type UncertaintyInput struct {
	Mass    unit.Ratio         `sym:"um"` // of the salt weighed, as a share of it
	Reading unit.Concentration `sym:"uc"` // of each reading of the meter
	Before  unit.Concentration `sym:"c1"`
	After   unit.Concentration `sym:"c2"`
}

// SaltUncertainty gives how far the volume by salt may be off, as a share of it, when both readings are off independently:
//
//	u = √(um² + 2 (uc / (c2 - c1))²)
//
// Source: propagation of uncertainty, first order.
var SaltUncertainty = working.Formula[UncertaintyInput, unit.Ratio]{
	ID: "fill.salt-uncertainty", Name: "uncertainty of the volume by salt", Symbol: "u",
	Equation: "u = √(um² + 2 (uc / (c2 - c1))²)", Source: source.UncertaintyGuide,
	Eval: func(in UncertaintyInput) unit.Ratio {
		rise := (in.After - in.Before).KilogramsPerCubicMetre()
		return unit.Ratio(math.Hypot(in.Mass.Float(), math.Sqrt2*in.Reading.KilogramsPerCubicMetre()/rise))
	},
}

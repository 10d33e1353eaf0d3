// Package greenwater sets a lamp against the single-cell algae of a whole pond.
//
// One pass through a garden unit does not kill green algae, and nothing here says so. Two roads lead to an answer, and
// both are shown: the share removed in one pass times the turnover of the pond, and the dose the whole pond gathers in a
// day held against the dose that is published to stop growth.
package greenwater

import (
	"example.com/pondwright/calc/greenwater/algae"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// PassesInput is a pond that runs through a lamp for part of the day.
type PassesInput struct {
	Flow        unit.Flow   `sym:"Q"`
	HoursPerDay unit.Time   `sym:"td"` // lamp and flow together
	Volume      unit.Volume `sym:"V"`  // of the pond
}

// Passes gives how often in a day as much water as the pond holds runs through the lamp.
//
//	n = Q td / V        1, m³/s, s, m³
//
// Source: definition.
var Passes = working.Formula[PassesInput, unit.Ratio]{
	ID: "greenwater.passes", Name: "passes of the whole pond a day", Equation: "n = Q td / V", Symbol: "n",
	Source: source.Definition, Eval: passes,
}

func passes(in PassesInput) unit.Ratio {
	return unit.Ratio(in.Flow.CubicMetresPerSecond() * in.HoursPerDay.Seconds() / in.Volume.CubicMetres())
}

// DailyDoseInput is a mean dose given several times a day.
type DailyDoseInput struct {
	MeanDose unit.Fluence `sym:"D"`
	Passes   unit.Ratio   `sym:"n"`
}

// DailyDose gives the mean dose that the water of a well-mixed pond gathers in a day. Flow cancels: with the radial model
// it is td (P/V) (1 - exp(-a g))/a.
//
//	Dd = n D        J/m²
//
// Source: mass balance of a well-mixed pond.
var DailyDose = working.Formula[DailyDoseInput, unit.Fluence]{
	ID: "greenwater.daily-dose", Name: "mean dose gathered by the whole pond in a day", Equation: "Dd = n D", Symbol: "Dd",
	Source: source.Definition, Eval: dailyDose,
}

func dailyDose(in DailyDoseInput) unit.Fluence {
	return unit.Fluence(in.Passes.Float() * in.MeanDose.JoulesPerSquareMetre())
}

// PowerPerVolumeInput is a lamp unit for a pond.
type PowerPerVolumeInput struct {
	WallPower unit.Power  `sym:"W"`
	Volume    unit.Volume `sym:"V"`
}

// PowerPerVolume gives the wall power of the lamps for each cubic metre of pond, the number the trade goes by.
//
//	w = W / V        W/m³, which is watts for each 1000 L
//
// Source: definition.
var PowerPerVolume = working.Formula[PowerPerVolumeInput, unit.PowerPerVolume]{
	ID: "greenwater.power-per-volume", Name: "lamp power for the pond's volume", Equation: "w = W / V", Symbol: "w",
	Source: source.Definition, Eval: powerPerVolume,
}

func powerPerVolume(in PowerPerVolumeInput) unit.PowerPerVolume {
	return unit.WattsPerCubicMetre(in.WallPower.Watts() / in.Volume.CubicMetres())
}

// Formulas are the formulas of this package and of package algae.
func Formulas() []working.Entry {
	return append([]working.Entry{&Passes, &DailyDose, &PowerPerVolume}, algae.Formulas()...)
}

// Package electric works out what a load list for an electrician holds: currents, and what a cable loses. It decides nothing: the
// installation is the work of a licensed person, by the code that holds where the pond is.
package electric

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry {
	return []working.Entry{&LoadCurrent, &HotResistance, &DropByResistance, &DropByTable, &DropShare}
}

// CurrentInput is a load on a single-phase supply.
type CurrentInput struct {
	Power   unit.Power   `sym:"P"`
	Voltage unit.Voltage `sym:"U"`
	Factor  unit.Ratio   `sym:"cosφ"` // power factor
}

// LoadCurrent gives the current (A) of a single-phase load:
//
//	I = P / (U cosφ)
//
// For P in W, U in V above 0 and a power factor in (0, 1]. Source: by definition of the power factor.
var LoadCurrent = working.Formula[CurrentInput, unit.Current]{
	ID: "electric.load-current", Name: "current of a load", Symbol: "I", Equation: "I = P / (U cosφ)", Source: source.Circuits,
	Eval: func(in CurrentInput) unit.Current {
		return unit.Amperes(in.Power.Watts() / (in.Voltage.Volts() * in.Factor.Float()))
	},
}

// HeatInput is a conductor at another temperature than its resistance is stated at.
type HeatInput struct {
	At20        unit.LineResistance `sym:"R₂₀"`
	Temperature unit.Temperature    `sym:"θ"`
}

// copperHeat is how much the resistance of annealed copper rises for each degree, of that at 20 °C.
const copperHeat = 0.00393

// HotResistance gives the resistance (Ω/m) of copper at a temperature (°C):
//
//	R = R₂₀ (1 + 0.00393 (θ - 20))
//
// For 0 to 90 °C. Source: IEC 60228, annex B.
var HotResistance = working.Formula[HeatInput, unit.LineResistance]{
	ID: "electric.hot-resistance", Name: "resistance of the warm conductor", Symbol: "R",
	Equation: "R = R₂₀ (1 + 0.00393 (θ - 20))", Source: source.CopperHeat,
	Eval: func(in HeatInput) unit.LineResistance {
		return in.At20 * unit.LineResistance(1+copperHeat*(in.Temperature.Celsius()-20))
	},
}

// ResistanceDropInput is a cable of two like conductors, out and back.
type ResistanceDropInput struct {
	Current    unit.Current        `sym:"I"`
	Length     unit.Length         `sym:"L"` // one way
	Resistance unit.LineResistance `sym:"R"`
	Factor     unit.Ratio          `sym:"cosφ"`
}

// DropByResistance gives the voltage (V) lost in a cable out and back:
//
//	ΔU = 2 I L R cosφ
//
// The reactance of the cable is left out, which for copper of 16 mm² and less is nothing. Source: Ohm's law.
var DropByResistance = working.Formula[ResistanceDropInput, unit.Voltage]{
	ID: "electric.drop-by-resistance", Name: "voltage lost in the cable", Symbol: "ΔU",
	Equation: "ΔU = 2 I L R cosφ", Source: source.Circuits,
	Eval: func(in ResistanceDropInput) unit.Voltage {
		return unit.Volts(2 * in.Current.Amperes() * in.Length.Metres() * float64(in.Resistance) * in.Factor.Float())
	},
}

// TableDropInput is a cable by the wiring tables.
type TableDropInput struct {
	Current unit.Current `sym:"I"`
	Length  unit.Length  `sym:"L"`
	// Millivolts lost for each ampere and metre of cable, out and back together.
	PerAmpereMetre float64 `sym:"k"`
}

// DropByTable gives the voltage (V) lost in a cable by the millivolts for each ampere and metre of wiring tables:
//
//	ΔU = k I L / 1000
//
// With k in mV/(A m). The tables take a power factor of 1, which for small cables is on the safe side.
// Source: BS 7671, appendix 4.
var DropByTable = working.Formula[TableDropInput, unit.Voltage]{
	ID: "electric.drop-by-table", Name: "voltage lost in the cable, by the table", Symbol: "ΔU",
	Equation: "ΔU = k I L / 1000", Source: source.VoltDropTable,
	Eval: func(in TableDropInput) unit.Voltage {
		return unit.Volts(in.PerAmpereMetre * in.Current.Amperes() * in.Length.Metres() / 1000)
	},
}

// ShareInput is a drop and the voltage it is of.
type ShareInput struct {
	Drop    unit.Voltage `sym:"ΔU"`
	Voltage unit.Voltage `sym:"U"`
}

// DropShare gives the drop as a share of the voltage:
//
//	d = ΔU / U
//
// Source: by definition.
var DropShare = working.Formula[ShareInput, unit.Ratio]{
	ID: "electric.drop-share", Name: "share of the voltage lost", Symbol: "d", Equation: "d = ΔU / U", Source: source.Definition,
	Eval: func(in ShareInput) unit.Ratio { return unit.Ratio(in.Drop / in.Voltage) },
}

package oxygen

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// FilterDemandInput is ammonia that a ripe filter turns to nitrate.
type FilterDemandInput struct {
	TAN unit.MassRate `sym:"P"` // as nitrogen
}

// FilterDemand gives the oxygen nitrification takes. R = 4.57 P: two moles of O₂ a mole of nitrogen, 63.996/14.007; the
// growth of the bacteria would bring it down to 4.18. Source: stoichiometry.
var FilterDemand = working.Formula[FilterDemandInput, unit.MassRate]{
	ID: "oxygen.filter-demand", Name: "oxygen taken by nitrification", Symbol: "R",
	Equation: "R = 4.57 P", Source: source.Nitrification,
	Eval: func(in FilterDemandInput) unit.MassRate { return unit.MassRate(4.57 * float64(in.TAN)) },
}

// DawnInput is a pond at dusk and all that breathes or aerates through the night.
type DawnInput struct {
	Start      unit.Concentration `sym:"C0"`
	Saturation unit.Concentration `sym:"Cs"`
	Demand     unit.MassRate      `sym:"R"`
	Pond       unit.Volume        `sym:"V"`
	Surface    unit.Area          `sym:"A"`
	Transfer   unit.Velocity      `sym:"k"`
	FallFlow   unit.Flow          `sym:"Q"`
	Efficiency unit.Ratio         `sym:"E"` // of the fall
	Air        unit.Flow          `sym:"G"` // of AirTransfer
	Night      unit.Time          `sym:"t"`
}

// Dawn gives the dissolved oxygen at the end of a night of steady breathing in a stirred pond.
//
//	V dC/dt = (k A + Q E + G)(Cs − C) − R
//	C = max(0, C∞ + (C0 − C∞) exp(−K t)),  K = (k A + Q E + G)/V,  C∞ = Cs − R/(K V)
//
// Where nothing brings air, C = C0 − R t/V. An unstirred pond is worse at the bottom.
// Source: derived, mass balance.
var Dawn = working.Formula[DawnInput, unit.Concentration]{
	ID: "oxygen.dawn", Name: "oxygen at dawn", Symbol: "C",
	Equation: "C = max(0, C∞ + (C0 − C∞) exp(−K t)), K = (k A + Q E + G)/V, C∞ = Cs − R/(K V)",
	Source:   source.Definition, Eval: func(in DawnInput) unit.Concentration { return unit.Concentration(max(0, dawn(in))) },
}

// dawn is written about the start, with (1 − exp(−K t))/K, so that it does not care whether K is nothing.
func dawn(in DawnInput) float64 {
	V, t := in.Pond.CubicMetres(), in.Night.Seconds()
	K := float64(supply(in)) / V
	acting := t
	if K > 0 {
		acting = -math.Expm1(-K*t) / K
	}
	slope := K*float64(in.Saturation-in.Start) - float64(in.Demand)/V
	return float64(in.Start) + slope*acting
}

// supply is all that brings air, as the flow of water it as good as saturates.
func supply(in DawnInput) unit.Flow {
	return unit.Flow(float64(in.Transfer)*in.Surface.SquareMetres()+float64(in.FallFlow)*in.Efficiency.Float()) + in.Air
}

// Formulas lists every formula of this package.
func Formulas() []working.Entry {
	return []working.Entry{
		&WeirRatio, &SheetRatio, &CascadeEfficiency, &FallSupply,
		&CalmTransfer, &LakeTransfer,
		&AirTransfer, &FilterDemand, &Dawn, &Lasts,
	}
}

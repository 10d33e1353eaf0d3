package lamp

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// AgedInput is a set of lamps part of the way through its life.
type AgedInput struct {
	NewOutput unit.Power `sym:"P0"`
	Age       unit.Ratio `sym:"x"`    // share of the rated life, 0 new to 1
	EndShare  unit.Ratio `sym:"fend"` // output at the end of life over output when new
}

// Aged gives the light of lamps that have run for part of their life.
//
//	P = P0 (1 - (1 - fend) x)        W; x and fend shares
//
// Valid for 0 <= x <= 1; that the fall is a straight line is assumed. Source: end-of-life share of UFGS 11376.
var Aged = working.Formula[AgedInput, unit.Power]{
	ID: "lamp.aged", Name: "light left at this age", Equation: "P = P0 (1 - (1 - fend) x)", Symbol: "P",
	Source: source.UFGS11376, Outside: agedOutside, Eval: aged,
}

func aged(in AgedInput) unit.Power {
	x, fend := in.Age.Float(), in.EndShare.Float()
	return unit.Watts(in.NewOutput.Watts() * (1 - (1-fend)*x))
}

func agedOutside(in AgedInput) string {
	if x := in.Age.Float(); x < 0 || x > 1 {
		return "age outside the rated life"
	}
	return ""
}

// LossInput is light on its way through something that holds part of it back.
type LossInput struct {
	Output unit.Power `sym:"P"`
	Share  unit.Ratio `sym:"f"` // that passes
}

// ThroughSleeve gives the light that passes the clean quartz sleeve, both faces of it.
//
//	P' = f P        W; f = CleanSleeve where not measured
//
// An output stated "in water" holds this factor already. Source: usual value for fused quartz (from memory).
var ThroughSleeve = working.Formula[LossInput, unit.Power]{
	ID: "lamp.through-sleeve", Name: "light through the clean sleeve", Equation: "P' = f P", Symbol: "P'",
	Source: source.QuartzSleeve, Eval: pass,
}

// ThroughFouling gives the light that passes the film that grows on the sleeve between cleanings, and enters the water.
//
//	P' = f P        W; f = Fouling where not measured
//
// Source: NWRI guidelines 2012 (from memory).
var ThroughFouling = working.Formula[LossInput, unit.Power]{
	ID: "lamp.through-fouling", Name: "light into the water past the film on the sleeve", Equation: "P' = f P",
	Symbol: "P'", Source: source.NWRI2012, Eval: pass,
}

func pass(in LossInput) unit.Power { return unit.Watts(in.Output.Watts() * in.Share.Float()) }

// Formulas are the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{
		&Efficiency, &NewOutput, &StatedOutput, &Aged, &ThroughSleeve, &ThroughFouling,
		&Burning, &Age, &Due, &Seasons, &Energy, &EnergyCost, &LampCost,
	}
}

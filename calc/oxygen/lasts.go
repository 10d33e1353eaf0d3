package oxygen

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// LastsInput is a pond that breathes more than air brings.
type LastsInput struct {
	Start      unit.Concentration `sym:"C0"`
	Least      unit.Concentration `sym:"C"`
	Saturation unit.Concentration `sym:"Cs"`
	Demand     unit.MassRate      `sym:"R"`
	Supply     unit.Flow          `sym:"S"` // all that brings air, as water saturated: k A + Q E + G
	Pond       unit.Volume        `sym:"V"`
}

// Lasts gives the time until the oxygen has sunk to the least that is wanted; a negative answer is never.
//
//	t = (V/S) ln((C0 − C∞)/(C − C∞)),  C∞ = Cs − R/S;  t = V (C0 − C)/R for S = 0
//
// Source: derived, mass balance; Dawn solved for the time.
var Lasts = working.Formula[LastsInput, unit.Time]{
	ID: "oxygen.lasts", Name: "time until oxygen runs low", Symbol: "t",
	Equation: "t = (V/S) ln((C0 − C∞)/(C − C∞)), C∞ = Cs − R/S", Source: source.Balance, Eval: lasts,
}

func lasts(in LastsInput) unit.Time {
	const never = -1
	V, S, R := in.Pond.CubicMetres(), float64(in.Supply), float64(in.Demand)
	reserve := float64(in.Start - in.Least)
	switch {
	case reserve <= 0:
		return 0
	case S > 0:
		rest := float64(in.Saturation) - R/S
		if rest >= float64(in.Least) {
			return never
		}
		return unit.Seconds(V / S * math.Log1p(reserve/(float64(in.Least)-rest)))
	case R > 0:
		return unit.Seconds(V * reserve / R)
	default:
		return never
	}
}

// Package balance says what the water of a stocked pond settles at: ammonia where filter and water change take away as
// much as the fish give, nitrate where the water change does, and how fast carbonate hardness is used up.
//
// Nitrite has no published rate for media; where it settles follows from the growth of the bacteria that live on it, as in
// package ripening.
package balance

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// AmmoniaInput is a load, a filter and a change of water.
type AmmoniaInput struct {
	Load     unit.MassRate      `sym:"P"`   // total ammonia, as nitrogen
	Capacity unit.MassRate      `sym:"R"`   // of the media at S_r and above
	Stated   unit.Concentration `sym:"S_r"` // from which on the media take up no more
	Flow     unit.Flow          `sym:"Q"`   // through the filter
	Change   unit.Flow          `sym:"q"`   // of new water
	Tap      unit.Concentration `sym:"S_in"`
}

// Ammonia gives the total ammonia a pond settles at.
//
//	P + q S_in = R min(1, S/S*) + q S,  S* = S_r + R/Q
//
// The water leaving a stirred filter holds R/Q less than the pond, so the pond stands that much above what the media see.
// Where the load is more than the filter takes and no water is changed, there is no rest; see Outside.
// Source: derived, mass balance.
var Ammonia = working.Formula[AmmoniaInput, unit.Concentration]{
	ID: "balance.ammonia", Name: "total ammonia at rest", Symbol: "S",
	Equation: "P + q S_in = R min(1, S/(S_r + R/Q)) + q S", Source: source.Definition,
	Outside: func(in AmmoniaInput) string {
		if in.Change <= 0 && in.Load > in.Capacity {
			return "more ammonia than the filter takes, and no change of water: it rises without end"
		}
		return ""
	},
	Eval: ammonia,
}

func ammonia(in AmmoniaInput) unit.Concentration {
	P, R, q := float64(in.Load), float64(in.Capacity), float64(in.Change)
	in0 := P + q*float64(in.Tap)
	if in0 == 0 {
		return 0
	}
	full := float64(in.Stated) + R/float64(in.Flow) // S*
	if S := in0 / (R/full + q); S <= full || q == 0 {
		return unit.Concentration(S)
	}
	return unit.Concentration((in0 - R) / q)
}

// NitrateInput is nitrogen that ends as nitrate, and the new water that carries it off.
type NitrateInput struct {
	Load   unit.MassRate      `sym:"P"`
	Change unit.Flow          `sym:"q"`
	Tap    unit.Concentration `sym:"N_in"`
}

// Nitrate gives the nitrate, as nitrogen, a pond settles at under a steady trickle of new water.
//
//	N = N_in + P/q
//
// All ammonia ends as nitrate; plants and denitrification, which take some, are left out.
// Source: derived, mass balance.
var Nitrate = working.Formula[NitrateInput, unit.Concentration]{
	ID: "balance.nitrate", Name: "nitrate at rest, water trickled", Symbol: "N",
	Equation: "N = N_in + P/q", Source: source.Definition,
	Eval: func(in NitrateInput) unit.Concentration {
		return in.Tap + unit.Concentration(float64(in.Load)/float64(in.Change))
	},
}

// WeeklyInput is water changed in one go, over and over.
type WeeklyInput struct {
	Load  unit.MassRate      `sym:"P"`
	Pond  unit.Volume        `sym:"V"`
	Share unit.Ratio         `sym:"f"` // changed each time
	Every unit.Time          `sym:"t"`
	Tap   unit.Concentration `sym:"N_in"`
}

// Weekly gives the nitrate, as nitrogen, just after each change once it has settled, and just before.
type Weekly struct {
	After  unit.Concentration `sym:"N_after"`
	Before unit.Concentration `sym:"N_before"`
}

// NitrateWeekly gives the nitrate a pond settles at when a share of its water is changed in one go.
//
//	N_after = N_in + (P t/V)(1 − f)/f,  N_before = N_after + P t/V
//
// Source: derived, mass balance.
var NitrateWeekly = working.Formula[WeeklyInput, Weekly]{
	ID: "balance.nitrate-weekly", Name: "nitrate at rest, water changed in one go",
	Equation: "N_after = N_in + (P t/V)(1 − f)/f; N_before = N_after + P t/V", Source: source.Definition,
	Eval: func(in WeeklyInput) Weekly {
		rise := float64(in.Load) * in.Every.Seconds() / in.Pond.CubicMetres()
		f := in.Share.Float()
		after := in.Tap + unit.Concentration(rise*(1-f)/f)
		return Weekly{After: after, Before: after + unit.Concentration(rise)}
	},
}

// AlkalinityInput is ammonia that a filter turns to nitrate.
type AlkalinityInput struct {
	TAN unit.MassRate `sym:"P"` // as nitrogen
}

// AlkalinityUse gives the alkalinity nitrification uses up, as CaCO₃.
//
//	A = 2 · 50.0435/14.007 P = 7.145 P
//
// The growth of the bacteria would bring it to 7.07. Bicarbonate of soda makes up for it with 1.679 g a gram.
// Source: stoichiometry.
var AlkalinityUse = working.Formula[AlkalinityInput, unit.MassRate]{
	ID: "balance.alkalinity-use", Name: "alkalinity used by nitrification", Symbol: "A",
	Equation: "A = 2 · 50.0435/14.007 P, as CaCO₃", Source: source.Nitrification,
	Eval: func(in AlkalinityInput) unit.MassRate { return unit.MassRate(2 * 50.0435 / 14.007 * float64(in.TAN)) },
}

// AlkalinityDaysInput is a reserve of alkalinity and what feeds on it.
type AlkalinityDaysInput struct {
	Now    unit.Concentration `sym:"K_0"`
	Least  unit.Concentration `sym:"K_min"`
	Tap    unit.Concentration `sym:"K_in"`
	Use    unit.MassRate      `sym:"A"`
	Pond   unit.Volume        `sym:"V"`
	Change unit.Flow          `sym:"q"`
}

// AlkalinityDays gives the time until alkalinity has sunk to the least that is wanted; a negative answer is never.
//
//	V dK/dt = q (K_in − K) − A,  K∞ = K_in − A/q,  t = (V/q) ln((K_0 − K∞)/(K_min − K∞)), or V (K_0 − K_min)/A for q = 0
//
// Rain, evaporation and stone are left out.
// Source: derived, mass balance.
var AlkalinityDays = working.Formula[AlkalinityDaysInput, unit.Time]{
	ID: "balance.alkalinity-days", Name: "time until carbonate hardness runs low", Symbol: "t",
	Equation: "t = (V/q) ln((K_0 − K∞)/(K_min − K∞)), K∞ = K_in − A/q", Source: source.Definition,
	Eval: alkalinityDays,
}

func alkalinityDays(in AlkalinityDaysInput) unit.Time {
	const never = -1
	V, q, A := in.Pond.CubicMetres(), float64(in.Change), float64(in.Use)
	reserve := float64(in.Now - in.Least)
	switch {
	case reserve <= 0:
		return 0
	case q > 0:
		rest := float64(in.Tap) - A/q
		if rest >= float64(in.Least) {
			return never
		}
		return unit.Seconds(V / q * math.Log1p(reserve/(float64(in.Least)-rest)))
	case A > 0:
		return unit.Seconds(V * reserve / A)
	default:
		return never
	}
}

// Formulas lists every formula of this package.
func Formulas() []working.Entry {
	return []working.Entry{&Ammonia, &Nitrite, &Nitrate, &NitrateWeekly, &AlkalinityUse, &AlkalinityDays}
}

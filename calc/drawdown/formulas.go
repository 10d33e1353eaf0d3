// Package drawdown tells a leak from the sun: what of a falling level evaporation explains, and what is left, with its width.
package drawdown

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// LostInput is a level read twice.
type LostInput struct {
	Drop    unit.Length `sym:"d"` // negative where it rose
	Rain    unit.Length `sym:"r"`
	Surface unit.Area   `sym:"A"`
	Filled  unit.Volume `sym:"V_f"`
}

// Lost gives the water that left the pond between two readings.
//
//	V = (d + r) A + V_f
//
// The surface is taken not to change over the drop, and no roof to drain into the pond.
// Source: balance of mass.
var Lost = working.Formula[LostInput, unit.Volume]{
	ID: "drawdown.lost", Name: "water that left the pond", Symbol: "V", Equation: "V = (d + r) A + V_f", Source: source.Balance,
	Eval: func(in LostInput) unit.Volume {
		return unit.CubicMetres((in.Drop+in.Rain).Metres()*in.Surface.SquareMetres()) + in.Filled
	},
}

// EvaporatedInput is open water, and stone that running falls keep wet, under a drying sky for a time.
type EvaporatedInput struct {
	Rate     unit.Velocity `sym:"E"`
	Time     unit.Time     `sym:"t"`
	Surface  unit.Area     `sym:"A"`
	WetStone unit.Area     `sym:"A_w"`
}

// Evaporated gives the water that went into the air.
//
//	V_e = E t (A + A_w)
//
// Source: by definition of the rate.
var Evaporated = working.Formula[EvaporatedInput, unit.Volume]{
	ID: "drawdown.evaporated", Name: "water that evaporated", Symbol: "V_e", Equation: "V_e = E t (A + A_w)", Source: source.Definition,
	Eval: func(in EvaporatedInput) unit.Volume {
		return unit.CubicMetres(float64(in.Rate) * in.Time.Seconds() * (in.Surface + in.WetStone).SquareMetres())
	},
}

// RestInput is what left and what of that evaporated.
type RestInput struct {
	Lost       unit.Volume `sym:"V"`
	Evaporated unit.Volume `sym:"V_e"`
	Time       unit.Time   `sym:"t"`
}

// Rest gives what evaporation does not explain, as a flow.
//
//	Q = (V − V_e)/t
//
// Source: balance of mass.
var Rest = working.Formula[RestInput, unit.Flow]{
	ID: "drawdown.rest", Name: "loss that evaporation does not explain", Symbol: "Q", Equation: "Q = (V − V_e)/t", Source: source.Balance,
	Eval: func(in RestInput) unit.Flow {
		return unit.CubicMetresPerSecond((in.Lost - in.Evaporated).CubicMetres() / in.Time.Seconds())
	},
}

// WidthInput is how far each part of one drop may be off, as standard uncertainty.
type WidthInput struct {
	Reading    unit.Length `sym:"u_d"` // of each reading of the level
	Surface    unit.Area   `sym:"A"`
	Evaporated unit.Volume `sym:"V_e"`
	Common     unit.Ratio  `sym:"r_c"` // of evaporation, the same for every drop
	Own        unit.Ratio  `sym:"r_o"` // of evaporation, of this drop alone
	Time       unit.Time   `sym:"t"`
}

// Width gives the standard uncertainty of the rest of one drop.
//
//	u = √(2 u_d² A² + (r_c² + r_o²) V_e²)/t
//
// Parts that do not hang together.
// Source: JCGM 100 (GUM), independent inputs (from memory).
var Width = working.Formula[WidthInput, unit.Flow]{
	ID: "drawdown.width", Name: "standard uncertainty of the rest", Symbol: "u",
	Equation: "u = √(2 u_d² A² + (r_c² + r_o²) V_e²)/t", Source: source.Quadrature,
	Eval: func(in WidthInput) unit.Flow {
		reads := math.Sqrt2 * in.Reading.Metres() * in.Surface.SquareMetres()
		dries := math.Hypot(in.Common.Float(), in.Own.Float()) * in.Evaporated.CubicMetres()
		return unit.CubicMetresPerSecond(math.Hypot(reads, dries) / in.Time.Seconds())
	},
}

// RoadsInput is the evaporation of open water by two published roads.
type RoadsInput struct {
	Penman  unit.Velocity `sym:"E_P"`
	Shallow unit.Velocity `sym:"E_S"`
}

// WeatherShare is what wind and sun of a garden, beside those of the weather that was given, add to the uncertainty of
// evaporation. It is an assumption.
const WeatherShare = unit.Ratio(0.15)

// Roads gives the standard uncertainty that all drops share: the roads lie apart as two ends of an even band, and the garden's
// own wind and shade come on top.
//
//	r_c = √(((E_P − E_S)/(√3 E_P))² + 0.15²)
//
// Evaporation by Penman above nothing; where there is none, the second part alone.
// Source: derived, with WeatherShare as an assumption.
var Roads = working.Formula[RoadsInput, unit.Ratio]{
	ID: "drawdown.roads", Name: "uncertainty of evaporation that all drops share", Symbol: "r_c",
	Equation: "r_c = √(((E_P − E_S)/(√3 E_P))² + 0.15²)", Source: source.Choice,
	Eval: func(in RoadsInput) unit.Ratio {
		if in.Penman <= 0 {
			return WeatherShare
		}
		return unit.Ratio(math.Hypot(float64(in.Penman-in.Shallow)/(math.Sqrt(3)*float64(in.Penman)), WeatherShare.Float()))
	},
}

// Formulas lists every formula of this package.
func Formulas() []working.Entry {
	return []working.Entry{&Lost, &Evaporated, &Rest, &Width, &Roads}
}

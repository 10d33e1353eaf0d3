// Package solids says how fast the dirt of the fish fills a foam, how often it must be cleaned through the year, and what
// water that takes.
package solids

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// HeadRatioInput is a porous bed clean and with dirt in it.
type HeadRatioInput struct {
	Clean  unit.Ratio `sym:"ε0"` // open share of the clean bed
	Fouled unit.Ratio `sym:"ε"`
}

// HeadRatio gives the head a fouled bed loses by the head it loses clean, at the same flow.
//
//	h/h0 = (ε0/ε)³ ((1 − ε)/(1 − ε0))²
//
// Slow flow through a bed that fouls evenly, 0.3 to 0.99.
// Source: derived from Kozeny–Carman.
var HeadRatio = working.Formula[HeadRatioInput, unit.Ratio]{
	ID: "solids.head-ratio", Name: "head lost in a fouled bed by clean", Symbol: "h/h0",
	Equation: "h/h0 = (ε0/ε)³ ((1 − ε)/(1 − ε0))²", Source: source.KozenyCarman,
	Eval: func(in HeadRatioInput) unit.Ratio { return unit.Ratio(headRatio(in.Clean.Float(), in.Fouled.Float())) },
}

func headRatio(e0, e float64) float64 {
	open, shut := e0/e, (1-e)/(1-e0)
	return open * open * open * shut * shut
}

// FullInput is a bed and how much more head it may lose than clean.
type FullInput struct {
	Clean unit.Ratio `sym:"ε0"`
	Ratio unit.Ratio `sym:"h/h0"`
}

// Full gives the open share left when the head lost has grown to that many times the clean one: HeadRatio turned round,
// by bisection to the last bits. Source: as for HeadRatio.
var Full = working.Formula[FullInput, unit.Ratio]{
	ID: "solids.full", Name: "open share of a bed due for cleaning", Symbol: "ε",
	Equation: "(ε0/ε)³ ((1 − ε)/(1 − ε0))² = h/h0", Source: source.KozenyCarman,
	Eval: func(in FullInput) unit.Ratio {
		e0, low, high := in.Clean.Float(), 0.0, in.Clean.Float()
		for range 60 {
			if mid := (low + high) / 2; headRatio(e0, mid) > in.Ratio.Float() {
				low = mid
			} else {
				high = mid
			}
		}
		return unit.Ratio((low + high) / 2)
	},
}

// IntervalInput is a bed that fills.
type IntervalInput struct {
	Clean   unit.Ratio    `sym:"ε0"`
	Full    unit.Ratio    `sym:"ε"`
	Volume  unit.Volume   `sym:"V"`
	Deposit unit.Density  `sym:"ρ_d"` // dry matter in wet dirt
	Solids  unit.MassRate `sym:"P"`   // dry, from the fish
	Capture unit.Ratio    `sym:"η"`   // share that stays in the bed
	Uneven  unit.Ratio    `sym:"n"`   // 1 for even fouling; 2 to 4 where the face blinds first
}

// Interval gives the time until the bed is due for cleaning.
//
//	t = (ε0 − ε) V ρ_d/(n η P)
//
// n = 1 is an upper bound: real foam blinds at its face first.
// Source: derived, mass balance.
var Interval = working.Formula[IntervalInput, unit.Time]{
	ID: "solids.interval", Name: "time between cleanings", Symbol: "t",
	Equation: "t = (ε0 − ε) V ρ_d/(n η P)", Source: source.KozenyCarman,
	Eval: func(in IntervalInput) unit.Time {
		stored := (in.Clean - in.Full).Float() * in.Volume.CubicMetres() * in.Deposit.KilogramsPerCubicMetre()
		return unit.Seconds(stored / (in.Uneven.Float() * in.Capture.Float() * float64(in.Solids)))
	},
}

// FlushInput is a cleaning that throws water away.
type FlushInput struct {
	Each  unit.Volume `sym:"V_f"`
	Every unit.Time   `sym:"t"`
}

// FlushWater gives the water that cleaning takes, spread over time. q = V_f/t. It counts as a change of water, and what
// replaces it brings the tap's chlorine and nitrate. Source: by definition.
var FlushWater = working.Formula[FlushInput, unit.Flow]{
	ID: "solids.flush-water", Name: "water thrown away by cleaning", Symbol: "q",
	Equation: "q = V_f/t", Source: source.Definition,
	Eval: func(in FlushInput) unit.Flow {
		return unit.CubicMetresPerSecond(in.Each.CubicMetres() / in.Every.Seconds())
	},
}

// Formulas lists every formula of this package.
func Formulas() []working.Entry {
	return []working.Entry{&HeadRatio, &Full, &Interval, &FlushWater}
}

// longest is what an interval is cut to: a filter is looked at once a year however few fish there are.
const longest = unit.Time(365 * 86400)

func interval(t *working.Trail, in IntervalInput) unit.Time {
	if in.Solids <= 0 {
		return longest
	}
	return unit.Time(math.Min(float64(longest), float64(Interval.Run(t, in))))
}

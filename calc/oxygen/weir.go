// Package oxygen says what air brings to a pond and what breathes it away by dawn: falls, the open surface, fish, filter
// and the water itself.
//
// Air brings oxygen in proportion to what is missing. Every supply is therefore one term in the same rate, and the night
// has a closed form. What a fall adds goes to nothing as the pond nears saturation: no fall makes up for a pond that is
// full already, and each is worth most when it is needed most.
package oxygen

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// Coefficients of WeirRatio for the water: how clean it is.
const (
	CleanWater        = 1.8
	SlightlyPolluted  = 1.6
	ModeratePollution = 1.0
)

// Coefficients of WeirRatio for the fall: what the water runs over.
const (
	SharpLip      = 0.8  // a sharp crest with an upright face
	UprightFace   = 0.8  // a broad flat crest with an upright face
	RegularStep   = 0.7  // a broad flat crest with even steps
	IrregularStep = 0.8  // a broad flat crest with uneven steps
	CurvedFace    = 0.75 // a broad flat crest with a curved face
)

// WeirInput is a fall of water.
type WeirInput struct {
	Drop        unit.Length      `sym:"h"` // from the upper to the lower water
	Water       float64          `sym:"a"` // CleanWater and so on
	Fall        float64          `sym:"b"` // SharpLip and so on
	Temperature unit.Temperature `sym:"T"`
}

// WeirRatio gives the oxygen missing above a fall by the oxygen missing below it.
//
//	r = 1 + 0.38 a b h (1 − 0.11 h)(1 + 0.046 T)    h in m, T in °C
//
// From 0.1 to 3 m: the parabola turns at 4.5 m. An older form with 0.5 goes with another set of a and b; they do not mix.
// Source: Water Research Laboratory 1973 (from memory).
var WeirRatio = working.Formula[WeirInput, unit.Ratio]{
	ID: "oxygen.weir-ratio", Name: "oxygen deficit above by below a fall", Symbol: "r",
	Equation: "r = 1 + 0.38 a b h (1 − 0.11 h)(1 + 0.046 T)", Source: source.WeirGameson,
	Outside: func(in WeirInput) string { return outsideDrop(in.Drop) },
	Eval: func(in WeirInput) unit.Ratio {
		h, T := in.Drop.Metres(), in.Temperature.Celsius()
		return unit.Ratio(1 + 0.38*in.Water*in.Fall*h*(1-0.11*h)*(1+0.046*T))
	},
}

func outsideDrop(h unit.Length) string {
	if h < 0.1 || h > 3 {
		return "drop outside 0.1 to 3 m"
	}
	return ""
}

// SheetInput is a fall described by its sheet and pool.
type SheetInput struct {
	Drop        unit.Length       `sym:"D"`
	Sheet       unit.FlowPerWidth `sym:"q"` // over each metre of lip
	Pool        unit.Length       `sym:"H"` // depth of water it falls into
	Temperature unit.Temperature  `sym:"T"`
}

// SheetRatio gives the same ratio by another road, which knows the sheet and the pool but not the water.
//
//	ln r₂₀ = c x^m q^n H^0.310,  x = D + 1.5 Hc,  Hc = (q²/g)^(1/3)    q in m³/(h m), lengths in m
//	x ≤ 1.2: m = 1.31, c = 0.0785;  x > 1.2: m = 0.816, c = 0.0861, n = 0.428 for q ≤ 235;
//	q > 235: c = 5.39 or 5.92, n = −0.363
//	1/r = (1/r₂₀)^f,  f = 1 + 0.02103 (T − 20) + 8.261×10⁻⁵ (T − 20)²
//
// It drops 8.5 % at q = 235. Whether its data reach the thin sheets of gardens was not checked.
// Source: Nakasone 1987; Gulliver et al. 1990 for temperature (both from memory).
var SheetRatio = working.Formula[SheetInput, unit.Ratio]{
	ID: "oxygen.sheet-ratio", Name: "oxygen deficit above by below a fall, from sheet and pool", Symbol: "r",
	Equation: "ln r = f c (D + 1.5 Hc)^m q^n H^0.310, q in m³/(h m)", Source: source.WeirNakasone,
	Outside: func(in SheetInput) string { return outsideDrop(in.Drop) },
	Eval:    func(in SheetInput) unit.Ratio { return unit.Ratio(sheetRatio(in)) },
}

func sheetRatio(in SheetInput) float64 {
	perSecond := float64(in.Sheet)
	q := perSecond * 3600
	x := in.Drop.Metres() + 1.5*math.Cbrt(perSecond*perSecond/water.Gravity)
	c, m, n := 0.0785, 1.31, 0.428
	if x > 1.2 {
		c, m = 0.0861, 0.816
	}
	if q > 235 {
		n = -0.363
		if c = 5.39; x > 1.2 {
			c = 5.92
		}
	}
	dT := in.Temperature.Celsius() - 20
	f := 1 + 0.02103*dT + 8.261e-5*dT*dT
	return math.Exp(f * c * math.Pow(x, m) * math.Pow(q, n) * math.Pow(in.Pool.Metres(), 0.310))
}

// CascadeInput is falls one after another, each into its own pool.
type CascadeInput struct {
	Ratio unit.Ratio `sym:"r"` // of one fall
	Falls int        `sym:"n"`
}

// CascadeEfficiency gives the share of the missing oxygen that n like falls make up.
//
//	E = 1 − 1/r^n
//
// Source: by definition of r: what is missing after one fall is what the next begins with.
var CascadeEfficiency = working.Formula[CascadeInput, unit.Ratio]{
	ID: "oxygen.cascade-efficiency", Name: "share of missing oxygen made up by a cascade", Symbol: "E",
	Equation: "E = 1 − 1/r^n", Source: source.Definition,
	Eval: func(in CascadeInput) unit.Ratio {
		return unit.Ratio(1 - math.Pow(in.Ratio.Float(), -float64(in.Falls)))
	},
}

// SupplyInput is water that runs over a fall.
type SupplyInput struct {
	Flow       unit.Flow          `sym:"Q"`
	Efficiency unit.Ratio         `sym:"E"`
	Saturation unit.Concentration `sym:"Cs"`
	Pond       unit.Concentration `sym:"C"`
}

// FallSupply gives the oxygen a fall brings. R = Q E (Cs − C). Source: mass balance.
var FallSupply = working.Formula[SupplyInput, unit.MassRate]{
	ID: "oxygen.fall-supply", Name: "oxygen brought by a fall", Symbol: "R",
	Equation: "R = Q E (Cs − C)", Source: source.Definition,
	Eval: func(in SupplyInput) unit.MassRate {
		return unit.MassRate(float64(in.Flow) * in.Efficiency.Float() * float64(in.Saturation-in.Pond))
	},
}

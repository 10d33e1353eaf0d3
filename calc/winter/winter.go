// Package winter says what frost does to a pond: how thick the ice grows, how soon the water is cold, and what it means
// to stir it.
//
// Water is densest near 4 °C. Left alone, the deep of a pond stays at that while the top freezes; a pump at the bottom
// mixes it away and the whole pond cools.
package winter

import (
	"math"

	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Coefficients of IceThickness.
const (
	BareIce      = 1.0 // in the open, no snow: an upper bound
	ShelteredIce = 0.7 // in a garden
	SnowedIce    = 0.5
)

// IceInput is a frost.
type IceInput struct {
	FreezingDays float64 `sym:"F"` // sum of daily mean air temperatures below 0 °C, in °C days
	Cover        float64 `sym:"c"` // BareIce and so on
}

// IceThickness gives the ice on still fresh water.
//
//	h = c √(2 k F/(ρ L)) = c · 35.39 mm √F    F in °C days
//
// Thick ice only: from about 5 °C days.
// Source: Stefan; see source.StefanIce.
var IceThickness = working.Formula[IceInput, unit.Length]{
	ID: "winter.ice-thickness", Name: "thickness of ice", Symbol: "h",
	Equation: "h = c √(2 k F/(ρ L))", Source: source.StefanIce,
	Eval: func(in IceInput) unit.Length {
		const k, rho, L, day = 2.22, 917.0, 334e3, 86400.0
		return unit.Metres(in.Cover * math.Sqrt(2*k*day*in.FreezingDays/(rho*L)))
	},
}

const heat = 4.205e6 // J/(m³ K), of water near 2 °C

// CoolingInput is water that loses heat through its surface.
type CoolingInput struct {
	Volume  unit.Volume   `sym:"V"` // that takes part
	Surface unit.Area     `sym:"A"`
	Loss    unit.HeatFlux `sym:"q"`  // 80 W/m² on a cold day, 150 on a clear frosty night
	Drop    float64       `sym:"ΔT"` // in °C
}

// CoolingTime gives the time in which stirred water cools.
//
//	t = V c ΔT/(q A),  c = 4.205 MJ/(m³ K)
//
// Heat from the ground is left out.
// Source: derived, heat balance.
var CoolingTime = working.Formula[CoolingInput, unit.Time]{
	ID: "winter.cooling-time", Name: "time in which water cools", Symbol: "t",
	Equation: "t = V c ΔT/(q A), c = 4.205 MJ/(m³ K)", Source: source.WaterHeat,
	Eval: func(in CoolingInput) unit.Time {
		return unit.Seconds(in.Volume.CubicMetres() * heat * in.Drop / (in.Loss.WattsPerSquareMetre() * in.Surface.SquareMetres()))
	},
}

// DensestWater is where fresh water is densest, and so what the deep of a still pond stays near. Source: handbooks, from
// memory; package water has the density.
const DensestWater = unit.Temperature(3.98)

// FallHeatInput is water that runs through cold air.
type FallHeatInput struct {
	Flow unit.Flow `sym:"Q"`
	Drop float64   `sym:"ΔT"` // by which it cools on its way, in °C
}

// FallHeat gives the heat a fall carries off.
//
//	P = c Q ΔT,  c = 4.205 MJ/(m³ K)
//
// How far a fall cools hangs on air, wind and sheet; that was not found published for gardens.
// Source: derived, heat balance.
var FallHeat = working.Formula[FallHeatInput, unit.Power]{
	ID: "winter.fall-heat", Name: "heat carried off by a fall", Symbol: "P",
	Equation: "P = c Q ΔT, c = 4.205 MJ/(m³ K)", Source: source.WaterHeat,
	Eval: func(in FallHeatInput) unit.Power { return unit.Power(heat * float64(in.Flow) * in.Drop) },
}

// WinterFlowPractice gives the flow that a filter is kept alive with in winter by habit of the trade: a quarter to a half
// of that of summer.
func WinterFlowPractice(summer unit.Flow) (low, high unit.Flow, src source.Source) {
	return summer / 4, summer / 2, source.Practice
}

// RefugePractice gives the depth of water that fish are wintered in by habit of the trade: nothing without fish. It
// depends on the climate.
func RefugePractice(kind filter.Stocking) (low, high unit.Length, src source.Source) {
	switch kind {
	case filter.GoldfishPond:
		low, high = unit.Metres(0.6), unit.Metres(0.9)
	case filter.KoiPond:
		low, high = unit.Metres(1.2), unit.Metres(1.8)
	}
	return low, high, source.Practice
}

// Formulas lists every formula of this package.
func Formulas() []working.Entry { return []working.Entry{&IceThickness, &CoolingTime, &FallHeat} }

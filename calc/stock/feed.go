package stock

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// FeedingStops is the water temperature at which feeding stops. Source: FAO, common carp.
const FeedingStops = unit.Temperature(8)

// FeedRangeEnds is the warmest water the ration is stated for.
const FeedRangeEnds = unit.Temperature(32)

// rationKnots gives the ration of a 250 g fish, in % of its mass a day, over the water temperature in °C.
var rationKnots = [...]struct{ t, percent float64 }{{8, 0}, {12, 0.4}, {18, 1.0}, {24, 1.5}}

// RationInput is what a ration depends on.
type RationInput struct {
	Temperature unit.Temperature `sym:"T"` // of the water, not the air
	Mass        unit.Mass        `sym:"W"` // of one fish
}

// Ration gives the feed a fish of a maintained stock takes, as a share of its own mass in time.
//
//	F = F₂₅₀(T) (W/250 g)^−0.2
//
// F₂₅₀ is 0 up to 8 °C, 0.4 % a day at 12 °C, 1.0 % at 18 °C, 1.5 % from 24 °C, straight lines between. To 32 °C.
//
// A koi of 5 kg gets 0.64 % a day at 20 °C. The habit of 1 % for fish of any size feeds it half as much again.
// Source: derived; see source.FeedRule.
var Ration = working.Formula[RationInput, unit.PerTime]{
	ID: "stock.ration", Name: "daily ration by water temperature and size", Symbol: "F",
	Equation: "F = F250(T) (W/250 g)^-0.2", Source: source.FeedRule,
	Outside: func(in RationInput) string {
		if in.Temperature > FeedRangeEnds {
			return "water warmer than 32 °C"
		}
		return ""
	},
	Eval: ration,
}

func ration(in RationInput) unit.PerTime {
	W := in.Mass.Grams()
	if in.Temperature <= FeedingStops || W <= 0 {
		return 0
	}
	return unit.PerDay(rationAt250(in.Temperature.Celsius()) / 100 * math.Pow(W/250, -0.2))
}

func rationAt250(t float64) float64 {
	for i := 1; i < len(rationKnots); i++ {
		if a, b := rationKnots[i-1], rationKnots[i]; t <= b.t {
			return a.percent + (b.percent-a.percent)*(t-a.t)/(b.t-a.t)
		}
	}
	return rationKnots[len(rationKnots)-1].percent
}

// FeedInput is a group of like fish and their ration.
type FeedInput struct {
	Count  int          `sym:"n"`
	Mass   unit.Mass    `sym:"W"`
	Ration unit.PerTime `sym:"F"`
}

// Feed gives the feed of a group. M = n W F. Source: by definition.
var Feed = working.Formula[FeedInput, unit.MassRate]{
	ID: "stock.feed", Name: "feed of a group of like fish", Symbol: "M",
	Equation: "M = n W F", Source: source.Definition,
	Eval: func(in FeedInput) unit.MassRate {
		return unit.MassRate(float64(in.Count) * in.Mass.Kilograms() * float64(in.Ration))
	},
}

package filter

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// TemperatureFactorInput is the water at the media.
type TemperatureFactorInput struct {
	Temperature unit.Temperature `sym:"T"`
}

// TemperatureFactor gives the nitrification rate as a share of the rate at 20 °C where ammonia, not oxygen, limits it.
//
//	f_T = 1.04275^(T − 20)    T in °C, from 10 °C up
//
// Below, a straight line on the logarithm from there to 0.18 at 1 °C. From 1 to 30 °C.
//
// The warm branch alone would give 0.45 at 1 °C, where a moving bed kept cold for long showed 0.18 ± 0.05.
// Source: Zhu & Chen 2002 (warm); Hoang et al. 2014 (1 °C).
var TemperatureFactor = working.Formula[TemperatureFactorInput, unit.Ratio]{
	ID: "filter.temperature-factor", Name: "nitrification rate relative to 20 °C", Symbol: "f_T",
	Equation: "f_T = 1.04275^(T - 20) from 10 °C; below, f_T(10) (0.18/f_T(10))^((10 - T)/9)",
	Source:   source.NitrificationTemperature,
	Outside: func(in TemperatureFactorInput) string {
		if in.Temperature < 1 || in.Temperature > 30 {
			return "water outside 1 to 30 °C"
		}
		return ""
	},
	Eval: func(in TemperatureFactorInput) unit.Ratio {
		return unit.Ratio(temperatureFactor(in.Temperature.Celsius()))
	},
}

func temperatureFactor(T float64) float64 {
	const theta, bend, coldest, share = 1.04275, 10, 1, 0.18
	if T >= bend {
		return math.Pow(theta, T-20)
	}
	atBend := math.Pow(theta, bend-20)
	return atBend * math.Pow(share/atBend, (bend-T)/(bend-coldest))
}

// AmmoniaFactorInput is the ammonia in the water and the ammonia a rate is stated for.
type AmmoniaFactorInput struct {
	TAN    unit.Concentration `sym:"S"`
	Stated unit.Concentration `sym:"S_r"`
}

// AmmoniaFactor gives the rate in thin water as a share of the rate at the ammonia it is stated for.
//
//	f_S = min(1, S/S_r)
//
// First order below, and no more above. S_r to about 1 mg/L.
// Source: Malone & Pfeiffer 2006, abstract.
var AmmoniaFactor = working.Formula[AmmoniaFactorInput, unit.Ratio]{
	ID: "filter.ammonia-factor", Name: "nitrification rate relative to the stated ammonia", Symbol: "f_S",
	Equation: "f_S = min(1, S/S_r)", Source: source.FirstOrderAmmonia,
	Eval: func(in AmmoniaFactorInput) unit.Ratio {
		return unit.Ratio(min(1, float64(in.TAN)/float64(in.Stated)))
	},
}

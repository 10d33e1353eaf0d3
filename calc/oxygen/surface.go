package oxygen

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// SurfaceInput is wind over water.
type SurfaceInput struct {
	Wind        unit.Velocity    `sym:"U"` // at 10 m
	Temperature unit.Temperature `sym:"T"`
}

// CalmTransfer gives the speed at which oxygen crosses the surface: the low of two.
//
//	k = k₆₀₀ (Sc/600)^−0.5,  k₆₀₀ = 0.168 + 0.228 U^2.2 cm/h
//	Sc = 1800.6 − 120.10 T + 3.7818 T² − 0.047608 T³
//
// Lakes, winds of 0 to 10 m/s, 0 to 30 °C. A garden pond is smaller than any lake of these.
// Source: Crusius & Wanninkhof 2003; Wanninkhof 1992 for Sc (from memory).
var CalmTransfer = working.Formula[SurfaceInput, unit.Velocity]{
	ID: "oxygen.calm-transfer", Name: "oxygen through the surface, low estimate", Symbol: "k",
	Equation: "k = (0.168 + 0.228 U^2.2) (Sc/600)^−0.5 cm/h, Sc = 1800.6 − 120.10 T + 3.7818 T² − 0.047608 T³",
	Source:   source.CalmSurface, Outside: outsideWind,
	Eval: func(in SurfaceInput) unit.Velocity {
		return transfer(0.168+0.228*math.Pow(in.Wind.MetresPerSecond(), 2.2), in.Temperature)
	},
}

// LakeTransfer gives the same speed: the high of two.
//
//	k = k₆₀₀ (Sc/600)^−0.5,  k₆₀₀ = 2.07 + 0.215 U^1.7 cm/h
//
// Range and Sc as for CalmTransfer.
// Source: Cole & Caraco 1998 (from memory).
var LakeTransfer = working.Formula[SurfaceInput, unit.Velocity]{
	ID: "oxygen.lake-transfer", Name: "oxygen through the surface, high estimate", Symbol: "k",
	Equation: "k = (2.07 + 0.215 U^1.7) (Sc/600)^−0.5 cm/h, Sc = 1800.6 − 120.10 T + 3.7818 T² − 0.047608 T³",
	Source:   source.WindySurface, Outside: outsideWind,
	Eval: func(in SurfaceInput) unit.Velocity {
		return transfer(2.07+0.215*math.Pow(in.Wind.MetresPerSecond(), 1.7), in.Temperature)
	},
}

// transfer turns k₆₀₀ in cm/h into the speed for oxygen. Sc runs away beyond 30 °C, so warmer water is taken at 30 °C.
func transfer(k600 float64, temperature unit.Temperature) unit.Velocity {
	T := min(temperature.Celsius(), 30)
	Sc := 1800.6 + (-120.10+(3.7818-0.047608*T)*T)*T
	return unit.MetresPerSecond(k600 / 100 / 3600 * math.Sqrt(600/Sc))
}

func outsideWind(in SurfaceInput) string {
	if in.Wind < 0 || in.Wind > 10 || in.Temperature < 0 || in.Temperature > 30 {
		return "outside 0 to 10 m/s of wind and 0 to 30 °C"
	}
	return ""
}

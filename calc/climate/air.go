package climate

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// AltitudeInput is a place above the sea.
type AltitudeInput struct {
	Altitude unit.Length `sym:"z"`
}

// Pressure gives the pressure of the air.
//
//	P = 101.3 ((293 − 0.0065 z)/293)^5.26 kPa    z in m
//
// Source: FAO-56 equation 7.
var Pressure = working.Formula[AltitudeInput, unit.Pressure]{
	ID: "climate.pressure", Name: "pressure of the air", Symbol: "P",
	Equation: "P = 101.3 ((293 − 0.0065 z)/293)^5.26 kPa", Source: source.FAO56.At("equation 7"),
	Eval: func(in AltitudeInput) unit.Pressure {
		return unit.Kilopascals(101.3 * math.Pow((293-0.0065*in.Altitude.Metres())/293, 5.26))
	},
}

// PressureInput is the pressure of the air.
type PressureInput struct {
	Pressure unit.Pressure `sym:"P"`
}

// Psychrometric gives the psychrometric constant: what drying air takes of heat, by what it takes of vapour.
//
//	γ = 0.665×10⁻³ P
//
// With latent heat held at 2.45 MJ/kg.
// Source: FAO-56 equation 8.
var Psychrometric = working.Formula[PressureInput, unit.PressurePerKelvin]{
	ID: "climate.psychrometric", Name: "psychrometric constant", Symbol: "γ",
	Equation: "γ = 0.665e-3 P", Source: source.FAO56.At("equation 8"),
	Eval: func(in PressureInput) unit.PressurePerKelvin {
		return unit.PressurePerKelvin(0.665e-3 * in.Pressure.Pascals())
	},
}

// AirInput is air of a temperature.
type AirInput struct {
	Temperature unit.Temperature `sym:"T"`
}

// Saturation gives the pressure of vapour in air that can hold no more; at the dew point it is the vapour that is there.
//
//	e° = 0.6108 exp(17.27 T/(T + 237.3)) kPa
//
// Over water, also below 0 °C.
// Source: FAO-56 equation 11.
var Saturation = working.Formula[AirInput, unit.Pressure]{
	ID: "climate.saturation", Name: "vapour pressure of saturated air", Symbol: "e°",
	Equation: "e° = 0.6108 exp(17.27 T/(T + 237.3)) kPa", Source: source.FAO56.At("equation 11"),
	Eval: func(in AirInput) unit.Pressure {
		return unit.Kilopascals(SaturationKilopascals(in.Temperature.Celsius()))
	},
}

// SaturationKilopascals is Saturation for hot loops: °C in, kPa out.
func SaturationKilopascals(celsius float64) float64 {
	return 0.6108 * math.Exp(17.27*celsius/(celsius+237.3))
}

// Slope gives how the vapour pressure of saturated air rises with temperature.
//
//	Δ = 4098 e°/(T + 237.3)²
//
// Source: FAO-56 equation 13.
var Slope = working.Formula[AirInput, unit.PressurePerKelvin]{
	ID: "climate.slope", Name: "slope of the vapour pressure curve", Symbol: "Δ",
	Equation: "Δ = 4098 [0.6108 exp(17.27 T/(T + 237.3))]/(T + 237.3)² kPa/K", Source: source.FAO56.At("equation 13"),
	Eval: func(in AirInput) unit.PressurePerKelvin {
		T := in.Temperature.Celsius()
		return unit.KilopascalsPerKelvin(4098 * SaturationKilopascals(T) / ((T + 237.3) * (T + 237.3)))
	},
}

// RangeInput is air over a day, between its extremes.
type RangeInput struct {
	Least unit.Temperature `sym:"T_min"`
	Most  unit.Temperature `sym:"T_max"`
}

// MeanSaturation gives the mean vapour pressure of saturated air over a day. At the mean temperature it would come out low,
// since the curve bends up.
//
//	e_s = (e°(T_max) + e°(T_min))/2
//
// Source: FAO-56 equation 12.
var MeanSaturation = working.Formula[RangeInput, unit.Pressure]{
	ID: "climate.mean-saturation", Name: "vapour pressure of saturated air over a day", Symbol: "e_s",
	Equation: "e_s = (e°(T_max) + e°(T_min))/2", Source: source.FAO56.At("equation 12"),
	Eval: func(in RangeInput) unit.Pressure {
		return unit.Kilopascals((SaturationKilopascals(in.Most.Celsius()) + SaturationKilopascals(in.Least.Celsius())) / 2)
	},
}

// ExtremesInput is damp air between its extremes: it is dampest when coldest.
type ExtremesInput struct {
	Least   unit.Temperature `sym:"T_min"`
	Most    unit.Temperature `sym:"T_max"`
	Driest  unit.Ratio       `sym:"RH_min"`
	Dampest unit.Ratio       `sym:"RH_max"`
}

// VapourFromExtremes gives the vapour in the air from the extremes of its humidity.
//
//	e_a = (e°(T_min) RH_max + e°(T_max) RH_min)/2
//
// Source: FAO-56 equation 17.
var VapourFromExtremes = working.Formula[ExtremesInput, unit.Pressure]{
	ID: "climate.vapour-from-extremes", Name: "vapour pressure of the air from the extremes of humidity", Symbol: "e_a",
	Equation: "e_a = (e°(T_min) RH_max + e°(T_max) RH_min)/2", Source: source.FAO56.At("equation 17"),
	Eval: func(in ExtremesInput) unit.Pressure {
		low, high := SaturationKilopascals(in.Least.Celsius()), SaturationKilopascals(in.Most.Celsius())
		return unit.Kilopascals((low*in.Dampest.Float() + high*in.Driest.Float()) / 2)
	},
}

// HumidityInput is damp air over a day.
type HumidityInput struct {
	Least    unit.Temperature `sym:"T_min"`
	Most     unit.Temperature `sym:"T_max"`
	Humidity unit.Ratio       `sym:"RH"` // mean of the day
}

// VapourFromHumidity gives the vapour in the air from its mean humidity.
//
//	e_a = RH (e°(T_max) + e°(T_min))/2
//
// Source: FAO-56 equation 19.
var VapourFromHumidity = working.Formula[HumidityInput, unit.Pressure]{
	ID: "climate.vapour-from-humidity", Name: "vapour pressure of the air from its humidity", Symbol: "e_a",
	Equation: "e_a = RH (e°(T_max) + e°(T_min))/2", Source: source.FAO56.At("equation 19"),
	Eval: func(in HumidityInput) unit.Pressure {
		s := MeanSaturation.Eval(RangeInput{Least: in.Least, Most: in.Most})
		return unit.Pressure(in.Humidity.Float() * s.Pascals())
	},
}

// WindInput is wind that was measured at some height over short grass.
type WindInput struct {
	Wind   unit.Velocity `sym:"u_z"`
	Height unit.Length   `sym:"z"`
}

// WindAtTwoMetres gives the wind two metres up.
//
//	u₂ = 4.87 u_z/ln(67.8 z − 5.42)    z in m
//
// From 0.5 m up.
// Source: FAO-56 equation 47.
var WindAtTwoMetres = working.Formula[WindInput, unit.Velocity]{
	ID: "climate.wind-at-two-metres", Name: "wind two metres up", Symbol: "u2",
	Equation: "u2 = 4.87 u_z/ln(67.8 z − 5.42)", Source: source.FAO56.At("equation 47"),
	Outside: func(in WindInput) string {
		if in.Height < 0.5 {
			return "wind measured below 0.5 m"
		}
		return ""
	},
	Eval: func(in WindInput) unit.Velocity {
		return unit.Velocity(float64(in.Wind) * 4.87 / math.Log(67.8*in.Height.Metres()-5.42))
	},
}

// LatentHeat gives the heat that a kilogram of water takes to evaporate.
//
//	λ = 2.501 − 0.002361 T MJ/kg
//
// Source: Shuttleworth 1993 (from memory).
var LatentHeat = working.Formula[AirInput, unit.SpecificEnergy]{
	ID: "climate.latent-heat", Name: "latent heat of evaporation", Symbol: "λ",
	Equation: "λ = 2.501 − 0.002361 T MJ/kg", Source: source.LatentHeat,
	Eval: func(in AirInput) unit.SpecificEnergy {
		return unit.MegajoulesPerKilogram(2.501 - 0.002361*in.Temperature.Celsius())
	},
}

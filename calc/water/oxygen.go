package water

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Atmosphere is the standard atmosphere, by definition.
const Atmosphere = unit.Pressure(101325)

// AltitudeInput is a height above the sea.
type AltitudeInput struct {
	Altitude unit.Length `sym:"h"`
}

// AltitudePressure gives the air pressure at an altitude on a standard day.
//
//	p = 101325 Pa (1 − 2.25577×10⁻⁵ h)^5.25588    h in m
//
// Holds to 11,000 m; −500 to 4,000 m here. The weather moves it by 3 %.
// Source: ISO 2533, from memory.
var AltitudePressure = working.Formula[AltitudeInput, unit.Pressure]{
	ID: "water.altitude-pressure", Name: "air pressure at an altitude", Symbol: "p",
	Equation: "p = 101325 (1 − 2.25577e-5 h)^5.25588", Source: source.StandardAtmosphere,
	Outside: func(in AltitudeInput) string {
		if in.Altitude < -500 || in.Altitude > 4000 {
			return "altitude outside −500 to 4,000 m"
		}
		return ""
	},
	Eval: func(in AltitudeInput) unit.Pressure {
		return unit.Pressure(101325 * math.Pow(1-2.25577e-5*in.Altitude.Metres(), 5.25588))
	},
}

// OxygenInput is water in the open air.
type OxygenInput struct {
	Temperature unit.Temperature `sym:"t"`
	Pressure    unit.Pressure    `sym:"p"`
	Salinity    unit.Ratio       `sym:"S"` // salt by mass of water: 0.003 is 3 g/kg
}

// OxygenSaturation gives the dissolved oxygen that water holds against the air.
//
//	ln C₁ = −139.34411 + 1.575701×10⁵/T − 6.642308×10⁷/T² + 1.243800×10¹⁰/T³ − 8.621949×10¹¹/T⁴    C₁ in mg/L at 1 atm
//	C = C₁ exp(−S (0.017674 − 10.754/T + 2140.7/T²)) (p − u)(1 − θp)/((1 − u)(1 − θ))    S in g/kg, p in atm
//	u = exp(11.8571 − 3840.70/T − 216961/T²),  θ = 0.000975 − 1.426×10⁻⁵ t + 6.436×10⁻⁸ t²,  T = t + 273.15
//
// Holds from 0 to 40 °C, 0 to 40 g/kg and 0.5 to 1.1 atm.
// Source: Benson & Krause 1980, 1984; see source.OxygenSolubility.
var OxygenSaturation = working.Formula[OxygenInput, unit.Concentration]{
	ID: "water.oxygen-saturation", Name: "oxygen held at saturation", Symbol: "C",
	Equation: "C = C₁(T) exp(−S (0.017674 − 10.754/T + 2140.7/T²)) (p − u)(1 − θp)/((1 − u)(1 − θ)), S in g/kg, p in atm",
	Source:   source.OxygenSolubility, Outside: outsideOxygen, Eval: oxygenSaturation,
}

func oxygenSaturation(in OxygenInput) unit.Concentration {
	t, T := in.Temperature.Celsius(), in.Temperature.Kelvin()
	S, p := 1000*in.Salinity.Float(), float64(in.Pressure/Atmosphere)
	C := math.Exp(-139.34411 + (1.575701e5+(-6.642308e7+(1.243800e10-8.621949e11/T)/T)/T)/T)
	salt := math.Exp(-S * (0.017674 + (-10.754+2140.7/T)/T))
	u := math.Exp(11.8571 + (-3840.70-216961/T)/T)
	th := 0.000975 + (-1.426e-5+6.436e-8*t)*t
	return unit.MilligramsPerLitre(C * salt * (p - u) * (1 - th*p) / ((1 - u) * (1 - th)))
}

func outsideOxygen(in OxygenInput) string {
	switch {
	case in.Temperature < 0 || in.Temperature > 40:
		return "outside 0 to 40 °C"
	case in.Salinity < 0 || in.Salinity > 0.04:
		return "outside 0 to 40 g/kg of salt"
	case in.Pressure < Atmosphere/2 || in.Pressure > 1.1*Atmosphere:
		return "outside 0.5 to 1.1 atm"
	default:
		return ""
	}
}

// Package water gives the properties of fresh water at one atmosphere that pumps, pipes and fish meet.
package water

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Gravity is standard gravity in m/s², exact by definition (3rd CGPM, 1901).
const Gravity = 9.80665

// AtTemperature is the input of the properties that depend on temperature alone.
type AtTemperature struct {
	Temperature unit.Temperature `sym:"t"`
}

// Density gives the density of fresh water at one atmosphere.
//
//	ρ = 999.97495 [1 − (t − 3.983035)² (t + 301.797) / (522528.9 (t + 69.34881))]    ρ in kg/m³, t in °C
//
// Holds from 0 to 40 °C.
// Source: Tanaka and others 2001, from memory.
var Density = working.Formula[AtTemperature, unit.Density]{
	ID: "water.density", Name: "density of water", Symbol: "ρ",
	Equation: "ρ = 999.97495 [1 − (t − 3.983035)² (t + 301.797) / (522528.9 (t + 69.34881))]",
	Source:   source.Tanaka2001, Outside: outsideLiquid, Eval: density,
}

func density(in AtTemperature) unit.Density {
	t := in.Temperature.Celsius()
	d := t - 3.983035
	return unit.Density(999.97495 * (1 - d*d*(t+301.797)/(522528.9*(t+69.34881))))
}

// VapourPressure gives the pressure at which water boils at a temperature.
//
//	ln(p/22.064 MPa) = (647.096/T)(a₁τ + a₂τ^1.5 + a₃τ³ + a₄τ^3.5 + a₅τ⁴ + a₆τ^7.5),  τ = 1 − T/647.096 K
//
// Holds from 0 to 374 °C.
// Source: IAPWS SR1-86(1992), from memory.
var VapourPressure = working.Formula[AtTemperature, unit.Pressure]{
	ID: "water.vapour-pressure", Name: "vapour pressure of water", Symbol: "pᵥ",
	Equation: "ln(pᵥ/22.064 MPa) = (647.096/T)(a₁τ + a₂τ^1.5 + a₃τ³ + a₄τ^3.5 + a₅τ⁴ + a₆τ^7.5), T = t + 273.15, τ = 1 − T/647.096",
	Source:   source.IAPWSSaturation1992, Outside: outsideLiquid, Eval: vapourPressure,
}

func vapourPressure(in AtTemperature) unit.Pressure {
	const critical = 647.096 // K
	T := in.Temperature.Kelvin()
	tau := 1 - T/critical
	sum := -7.85951783*tau + 1.84408259*math.Pow(tau, 1.5) - 11.7866497*math.Pow(tau, 3) +
		22.6807411*math.Pow(tau, 3.5) - 15.9618719*math.Pow(tau, 4) + 1.80122502*math.Pow(tau, 7.5)
	return unit.Pressure(22.064e6 * math.Exp(critical/T*sum))
}

// KinematicInput is the input of KinematicViscosity.
type KinematicInput struct {
	Viscosity unit.DynamicViscosity `sym:"μ"`
	Density   unit.Density          `sym:"ρ"`
}

// KinematicViscosity gives viscosity by density.
//
//	ν = μ/ρ    ν in m²/s, μ in Pa s, ρ in kg/m³
//
// Source: definition.
var KinematicViscosity = working.Formula[KinematicInput, unit.KinematicViscosity]{
	ID: "water.kinematic-viscosity", Name: "kinematic viscosity of water", Symbol: "ν",
	Equation: "ν = μ/ρ", Source: source.Definition,
	Eval: func(in KinematicInput) unit.KinematicViscosity {
		return unit.KinematicViscosity(in.Viscosity.PascalSeconds() / in.Density.KilogramsPerCubicMetre())
	},
}

// Properties are what the hydraulics need of the water.
type Properties struct {
	Temperature unit.Temperature
	Density     unit.Density
	Viscosity   unit.KinematicViscosity
}

// At gives the properties at a temperature from 0 to 40 °C.
func At(t *working.Trail, temperature unit.Temperature) Properties {
	in := AtTemperature{temperature}
	rho := Density.Run(t, in)
	mu := Viscosity.Run(t, ViscosityInput{temperature, rho})
	nu := KinematicViscosity.Run(t, KinematicInput{mu, rho})
	return Properties{Temperature: temperature, Density: rho, Viscosity: nu}
}

func outsideLiquid(in AtTemperature) string {
	if t := in.Temperature.Celsius(); t < 0 || t > 40 {
		return "temperature outside 0 to 40 °C"
	}
	return ""
}

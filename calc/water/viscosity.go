package water

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// ViscosityInput is the input of Viscosity.
type ViscosityInput struct {
	Temperature unit.Temperature `sym:"t"`
	Density     unit.Density     `sym:"ρ"`
}

// Viscosity gives the dynamic viscosity of water by the international formulation, without its critical enhancement.
//
//	μ/(1 μPa s) = 100 √θ / Σ Hᵢ θ^−i · exp[δ Σᵢ (1/θ − 1)^i Σⱼ Hᵢⱼ (δ − 1)^j],  θ = T/647.096 K, δ = ρ/(322 kg/m³)
//
// Holds for liquid water; the release states an uncertainty of 1 % in general and far less at one atmosphere.
// Source: IAPWS R12-08, eq. 10 to 12, tables 1 and 2, from memory.
var Viscosity = working.Formula[ViscosityInput, unit.DynamicViscosity]{
	ID: "water.viscosity", Name: "dynamic viscosity of water", Symbol: "μ",
	Equation: "μ/(1 μPa s) = 100 √θ/Σ Hᵢ θ^−i · exp[δ Σᵢ (1/θ − 1)^i Σⱼ Hᵢⱼ (δ − 1)^j], θ = (t + 273.15)/647.096, δ = ρ/322",
	Source:   source.IAPWSViscosity2008,
	Outside:  func(in ViscosityInput) string { return outsideLiquid(AtTemperature{in.Temperature}) },
	Eval:     viscosity,
}

// Coefficients of the viscosity of dilute gas and of the part that density adds; rows go with powers of 1/θ − 1, columns
// with powers of δ − 1.
var (
	viscosityGas     = [4]float64{1.67752, 2.20462, 0.6366564, -0.241605}
	viscosityDensity = [6][7]float64{
		{5.20094e-1, 2.22531e-1, -2.81378e-1, 1.61913e-1, -3.25372e-2, 0, 0},
		{8.50895e-2, 9.99115e-1, -9.06851e-1, 2.57399e-1, 0, 0, 0},
		{-1.08374, 1.88797, -7.72479e-1, 0, 0, 0, 0},
		{-2.89555e-1, 1.26613, -4.89837e-1, 0, 6.98452e-2, 0, -4.35673e-3},
		{0, 0, -2.57040e-1, 0, 0, 8.72102e-3, 0},
		{0, 1.20573e-1, 0, 0, 0, 0, -5.93264e-4},
	}
)

func viscosity(in ViscosityInput) unit.DynamicViscosity {
	theta := in.Temperature.Kelvin() / 647.096
	delta := in.Density.KilogramsPerCubicMetre() / 322
	gas := 0.0
	for i := len(viscosityGas) - 1; i >= 0; i-- {
		gas = gas/theta + viscosityGas[i]
	}
	dense := 0.0
	for i := len(viscosityDensity) - 1; i >= 0; i-- {
		row := 0.0
		for j := len(viscosityDensity[i]) - 1; j >= 0; j-- {
			row = row*(delta-1) + viscosityDensity[i][j]
		}
		dense = dense*(1/theta-1) + row
	}
	return unit.DynamicViscosity(100 * math.Sqrt(theta) / gas * math.Exp(delta*dense) * 1e-6)
}

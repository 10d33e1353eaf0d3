package climate

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// ReferenceInput is a day over short grass.
type ReferenceInput struct {
	Temperature   unit.Temperature       `sym:"T"`
	Net           unit.HeatFlux          `sym:"R_n"` // with CropAlbedo
	Ground        unit.HeatFlux          `sym:"G"`
	Wind          unit.Velocity          `sym:"u2"`
	Saturation    unit.Pressure          `sym:"e_s"`
	Vapour        unit.Pressure          `sym:"e_a"`
	Slope         unit.PressurePerKelvin `sym:"Δ"`
	Psychrometric unit.PressurePerKelvin `sym:"γ"`
}

// Reference gives the evapotranspiration of the reference crop, watered short grass.
//
//	ET₀ = (0.408 Δ (R_n − G) + γ 900/(T + 273) u₂ (e_s − e_a))/(Δ + γ (1 + 0.34 u₂)) mm a day
//	R_n and G in MJ/m² a day, pressures in kPa
//
// Source: FAO-56 equation 6.
var Reference = working.Formula[ReferenceInput, unit.Velocity]{
	ID: "climate.reference", Name: "evapotranspiration of the reference crop", Symbol: "ET0",
	Equation: "ET0 = (0.408 Δ (R_n − G) + γ 900/(T + 273) u2 (e_s − e_a))/(Δ + γ (1 + 0.34 u2)) mm/day", Source: source.FAO56.At("equation 6"),
	Eval: func(in ReferenceInput) unit.Velocity {
		D, g, u := in.Slope.KilopascalsPerKelvin(), in.Psychrometric.KilopascalsPerKelvin(), in.Wind.MetresPerSecond()
		sun := 0.408 * D * (in.Net - in.Ground).MegajoulesPerSquareMetreDay()
		wind := g * 900 / (in.Temperature.Celsius() + 273) * u * (in.Saturation - in.Vapour).Kilopascals()
		return unit.MillimetresPerDay((sun + wind) / (D + g*(1+0.34*u)))
	},
}

// ShallowInput is the evapotranspiration of the reference crop.
type ShallowInput struct {
	Reference unit.Velocity `sym:"ET0"`
}

// Shallow gives the evaporation of shallow open water from that of the reference crop. It lies about a quarter below Penman:
// the two published roads do not agree, and both are shown.
//
//	E = 1.05 ET₀
//
// Source: FAO-56, table 12 (from memory).
var Shallow = working.Formula[ShallowInput, unit.Velocity]{
	ID: "climate.shallow", Name: "evaporation of shallow water by the reference crop", Symbol: "E",
	Equation: "E = 1.05 ET0", Source: source.ShallowWater,
	Eval: func(in ShallowInput) unit.Velocity { return 1.05 * in.Reference },
}

// DryingInput is air that passes over water.
type DryingInput struct {
	Wind       unit.Velocity       `sym:"u2"`
	Saturation unit.Pressure       `sym:"e_s"`
	Vapour     unit.Pressure       `sym:"e_a"`
	Latent     unit.SpecificEnergy `sym:"λ"`
}

// Drying gives what the air alone takes up from water as warm as itself.
//
//	E_a = 6.43 (1 + 0.536 u₂)(e_s − e_a)/λ mm a day    pressures in kPa, λ in MJ/kg
//
// Source: Penman 1948 in the form of Shuttleworth 1993.
var Drying = working.Formula[DryingInput, unit.Velocity]{
	ID: "climate.drying", Name: "drying power of the air", Symbol: "E_a",
	Equation: "E_a = 6.43 (1 + 0.536 u2)(e_s − e_a)/λ mm/day", Source: source.OpenWater,
	Eval: func(in DryingInput) unit.Velocity {
		return unit.MillimetresPerDay(WindFunction(in.Wind.MetresPerSecond()) * (in.Saturation - in.Vapour).Kilopascals() / in.Latent.MegajoulesPerKilogram())
	},
}

// WindFunction is that of Drying, in MJ/(m² day kPa): what the air takes up of heat in vapour for each kilopascal.
func WindFunction(u2 float64) float64 { return 6.43 * (1 + 0.536*u2) }

// Drying1956 gives the same by Penman's later wind function, which is gentler. It serves to check.
//
//	E_a = (1.313 + 1.381 u₂)(e_s − e_a) mm a day    pressures in kPa
//
// λ is not read. Source: Penman 1956 as in McMahon et al. 2013.
var Drying1956 = working.Formula[DryingInput, unit.Velocity]{
	ID: "climate.drying-1956", Name: "drying power of the air, later form", Symbol: "E_a",
	Equation: "E_a = (1.313 + 1.381 u2)(e_s − e_a) mm/day", Source: source.OpenWater1956,
	Eval: func(in DryingInput) unit.Velocity {
		return unit.MillimetresPerDay((1.313 + 1.381*in.Wind.MetresPerSecond()) * (in.Saturation - in.Vapour).Kilopascals())
	},
}

// PenmanInput is open water under a day's sky.
type PenmanInput struct {
	Net           unit.HeatFlux          `sym:"R_n"` // with WaterAlbedo
	Drying        unit.Velocity          `sym:"E_a"`
	Slope         unit.PressurePerKelvin `sym:"Δ"`
	Psychrometric unit.PressurePerKelvin `sym:"γ"`
	Latent        unit.SpecificEnergy    `sym:"λ"`
}

// Penman gives the evaporation of open water that keeps no heat from day to day. A deep pond lags behind it by weeks: less in
// spring, more in autumn.
//
//	E = (Δ R_n/λ + γ E_a)/(Δ + γ)    R_n/λ as depth of water of 1000 kg/m³
//
// Source: Penman 1948 in the form of Shuttleworth 1993.
var Penman = working.Formula[PenmanInput, unit.Velocity]{
	ID: "climate.penman", Name: "evaporation of open water", Symbol: "E",
	Equation: "E = (Δ R_n/(ρ λ) + γ E_a)/(Δ + γ), ρ = 1000 kg/m³", Source: source.OpenWater,
	Eval: func(in PenmanInput) unit.Velocity {
		D, g := float64(in.Slope), float64(in.Psychrometric)
		return unit.Velocity((D*float64(in.Net)/(1000*float64(in.Latent)) + g*float64(in.Drying)) / (D + g))
	},
}

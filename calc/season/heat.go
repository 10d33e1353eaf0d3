package season

import (
	"math"

	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Constants of water and ice: heat to warm a cubic metre of water by a kelvin (4.20 MJ at 4 °C, 4.17 at 25), and of ice as in
// package winter.
const (
	waterHeat    = 4.19e6 // J/(m³ K)
	waterDensity = 1000.0
	iceDensity   = 917.0
	iceMelting   = 334e3 // J/kg
	iceConducts  = 2.22  // W/(m K)
	boltzmann    = 5.670374e-8
	emissivity   = 0.97
)

// HeatInput is open water under the sky of one moment.
type HeatInput struct {
	Water         unit.Temperature       `sym:"T"`
	Air           unit.Temperature       `sym:"T_a"`
	MeanAir       unit.Temperature       `sym:"T_d"` // of the day, which Long is for
	Kept          unit.HeatFlux          `sym:"S"`   // sunlight past mirror and shade, at this moment
	Long          unit.HeatFlux          `sym:"R_nl"`
	Vapour        unit.Pressure          `sym:"e_a"`
	Wind          unit.Velocity          `sym:"u2"`
	Psychrometric unit.PressurePerKelvin `sym:"γ"`
}

// WaterHeat gives the heat that open water takes up through its surface; less than nothing where it cools.
//
//	q = S − R_nl − ε σ (T⁴ − T_d⁴) − h (e°(T) − e_a) − h γ (T − T_a),  h = 6.43 (1 + 0.536 u₂) MJ/(m² day kPa)
//	ε = 0.97, σ = 5.670×10⁻⁸ W/(m² K⁴), T⁴ in K
//
// With water that keeps no heat, the curve of e° straightened at T_a and the third term left out it is Penman's equation.
// Source: derived; see source.PondHeat.
var WaterHeat = working.Formula[HeatInput, unit.HeatFlux]{
	ID: "season.water-heat", Name: "heat taken up by open water", Symbol: "q",
	Equation: "q = S − R_nl − ε σ (T⁴ − T_d⁴) − h (e°(T) − e_a) − h γ (T − T_a), h = 6.43 (1 + 0.536 u2) MJ/(m² day kPa), ε = 0.97, T⁴ in K",
	Source:   source.PondHeat,
	Eval: func(in HeatInput) unit.HeatFlux {
		a := air{
			long: in.Long.WattsPerSquareMetre(), fourth: fourth(in.MeanAir.Celsius()), vapour: in.Vapour.Kilopascals(),
			drying: drying(in.Wind), psychrometric: in.Psychrometric.KilopascalsPerKelvin(),
		}
		q, _ := a.heat(in.Water.Celsius(), in.Air.Celsius(), in.Kept.WattsPerSquareMetre())
		return unit.HeatWattsPerSquareMetre(q)
	},
}

// drying is Penman's wind function in W/(m² kPa).
func drying(u2 unit.Velocity) float64 {
	return unit.MegajoulesPerSquareMetreDay(climate.WindFunction(u2.MetresPerSecond())).WattsPerSquareMetre()
}

func fourth(celsius float64) float64 {
	k := celsius + 273.15
	return k * k * k * k
}

// air is the day's air in plain numbers, for the hot loop.
type air struct {
	rise, set     float64 // of the sun, s
	noon          float64 // sunlight kept when the sun is highest, W/m²
	mean, swing   float64 // °C
	long          float64 // W/m²
	fourth        float64 // of the mean temperature, K⁴
	vapour        float64 // kPa
	drying        float64 // W/(m² kPa)
	psychrometric float64 // kPa/K
	latent        float64 // J/kg
	exchange      float64 // W/(m² K): how the loss of water at 0 °C rises with its temperature
}

const secondsOfDay = 86400.0

// over is the air of a day. The half sine wave of the sun carries what the day does.
func over(sky climate.Sky) air {
	N := sky.Daylight.Seconds()
	a := air{
		rise: (secondsOfDay - N) / 2, set: (secondsOfDay + N) / 2,
		mean: sky.Mean.Celsius(), swing: float64(sky.Day.Most-sky.Day.Least) / 2,
		long: sky.Long.WattsPerSquareMetre(), fourth: fourth(sky.Mean.Celsius()), vapour: sky.Day.Vapour.Kilopascals(),
		drying: drying(sky.Wind), psychrometric: sky.Psychrometric.KilopascalsPerKelvin(), latent: float64(sky.Latent),
	}
	if N > 0 {
		a.noon = sky.Kept.WattsPerSquareMetre() * secondsOfDay * math.Pi / (2 * N)
	}
	const slopeAtZero = 4098 * 0.6108 / (237.3 * 237.3) // kPa/K, FAO-56 equation 13
	a.exchange = 4*emissivity*boltzmann*273.15*273.15*273.15 + a.drying*(slopeAtZero+a.psychrometric)
	return a
}

// sun is the sunlight kept at a time of the day.
func (a *air) sun(t float64) float64 {
	if t <= a.rise || t >= a.set {
		return 0
	}
	return a.noon * math.Sin(math.Pi*(t-a.rise)/(a.set-a.rise))
}

// warmth is the air's temperature at a time of the day.
func (a *air) warmth(t float64) float64 {
	const warmest = 15 * 3600
	return a.mean + a.swing*math.Cos(2*math.Pi*(t-warmest)/secondsOfDay)
}

// heat is what water takes up, and of that what goes off as vapour, both in W/m².
func (a *air) heat(water, now, sun float64) (net, vapour float64) {
	vapour = a.drying * (climate.SaturationKilopascals(water) - a.vapour)
	sky := a.long + emissivity*boltzmann*(fourth(water)-a.fourth)
	return sun - sky - vapour - a.drying*a.psychrometric*(water-now), vapour
}

// IceHeatInput is a sheet of ice on water at 0 °C.
type IceHeatInput struct {
	Bare      unit.HeatFlux `sym:"q0"` // that open water at 0 °C would take up; negative
	Exchange  float64       `sym:"G"`  // W/(m² K): how the loss rises with the temperature of the surface
	Thickness unit.Length   `sym:"h"`
}

// ThroughIce gives the heat taken up by water under a sheet of ice, whose top is colder than the water and so loses less.
//
//	q = q₀/(1 + G h/k) where q₀ < 0,  k = 2.22 W/(m K)
//
// Where q₀ is not negative, the ice melts from above with all of it. Without snow. Thick ice and a strong exchange make it
// Stefan's law.
// Source: after Ashton 1989 (from memory).
var ThroughIce = working.Formula[IceHeatInput, unit.HeatFlux]{
	ID: "season.through-ice", Name: "heat taken up under ice", Symbol: "q",
	Equation: "q = q0/(1 + G h/k) where q0 < 0, else q0, k = 2.22 W/(m K)", Source: source.IceSheet,
	Eval: func(in IceHeatInput) unit.HeatFlux {
		return unit.HeatWattsPerSquareMetre(throughIce(in.Bare.WattsPerSquareMetre(), in.Exchange, in.Thickness.Metres()))
	},
}

func throughIce(bare, exchange, thickness float64) float64 {
	if bare >= 0 {
		return bare
	}
	return bare / (1 + exchange*thickness/iceConducts)
}

// ColdInput is a pond that has lost more heat than water at 0 °C can.
type ColdInput struct {
	Missing float64     `sym:"θ"` // °C below 0 that the water would have without ice
	Pond    unit.Volume `sym:"V"`
	Surface unit.Area   `sym:"A"`
}

// IceFromCold gives the ice that stands for heat missing below 0 °C.
//
//	h = c θ V/(ρ L A),  c = 4.19 MJ/(m³ K), ρ = 917 kg/m³, L = 334 kJ/kg
//
// Source: balance of heat.
var IceFromCold = working.Formula[ColdInput, unit.Length]{
	ID: "season.ice-from-cold", Name: "ice on the pond", Symbol: "h",
	Equation: "h = c θ V/(ρ L A), c = 4.19 MJ/(m³ K), ρ = 917 kg/m³, L = 334 kJ/kg", Source: source.HeatBalance,
	Eval: func(in ColdInput) unit.Length {
		return unit.Metres(in.Missing * waterHeat * in.Pond.CubicMetres() / (iceDensity * iceMelting * in.Surface.SquareMetres()))
	},
}

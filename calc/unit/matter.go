package unit

// Mass is in kilograms.
type Mass float64

// Kilograms makes a Mass.
func Kilograms(kg float64) Mass { return Mass(kg) }

// Grams makes a Mass.
func Grams(g float64) Mass { return Mass(g / 1000) }

// Kilograms reads the mass in kilograms.
func (m Mass) Kilograms() float64 { return float64(m) }

// Grams reads the mass in grams.
func (m Mass) Grams() float64 { return float64(m) * 1000 }

// Unit is kg.
func (Mass) Unit() string { return "kg" }

// MassRate is a mass in time, in kilograms a second.
type MassRate float64

// GramsPerDay makes a MassRate.
func GramsPerDay(g float64) MassRate { return MassRate(g / 1000 / day) }

// GramsPerDay reads the rate in grams a day.
func (m MassRate) GramsPerDay() float64 { return float64(m) * 1000 * day }

// Unit is kg/s.
func (MassRate) Unit() string { return "kg/s" }

// Concentration is a mass in a volume of water, in kilograms a cubic metre, which is grams a litre.
type Concentration float64

// MilligramsPerLitre makes a Concentration.
func MilligramsPerLitre(c float64) Concentration { return Concentration(c / 1000) }

// KilogramsPerCubicMetre makes a Concentration.
func KilogramsPerCubicMetre(c float64) Concentration { return Concentration(c) }

// MilligramsPerLitre reads the concentration in milligrams a litre.
func (c Concentration) MilligramsPerLitre() float64 { return float64(c) * 1000 }

// KilogramsPerCubicMetre reads the concentration in kilograms a cubic metre.
func (c Concentration) KilogramsPerCubicMetre() float64 { return float64(c) }

// Unit is kg/m³.
func (Concentration) Unit() string { return "kg/m³" }

// ArealRate is what a surface takes up in time, in kilograms a square metre and second.
type ArealRate float64

// GramsPerSquareMetreDay makes an ArealRate.
func GramsPerSquareMetreDay(r float64) ArealRate { return ArealRate(r / 1000 / day) }

// GramsPerSquareMetreDay reads the rate in grams a square metre and day.
func (r ArealRate) GramsPerSquareMetreDay() float64 { return float64(r) * 1000 * day }

// Unit is kg/(m² s).
func (ArealRate) Unit() string { return "kg/(m² s)" }

// Density is mass of a substance in its own volume, in kilograms a cubic metre.
type Density float64

// KilogramsPerCubicMetre reads the density in kilograms a cubic metre.
func (d Density) KilogramsPerCubicMetre() float64 { return float64(d) }

// Unit is kg/m³.
func (Density) Unit() string { return "kg/m³" }

// KinematicViscosity is in square metres a second.
type KinematicViscosity float64

// SquareMetresPerSecond reads the kinematic viscosity in square metres a second.
func (v KinematicViscosity) SquareMetresPerSecond() float64 { return float64(v) }

// Unit is m²/s.
func (KinematicViscosity) Unit() string { return "m²/s" }

// DynamicViscosity is in pascal seconds.
type DynamicViscosity float64

// PascalSeconds reads the dynamic viscosity in pascal seconds.
func (v DynamicViscosity) PascalSeconds() float64 { return float64(v) }

// Unit is Pa s.
func (DynamicViscosity) Unit() string { return "Pa s" }

// Pressure is absolute, in pascals.
type Pressure float64

// Kilopascals makes a Pressure.
func Kilopascals(p float64) Pressure { return Pressure(p * 1000) }

// Pascals reads the pressure in pascals.
func (p Pressure) Pascals() float64 { return float64(p) }

// Kilopascals reads the pressure in kilopascals.
func (p Pressure) Kilopascals() float64 { return float64(p) / 1000 }

// Unit is Pa.
func (Pressure) Unit() string { return "Pa" }

// Temperature is in degrees Celsius, the one quantity of this package that is not kept in its SI base unit: every
// source in the field writes its formulas in degrees Celsius.
type Temperature float64

// Celsius makes a Temperature.
func Celsius(t float64) Temperature { return Temperature(t) }

// Celsius reads the temperature in degrees Celsius.
func (t Temperature) Celsius() float64 { return float64(t) }

// Kelvin reads the thermodynamic temperature in kelvins.
func (t Temperature) Kelvin() float64 { return float64(t) + kelvin }

// Unit is °C.
func (Temperature) Unit() string { return "°C" }

// VolumetricRate is what a volume of filter media takes up in time, in kilograms a cubic metre and second.
type VolumetricRate float64

// GramsPerCubicMetreDay makes a VolumetricRate.
func GramsPerCubicMetreDay(r float64) VolumetricRate { return VolumetricRate(r / 1000 / day) }

// GramsPerCubicMetreDay reads the rate in grams a cubic metre and day.
func (r VolumetricRate) GramsPerCubicMetreDay() float64 { return float64(r) * 1000 * day }

// Unit is kg/(m³ s).
func (VolumetricRate) Unit() string { return "kg/(m³ s)" }

// ArealDensity is mass of a sheet by its area, in kilograms a square metre.
type ArealDensity float64

// KilogramsPerSquareMetre makes an ArealDensity.
func KilogramsPerSquareMetre(d float64) ArealDensity { return ArealDensity(d) }

// GramsPerSquareMetre makes an ArealDensity.
func GramsPerSquareMetre(d float64) ArealDensity { return ArealDensity(d / 1000) }

// KilogramsPerSquareMetre reads the areal density in kilograms a square metre.
func (d ArealDensity) KilogramsPerSquareMetre() float64 { return float64(d) }

// Unit is kg/m².
func (ArealDensity) Unit() string { return "kg/m²" }

// PressurePerKelvin is how a pressure goes with temperature, in pascals a kelvin: the slope of the vapour pressure curve, the
// psychrometric constant.
type PressurePerKelvin float64

// KilopascalsPerKelvin makes a PressurePerKelvin.
func KilopascalsPerKelvin(s float64) PressurePerKelvin { return PressurePerKelvin(s * 1000) }

// KilopascalsPerKelvin reads the slope in kilopascals a kelvin.
func (s PressurePerKelvin) KilopascalsPerKelvin() float64 { return float64(s) / 1000 }

// Unit is Pa/K.
func (PressurePerKelvin) Unit() string { return "Pa/K" }

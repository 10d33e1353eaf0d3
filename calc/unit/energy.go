package unit

// Power is in watts, electrical, hydraulic or radiant as the name of the field says.
type Power float64

// Watts makes a Power.
func Watts(p float64) Power { return Power(p) }

// Watts reads the power in watts.
func (p Power) Watts() float64 { return float64(p) }

// Over gives the energy this power makes or takes in a time.
func (p Power) Over(t Time) Energy { return Energy(float64(p) * float64(t)) }

// Unit is W.
func (Power) Unit() string { return "W" }

// Energy is in joules.
type Energy float64

// KilowattHours reads the energy in kilowatt-hours.
func (e Energy) KilowattHours() float64 { return float64(e) / (1000 * hour) }

// Unit is J.
func (Energy) Unit() string { return "J" }

// Time is a duration in seconds. It is not time.Duration: calc has no clock, and a year of nanoseconds is no help in a
// formula.
type Time float64

// Seconds makes a Time.
func Seconds(t float64) Time { return Time(t) }

// Hours makes a Time.
func Hours(t float64) Time { return Time(t * hour) }

// Days makes a Time.
func Days(t float64) Time { return Time(t * day) }

// Seconds reads the time in seconds.
func (t Time) Seconds() float64 { return float64(t) }

// Hours reads the time in hours.
func (t Time) Hours() float64 { return float64(t) / hour }

// Days reads the time in days of 24 hours.
func (t Time) Days() float64 { return float64(t) / day }

// Unit is s.
func (Time) Unit() string { return "s" }

// FluenceRate is radiant power that reaches a small sphere from all sides, by its cross-section, in watts a square metre.
type FluenceRate float64

// MilliwattsPerSquareCentimetre reads the fluence rate in mW/cm².
func (e FluenceRate) MilliwattsPerSquareCentimetre() float64 { return float64(e) / 10 }

// WattsPerSquareMetre reads the fluence rate in W/m².
func (e FluenceRate) WattsPerSquareMetre() float64 { return float64(e) }

// Unit is W/m².
func (FluenceRate) Unit() string { return "W/m²" }

// Fluence, called UV dose in the trade, is fluence rate times time, in joules a square metre.
type Fluence float64

// MillijoulesPerSquareCentimetre makes a Fluence.
func MillijoulesPerSquareCentimetre(d float64) Fluence { return Fluence(d * 10) }

// MillijoulesPerSquareCentimetre reads the dose in mJ/cm².
func (d Fluence) MillijoulesPerSquareCentimetre() float64 { return float64(d) / 10 }

// JoulesPerSquareMetre reads the dose in J/m².
func (d Fluence) JoulesPerSquareMetre() float64 { return float64(d) }

// Unit is J/m².
func (Fluence) Unit() string { return "J/m²" }

// AbsorptionCoefficient is Napierian (base e), in 1/m: light falls to exp(-a x) after x metres of water.
type AbsorptionCoefficient float64

// PerMetre reads the base-e coefficient in 1/m.
func (a AbsorptionCoefficient) PerMetre() float64 { return float64(a) }

// Unit is 1/m.
func (AbsorptionCoefficient) Unit() string { return "1/m" }

// Ratio is a pure number: an efficiency, a share, a factor.
type Ratio float64

// Percent makes a Ratio.
func Percent(p float64) Ratio { return Ratio(p / 100) }

// Percent reads the ratio in percent.
func (r Ratio) Percent() float64 { return float64(r) * 100 }

// Float reads the ratio as a number.
func (r Ratio) Float() float64 { return float64(r) }

// Unit is 1.
func (Ratio) Unit() string { return "1" }

// PerTime is a rate of change or of turnover in 1/s.
type PerTime float64

// PerHour makes a PerTime.
func PerHour(r float64) PerTime { return PerTime(r / hour) }

// PerDay makes a PerTime.
func PerDay(r float64) PerTime { return PerTime(r / day) }

// PerHour reads the rate in 1/h.
func (r PerTime) PerHour() float64 { return float64(r) * hour }

// PerDay reads the rate in 1/day.
func (r PerTime) PerDay() float64 { return float64(r) * day }

// Unit is 1/s.
func (PerTime) Unit() string { return "1/s" }

// PowerPerVolume is electrical or radiant power spread over a volume of water, in watts a cubic metre, which is watts a
// thousand litres.
type PowerPerVolume float64

// WattsPerCubicMetre makes a PowerPerVolume.
func WattsPerCubicMetre(p float64) PowerPerVolume { return PowerPerVolume(p) }

// WattsPerCubicMetre reads the power in watts a cubic metre.
func (p PowerPerVolume) WattsPerCubicMetre() float64 { return float64(p) }

// In gives the power that a volume of water has at this rate.
func (p PowerPerVolume) In(v Volume) Power { return Power(float64(p) * float64(v)) }

// Unit is W/m³.
func (PowerPerVolume) Unit() string { return "W/m³" }

// HeatFlux is heat that crosses a surface, in watts a square metre.
type HeatFlux float64

// HeatWattsPerSquareMetre makes a HeatFlux.
func HeatWattsPerSquareMetre(q float64) HeatFlux { return HeatFlux(q) }

// WattsPerSquareMetre reads the heat flux in W/m².
func (q HeatFlux) WattsPerSquareMetre() float64 { return float64(q) }

// Unit is W/m².
func (HeatFlux) Unit() string { return "W/m²" }

// MegajoulesPerSquareMetreDay makes a HeatFlux, in the unit of tables of sunlight.
func MegajoulesPerSquareMetreDay(q float64) HeatFlux { return HeatFlux(q * mega / day) }

// MegajoulesPerSquareMetreDay reads the heat flux in MJ/m² a day.
func (q HeatFlux) MegajoulesPerSquareMetreDay() float64 { return float64(q) / mega * day }

// SpecificEnergy is the heat a kilogram of something takes or gives, in joules a kilogram.
type SpecificEnergy float64

// MegajoulesPerKilogram makes a SpecificEnergy.
func MegajoulesPerKilogram(e float64) SpecificEnergy { return SpecificEnergy(e * mega) }

// MegajoulesPerKilogram reads the energy in MJ/kg.
func (e SpecificEnergy) MegajoulesPerKilogram() float64 { return float64(e) / mega }

// Unit is J/kg.
func (SpecificEnergy) Unit() string { return "J/kg" }

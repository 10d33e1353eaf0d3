package unit

// Flow is a volume rate in cubic metres a second.
type Flow float64

// CubicMetresPerSecond makes a Flow.
func CubicMetresPerSecond(q float64) Flow { return Flow(q) }

// CubicMetresPerHour makes a Flow.
func CubicMetresPerHour(q float64) Flow { return Flow(q / hour) }

// LitresPerHour makes a Flow.
func LitresPerHour(q float64) Flow { return Flow(q * litre / hour) }

// LitresPerMinute makes a Flow.
func LitresPerMinute(q float64) Flow { return Flow(q * litre / minute) }

// LitresPerSecond makes a Flow.
func LitresPerSecond(q float64) Flow { return Flow(q * litre) }

// UKGallonsPerHour makes a Flow from imperial gallons an hour.
func UKGallonsPerHour(q float64) Flow { return Flow(q * ukGal / hour) }

// USGallonsPerHour makes a Flow from US gallons an hour.
func USGallonsPerHour(q float64) Flow { return Flow(q * usGal / hour) }

// USGallonsPerMinute makes a Flow from US gallons a minute.
func USGallonsPerMinute(q float64) Flow { return Flow(q * usGal / minute) }

// CubicMetresPerSecond reads the flow in cubic metres a second.
func (q Flow) CubicMetresPerSecond() float64 { return float64(q) }

// CubicMetresPerHour reads the flow in cubic metres an hour.
func (q Flow) CubicMetresPerHour() float64 { return float64(q) * hour }

// LitresPerHour reads the flow in litres an hour.
func (q Flow) LitresPerHour() float64 { return float64(q) / litre * hour }

// LitresPerMinute reads the flow in litres a minute.
func (q Flow) LitresPerMinute() float64 { return float64(q) / litre * minute }

// LitresPerSecond reads the flow in litres a second.
func (q Flow) LitresPerSecond() float64 { return float64(q) / litre }

// LitresPerDay reads the flow in litres a day.
func (q Flow) LitresPerDay() float64 { return float64(q) / litre * day }

// UKGallonsPerHour reads the flow in imperial gallons an hour.
func (q Flow) UKGallonsPerHour() float64 { return float64(q) / ukGal * hour }

// USGallonsPerHour reads the flow in US gallons an hour.
func (q Flow) USGallonsPerHour() float64 { return float64(q) / usGal * hour }

// Unit is m³/s.
func (Flow) Unit() string { return "m³/s" }

// FlowPerWidth is a flow over each metre of a sill, in square metres a second.
type FlowPerWidth float64

// LitresPerHourPerCentimetre makes a FlowPerWidth.
func LitresPerHourPerCentimetre(q float64) FlowPerWidth {
	return FlowPerWidth(q * litre / hour * 100)
}

// LitresPerHourPerCentimetre reads the flow over each centimetre of sill in litres an hour.
func (q FlowPerWidth) LitresPerHourPerCentimetre() float64 {
	return float64(q) / litre * hour / 100
}

// Unit is m²/s.
func (FlowPerWidth) Unit() string { return "m²/s" }

// Head is energy a unit weight of the water pumped, in metres of that water. It is not a Length: a head is never a
// depth or a distance.
type Head float64

// MetresOfWater makes a Head.
func MetresOfWater(h float64) Head { return Head(h) }

// Metres reads the head in metres of the water pumped.
func (h Head) Metres() float64 { return float64(h) }

// Unit is m.
func (Head) Unit() string { return "m" }

// Velocity is a speed in metres a second.
type Velocity float64

// MetresPerSecond makes a Velocity.
func MetresPerSecond(v float64) Velocity { return Velocity(v) }

// MetresPerSecond reads the velocity in metres a second.
func (v Velocity) MetresPerSecond() float64 { return float64(v) }

// Unit is m/s.
func (Velocity) Unit() string { return "m/s" }

// SquareMetresPerSecond makes a FlowPerWidth.
func SquareMetresPerSecond(q float64) FlowPerWidth { return FlowPerWidth(q) }

// SquareMetresPerSecond reads the flow over each metre of sill in cubic metres a second.
func (q FlowPerWidth) SquareMetresPerSecond() float64 { return float64(q) }

// LitresPerMinutePerCentimetre makes a FlowPerWidth.
func LitresPerMinutePerCentimetre(q float64) FlowPerWidth {
	return FlowPerWidth(q * litre / minute * 100)
}

// LitresPerMinutePerCentimetre reads the flow over each centimetre of sill in litres a minute.
func (q FlowPerWidth) LitresPerMinutePerCentimetre() float64 {
	return float64(q) / litre * minute / 100
}

// ManningCoefficient is the roughness n of an open channel in seconds by the cube root of metres, the unit in which every
// table gives it.
type ManningCoefficient float64

// SecondsPerCubeRootMetre reads the coefficient in s/m^⅓.
func (n ManningCoefficient) SecondsPerCubeRootMetre() float64 { return float64(n) }

// Unit is s/m^⅓.
func (ManningCoefficient) Unit() string { return "s/m^⅓" }

// MillimetresPerDay makes a Velocity, as evaporation and rain are told: litres on each square metre in a day.
func MillimetresPerDay(v float64) Velocity { return Velocity(v * 1e-3 / day) }

// MillimetresPerDay reads the velocity in millimetres a day.
func (v Velocity) MillimetresPerDay() float64 { return float64(v) * 1e3 * day }

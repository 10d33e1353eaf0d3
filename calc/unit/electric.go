package unit

// Voltage is in volts.
type Voltage float64

// Volts makes a Voltage.
func Volts(u float64) Voltage { return Voltage(u) }

// Volts reads the voltage.
func (u Voltage) Volts() float64 { return float64(u) }

// Unit is V.
func (Voltage) Unit() string { return "V" }

// Current is in amperes.
type Current float64

// Amperes makes a Current.
func Amperes(i float64) Current { return Current(i) }

// Amperes reads the current.
func (i Current) Amperes() float64 { return float64(i) }

// Unit is A.
func (Current) Unit() string { return "A" }

// LineResistance is the resistance of a metre of conductor, in ohms per metre.
type LineResistance float64

// OhmsPerKilometre makes a LineResistance.
func OhmsPerKilometre(r float64) LineResistance { return LineResistance(r / 1000) }

// OhmsPerKilometre reads the resistance of a kilometre.
func (r LineResistance) OhmsPerKilometre() float64 { return float64(r) * 1000 }

// Unit is Ω/m.
func (LineResistance) Unit() string { return "Ω/m" }

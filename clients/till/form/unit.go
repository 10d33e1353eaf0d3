// Package form is what is asked at the counter: its fields, in the units the customer thinks in, and the brief they make. What
// was typed stays as it was typed, right or wrong, until somebody changes it.
package form

// A Quantity is what a number measures.
type Quantity int

// The quantities of the form and of what the engine answers.
const (
	Plain  Quantity = iota // a count or a price
	Volume                 // L in the contract
	Length                 // m
	Short                  // cm
	Flow                   // L/h
	Bore                   // mm
	Speed                  // m/s
)

// A Unit is one that people use, and how much of the contract's it is.
type Unit struct {
	Symbol, Words string
	Factor        float64
}

// A System is the units that one customer thinks in.
type System struct {
	Key, Name string
	units     map[Quantity]Unit
}

// Foot and inch are exact by the international agreement of 1959, the imperial gallon by the United Kingdom's regulations on
// units, the US gallon as 231 cubic inches.
const (
	foot     = 0.3048
	inchCM   = 2.54
	inchMM   = 25.4
	ukGallon = 4.54609
	usGallon = 3.785411784
)

// Systems are those to choose from. No gallon is without its country.
func Systems() []System {
	return []System{
		{"metric", "litres, metres", map[Quantity]Unit{
			Plain: {"", "", 1}, Volume: {"L", "litres", 1}, Length: {"m", "metres", 1}, Short: {"cm", "centimetres", 1},
			Flow: {"L/h", "litres an hour", 1}, Bore: {"mm", "millimetres", 1}, Speed: {"m/s", "metres a second", 1},
		}},
		{"uk", "UK gallons, feet", feet(Unit{"UK gal", "UK gallons", ukGallon}, Unit{"UK gal/h", "UK gallons an hour", ukGallon})},
		{"us", "US gallons, feet", feet(Unit{"US gal", "US gallons", usGallon}, Unit{"US gal/h", "US gallons an hour", usGallon})},
	}
}

func feet(volume, flow Unit) map[Quantity]Unit {
	return map[Quantity]Unit{
		Plain: {"", "", 1}, Volume: volume, Length: {"ft", "feet", foot}, Short: {"in", "inches", inchCM},
		Flow: flow, Bore: {"in", "inches", inchMM}, Speed: {"ft/s", "feet a second", foot},
	}
}

// SystemOf is the one with the key, and the first for any other.
func SystemOf(key string) System {
	all := Systems()
	for _, s := range all {
		if s.Key == key {
			return s
		}
	}
	return all[0]
}

// Unit of a quantity.
func (s System) Unit(q Quantity) Unit { return s.units[q] }

// From turns a number of the contract into the system's unit.
func (s System) From(q Quantity, x float64) float64 { return x / s.units[q].Factor }

// To turns a number in the system's unit into the contract's.
func (s System) To(q Quantity, x float64) float64 { return x * s.units[q].Factor }

// Package unit holds the quantities that cross a package border in calc, each a float64 in its SI unit, and every
// conversion the project makes.
//
// A quantity is made by naming the unit it was given in and read by naming the unit wanted:
//
//	q := unit.LitresPerHour(9000) // a Flow
//	q.LitresPerMinute()           // 150
//
// Inside a formula the quantity is turned to float64 once, worked with in SI under the textbook's symbol, and turned
// back once. What the types cannot catch: Length*Length compiles and is still a Length, and two lengths can be swapped;
// hence formulas take a struct with named fields.
package unit

// A Quantity names its SI unit, so that a recorded calculation can print itself. Every type of this package is one.
type Quantity interface {
	Unit() string
}

const (
	minute = 60.0    // s
	hour   = 3600.0  // s
	day    = 86400.0 // s
	mega   = 1e6
	litre  = 1e-3           // m³
	foot   = 0.3048         // m, exact: international yard and pound agreement of 1959
	inch   = 0.0254         // m, exact: the same
	ukGal  = 4.54609e-3     // m³, exact: UK Weights and Measures Act 1985, schedule 1 (from memory)
	usGal  = 3.785411784e-3 // m³, exact: 231 cubic inches, NIST Handbook 44, appendix C (from memory)
	kelvin = 273.15         // K at 0 °C
)

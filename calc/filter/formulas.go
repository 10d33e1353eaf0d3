package filter

import "example.com/pondwright/calc/working"

// Formulas lists every formula of this package.
func Formulas() []working.Entry {
	return []working.Entry{
		&UnionisedShare, &TANLimit,
		&TemperatureFactor, &AmmoniaFactor, &ArealCapacity, &VolumetricCapacity,
		&LeastFlow, &Turnover,
	}
}

package water

import "example.com/pondwright/calc/working"

// Formulas lists the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{&Density, &Viscosity, &VapourPressure, &KinematicViscosity, &OxygenSaturation, &AltitudePressure}
}

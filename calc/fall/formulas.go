package fall

import "example.com/pondwright/calc/working"

// Formulas lists the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{
		&SillFlow, &SillHead, &ThinPlateCoefficient, &ThinPlate, &Rehbock, &BroadSill, &RoundedCoefficient, &BroadCoefficient,
		&BrinkDepth, &Throw, &SheetThickness,
	}
}

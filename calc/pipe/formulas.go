package pipe

import "example.com/pondwright/calc/working"

// Formulas lists the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{
		&Velocity, &Reynolds, &FrictionFactor, &CorrugatedFactor, &FrictionLoss, &ThreeK, &Tail, &MinorLoss,
	}
}

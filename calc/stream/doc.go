// Package stream is about water that runs downhill with a free surface: brooks and rills, part-full pipes, full pipes between
// two levels, and upright overflow pipes.
package stream

import "example.com/pondwright/calc/working"

// Formulas lists the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{&Trapezoid, &RoundSection, &Manning, &RoughPipe, &Froude, &Standpipe}
}

// Package level says what happens to the water levels of a pond of one or more bays: when its fall starts and stops, when a
// hose siphons, leaks or comes off, when water is flushed away, and when it rains.
//
// Water that moves is missing somewhere: a bay's level changes by the litres over the area that shows them.
package level

import "example.com/pondwright/calc/working"

// Formulas lists the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{&Change, &Layer, &HoseContent, &InTransit, &Outflow, &Rain, &Emptying}
}

package stock

import "example.com/pondwright/calc/working"

// Formulas lists every formula of this package.
func Formulas() []working.Entry {
	return []working.Entry{&BodyMass, &Ration, &Feed, &WasteFromFeed, &Growth, &Respiration, &CriticalOxygen}
}

// Package season follows a pond through a year: how warm it is, what evaporates and falls, when it is topped up, fed, cleaned
// and lit, and when the pump moves to its winter place.
//
// The pond is stirred: it has one temperature, which follows from a balance of heat, hour by hour, with control of the error.
// The deep of a pond left still in winter is warmer than that (see package winter), and a still pond in summer is warmer at
// the top. Ice is accounted for simply: what heat is missing below 0 °C is ice, and a sheet of it slows the loss.
package season

import "example.com/pondwright/calc/working"

// Formulas lists every formula of this package.
func Formulas() []working.Entry {
	return []working.Entry{&WaterHeat, &ThroughIce, &IceFromCold, &Splash, &TopUpInterval, &LoadEnergy}
}

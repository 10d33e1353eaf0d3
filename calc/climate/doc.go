// Package climate turns the weather of a day into sunlight, warmth lost to the sky and evaporation, and the months of a year
// into its days.
//
// The chain is that of FAO-56 up to net radiation, and Penman's for open water from there.
package climate

import "example.com/pondwright/calc/working"

// Formulas lists every formula of this package.
func Formulas() []working.Entry {
	return []working.Entry{
		&Pressure, &Psychrometric, &Saturation, &Slope, &MeanSaturation, &VapourFromExtremes, &VapourFromHumidity, &WindAtTwoMetres, &LatentHeat,
		&Distance, &Declination, &SunsetAngle, &Extraterrestrial, &Daylight, &Sunlight, &ClearSky, &NetShort, &NetLong, &Net,
		&Reference, &Shallow, &Drying, &Drying1956, &Penman,
	}
}

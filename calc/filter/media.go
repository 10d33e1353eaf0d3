// Package filter says whether a filter carries the fish: what its media can take up, what the water asks for, and how
// the claim on the label compares.
//
// A filter is described as what it is, a kind of media and how much of it, never as "rated to so many litres". Rates are
// design bands, not measurements, so each capacity has a low, an expected and a high.
package filter

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// Medium is a kind of filter media that a nitrification rate is published for.
type Medium int

// The kinds. Brushes, gravel and loose carriers that do not move are missing: no rate of their own was found.
const (
	Foam          Medium = iota + 1 // open-cell foam cartridges, under water
	Matting                         // plastic matting, under water
	MovingCarrier                   // plastic carriers kept tumbling by air
	Trickling                       // open packing that water trickles over in air, or discs that turn through both
	FloatingBead                    // floating plastic beads, washed back from time to time
	Granular                        // fine sand or small beads, over 500 m²/m³
)

// String is the kind in plain words.
func (m Medium) String() string {
	if m < Foam || m > Granular {
		return "unknown media"
	}
	return rates[m-1].Name
}

// A Rate is how much ammonia one kind of media takes up: on its surface where the source rates surfaces, in its volume
// where the source rates volumes. The other pair is nothing.
type Rate struct {
	Medium                        Medium
	Name                          string
	SurfaceLow, SurfaceHigh       unit.SpecificSurface // usable, after some clogging
	ArealLow, ArealHigh           unit.ArealRate
	VolumetricLow, VolumetricHigh unit.VolumetricRate
	Temperature                   unit.Temperature   // of the water the rate is taken at
	TAN                           unit.Concentration // of the water the rate is taken at; below it the uptake falls in proportion
	Warmest                       unit.Temperature   // above this the source gives no more
	Source                        source.Source
}

// rates is indexed by Medium less one. The bands are stated for 15 to 20 °C and are taken at 20 °C, the careful end. No
// gain is taken beyond 30 °C, where the bands for warm water end, and none for floating beads, whose band is the same
// cool and warm.
var rates = [...]Rate{
	areal(Foam, "foam", 200, 700, 0.1, 0.3),
	areal(Matting, "matting", 200, 700, 0.1, 0.3),
	areal(MovingCarrier, "moving carriers", 500, 900, 0.2, 0.5),
	areal(Trickling, "trickling packing", 100, 300, 0.2, 1.0),
	volumetric(FloatingBead, "floating beads", 1050, 1150, 140, 350, 20),
	volumetric(Granular, "sand or fine beads", 500, 2000, 600, 700, 30),
}

func areal(m Medium, name string, surfaceLow, surfaceHigh, low, high float64) Rate {
	r := newRate(m, name, surfaceLow, surfaceHigh, 30)
	r.ArealLow, r.ArealHigh = unit.GramsPerSquareMetreDay(low), unit.GramsPerSquareMetreDay(high)
	return r
}

func volumetric(m Medium, name string, surfaceLow, surfaceHigh, low, high float64, warmest unit.Temperature) Rate {
	r := newRate(m, name, surfaceLow, surfaceHigh, warmest)
	r.VolumetricLow, r.VolumetricHigh = unit.GramsPerCubicMetreDay(low), unit.GramsPerCubicMetreDay(high)
	return r
}

func newRate(m Medium, name string, surfaceLow, surfaceHigh float64, warmest unit.Temperature) Rate {
	return Rate{
		Medium: m, Name: name,
		SurfaceLow:  unit.SquareMetresPerCubicMetre(surfaceLow),
		SurfaceHigh: unit.SquareMetresPerCubicMetre(surfaceHigh),
		Temperature: 20, TAN: unit.MilligramsPerLitre(1), Warmest: warmest, Source: source.MediaRates,
	}
}

// Rates lists every kind of media with its rate.
func Rates() []Rate {
	list := rates
	return list[:]
}

// RateOf gives the rate of one kind of media, or nothing where there is none.
func RateOf(m Medium) Rate {
	if m < Foam || m > Granular {
		return Rate{}
	}
	return rates[m-1]
}

// middle is the expected value of a band that spans a factor: its geometric mean.
func middle[Q ~float64](low, high Q) Q { return Q(math.Sqrt(float64(low) * float64(high))) }

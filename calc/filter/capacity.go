package filter

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Filter is what a catalogue can say of one: a kind of media, and its surface, its volume, or both.
type Filter struct {
	Medium      Medium
	Surface     unit.Area
	MediaVolume unit.Volume
}

// ArealCapacityInput is surface and what it takes up.
type ArealCapacityInput struct {
	Rate        unit.ArealRate `sym:"r"`
	Surface     unit.Area      `sym:"A"`
	Temperature unit.Ratio     `sym:"f_T"`
	Ammonia     unit.Ratio     `sym:"f_S"`
}

// ArealCapacity gives the ammonia, as nitrogen, that a surface takes up.
//
//	R = r A f_T f_S
//
// Source: by definition of the rate; the bands of r are design values from memory, see Rates.
var ArealCapacity = working.Formula[ArealCapacityInput, unit.MassRate]{
	ID: "filter.areal-capacity", Name: "ammonia taken up by a media surface", Symbol: "R",
	Equation: "R = r A f_T f_S", Source: source.MediaRates,
	Eval: func(in ArealCapacityInput) unit.MassRate {
		return unit.MassRate(float64(in.Rate) * in.Surface.SquareMetres() * in.Temperature.Float() * in.Ammonia.Float())
	},
}

// VolumetricCapacityInput is a bed of media and what it takes up.
type VolumetricCapacityInput struct {
	Rate        unit.VolumetricRate `sym:"r_V"`
	Volume      unit.Volume         `sym:"V"`
	Temperature unit.Ratio          `sym:"f_T"`
	Ammonia     unit.Ratio          `sym:"f_S"`
}

// VolumetricCapacity gives the ammonia, as nitrogen, that a bed of media takes up.
//
//	R = r_V V f_T f_S
//
// Source: as for ArealCapacity.
var VolumetricCapacity = working.Formula[VolumetricCapacityInput, unit.MassRate]{
	ID: "filter.volumetric-capacity", Name: "ammonia taken up by a bed of media", Symbol: "R",
	Equation: "R = r_V V f_T f_S", Source: source.MediaRates,
	Eval: func(in VolumetricCapacityInput) unit.MassRate {
		return unit.MassRate(float64(in.Rate) * in.Volume.CubicMetres() * in.Temperature.Float() * in.Ammonia.Float())
	},
}

// Capacity gives the ammonia, as nitrogen, that the filter takes up once it is ripe, in water of that temperature and
// total ammonia.
//
// Problems of the input are in err, an input.Errors with fields medium, surface_m2, media_volume_l, water_temperature_c
// and tan_mg_per_l.
func Capacity(t *working.Trail, f Filter, temp unit.Temperature, tan unit.Concentration) (low, expected, high unit.MassRate, findings []finding.Finding, err error) {
	var problems input.Errors
	checkFilter(&problems, f)
	checkTemperature(&problems, temp)
	checkTAN(&problems, tan)
	if err := problems.Err(); err != nil {
		return 0, 0, 0, nil, err
	}
	rate := rates[f.Medium-1]
	f, findings = rate.usable(f)
	findings = append(findings, temperatureFindings(temp)...)
	fT, fS := rate.factors(t, temp, tan)
	if rate.ArealHigh > 0 {
		low, expected, high = rate.overSurface(t, f, fT, fS)
	} else {
		low, expected, high = rate.overVolume(t, f, fT, fS)
	}
	return low, expected, high, findings, nil
}

// factors are what water of that temperature and ammonia makes of the rate.
func (r Rate) factors(t *working.Trail, temp unit.Temperature, tan unit.Concentration) (fT, fS unit.Ratio) {
	fT = TemperatureFactor.Run(t, TemperatureFactorInput{Temperature: min(temp, r.Warmest)})
	return fT, AmmoniaFactor.Run(t, AmmoniaFactorInput{TAN: tan, Stated: r.TAN})
}

// usable is the filter with no more surface than its media can keep open. Makers state the surface of clean media; much
// of it clogs.
func (r Rate) usable(f Filter) (Filter, []finding.Finding) {
	most := unit.SquareMetres(f.MediaVolume.CubicMetres() * float64(r.SurfaceHigh))
	if r.ArealHigh == 0 || f.MediaVolume == 0 || f.Surface <= most {
		return f, nil
	}
	found := surfaceNotUsable(f, most)
	f.Surface = most
	return f, []finding.Finding{found}
}

// overSurface takes the surface, or where only the volume is known the surface such a volume has.
func (r Rate) overSurface(t *working.Trail, f Filter, fT, fS unit.Ratio) (low, expected, high unit.MassRate) {
	at := func(rate unit.ArealRate, s unit.SpecificSurface) unit.MassRate {
		A := f.Surface
		if A == 0 {
			A = unit.SquareMetres(f.MediaVolume.CubicMetres() * float64(s))
		}
		return ArealCapacity.Run(t, ArealCapacityInput{Rate: rate, Surface: A, Temperature: fT, Ammonia: fS})
	}
	return at(r.ArealLow, r.SurfaceLow), at(middle(r.ArealLow, r.ArealHigh), middle(r.SurfaceLow, r.SurfaceHigh)), at(r.ArealHigh, r.SurfaceHigh)
}

// overVolume takes the volume, or where only the surface is known the volume such a surface needs: least of the finest.
func (r Rate) overVolume(t *working.Trail, f Filter, fT, fS unit.Ratio) (low, expected, high unit.MassRate) {
	at := func(rate unit.VolumetricRate, s unit.SpecificSurface) unit.MassRate {
		V := f.MediaVolume
		if V == 0 {
			V = unit.CubicMetres(f.Surface.SquareMetres() / float64(s))
		}
		return VolumetricCapacity.Run(t, VolumetricCapacityInput{Rate: rate, Volume: V, Temperature: fT, Ammonia: fS})
	}
	return at(r.VolumetricLow, r.SurfaceHigh), at(middle(r.VolumetricLow, r.VolumetricHigh), middle(r.SurfaceLow, r.SurfaceHigh)), at(r.VolumetricHigh, r.SurfaceLow)
}

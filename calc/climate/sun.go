package climate

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// DateInput is a day of the year, 1 for 1 January.
type DateInput struct {
	Day int `sym:"J"`
}

// Distance gives the inverse relative distance from earth to sun.
//
//	d_r = 1 + 0.033 cos(2π J/365)
//
// Source: FAO-56 equation 23.
var Distance = working.Formula[DateInput, unit.Ratio]{
	ID: "climate.distance", Name: "inverse relative distance of the sun", Symbol: "d_r",
	Equation: "d_r = 1 + 0.033 cos(2π J/365)", Source: source.FAO56.At("equation 23"),
	Eval: func(in DateInput) unit.Ratio { return unit.Ratio(1 + 0.033*math.Cos(2*math.Pi*float64(in.Day)/365)) },
}

// Declination gives how far north of the equator the sun stands overhead.
//
//	δ = 0.409 sin(2π J/365 − 1.39)
//
// Source: FAO-56 equation 24.
var Declination = working.Formula[DateInput, unit.Angle]{
	ID: "climate.declination", Name: "declination of the sun", Symbol: "δ",
	Equation: "δ = 0.409 sin(2π J/365 − 1.39)", Source: source.FAO56.At("equation 24"),
	Eval: func(in DateInput) unit.Angle { return unit.Angle(0.409 * math.Sin(2*math.Pi*float64(in.Day)/365-1.39)) },
}

// SunsetInput is a place and where the sun stands overhead.
type SunsetInput struct {
	Latitude    unit.Angle `sym:"φ"`
	Declination unit.Angle `sym:"δ"`
}

// SunsetAngle gives the hour angle at sunset, π where the sun does not set and 0 where it does not rise.
//
//	ω_s = arccos(−tan φ tan δ)
//
// Between the polar circles.
// Source: FAO-56 equation 25.
var SunsetAngle = working.Formula[SunsetInput, unit.Angle]{
	ID: "climate.sunset-angle", Name: "hour angle at sunset", Symbol: "ω_s",
	Equation: "ω_s = arccos(−tan φ tan δ)", Source: source.FAO56.At("equation 25"),
	Outside: func(in SunsetInput) string {
		if math.Abs(in.Latitude.Degrees()) > 66 {
			return "beyond the polar circles"
		}
		return ""
	},
	Eval: func(in SunsetInput) unit.Angle {
		return unit.Angle(math.Acos(min(1, max(-1, -math.Tan(in.Latitude.Radians())*math.Tan(in.Declination.Radians())))))
	},
}

// TopInput is a place under the sun of a day.
type TopInput struct {
	Latitude    unit.Angle `sym:"φ"`
	Distance    unit.Ratio `sym:"d_r"`
	Declination unit.Angle `sym:"δ"`
	Sunset      unit.Angle `sym:"ω_s"`
}

// Extraterrestrial gives the sunlight above the air, on the level, as the mean of the day.
//
//	R_a = (24·60/π) 0.0820 d_r (ω_s sin φ sin δ + cos φ cos δ sin ω_s) MJ/m² a day
//
// Source: FAO-56 equation 21.
var Extraterrestrial = working.Formula[TopInput, unit.HeatFlux]{
	ID: "climate.extraterrestrial", Name: "sunlight above the air", Symbol: "R_a",
	Equation: "R_a = (24·60/π) 0.0820 d_r (ω_s sin φ sin δ + cos φ cos δ sin ω_s) MJ/(m² day)", Source: source.FAO56.At("equation 21"),
	Eval: func(in TopInput) unit.HeatFlux {
		const Gsc = 0.0820 // MJ/(m² min)
		phi, delta, omega := in.Latitude.Radians(), in.Declination.Radians(), in.Sunset.Radians()
		sum := omega*math.Sin(phi)*math.Sin(delta) + math.Cos(phi)*math.Cos(delta)*math.Sin(omega)
		return unit.MegajoulesPerSquareMetreDay(24 * 60 / math.Pi * Gsc * in.Distance.Float() * sum)
	},
}

// DaylightInput is the sun of a day.
type DaylightInput struct {
	Sunset unit.Angle `sym:"ω_s"`
}

// Daylight gives the time from sunrise to sunset.
//
//	N = 24 ω_s/π h
//
// Source: FAO-56 equation 34.
var Daylight = working.Formula[DaylightInput, unit.Time]{
	ID: "climate.daylight", Name: "daylight", Symbol: "N",
	Equation: "N = 24 ω_s/π h", Source: source.FAO56.At("equation 34"),
	Eval: func(in DaylightInput) unit.Time { return unit.Hours(24 * in.Sunset.Radians() / math.Pi) },
}

// SunshineInput is a day on which the sun shone for some hours.
type SunshineInput struct {
	Top      unit.HeatFlux `sym:"R_a"`
	Sunshine unit.Time     `sym:"n"`
	Daylight unit.Time     `sym:"N"`
}

// Sunlight gives the sunlight on the level from the hours the sun shone; more than there is daylight counts as all of it.
//
//	R_s = (0.25 + 0.50 n/N) R_a
//
// Source: FAO-56 equation 35.
var Sunlight = working.Formula[SunshineInput, unit.HeatFlux]{
	ID: "climate.sunlight", Name: "sunlight", Symbol: "R_s",
	Equation: "R_s = (0.25 + 0.50 n/N) R_a", Source: source.FAO56.At("equation 35"),
	Eval: func(in SunshineInput) unit.HeatFlux {
		share := 0.0
		if in.Daylight > 0 {
			share = min(1, float64(in.Sunshine/in.Daylight))
		}
		return unit.HeatFlux((0.25 + 0.50*share) * float64(in.Top))
	},
}

// ClearInput is a day above a place.
type ClearInput struct {
	Altitude unit.Length   `sym:"z"`
	Top      unit.HeatFlux `sym:"R_a"`
}

// ClearSky gives the sunlight of a day without clouds.
//
//	R_so = (0.75 + 2×10⁻⁵ z) R_a
//
// Source: FAO-56 equation 37.
var ClearSky = working.Formula[ClearInput, unit.HeatFlux]{
	ID: "climate.clear-sky", Name: "sunlight of a clear day", Symbol: "R_so",
	Equation: "R_so = (0.75 + 2e-5 z) R_a", Source: source.FAO56.At("equation 37"),
	Eval: func(in ClearInput) unit.HeatFlux {
		return unit.HeatFlux((0.75 + 2e-5*in.Altitude.Metres()) * float64(in.Top))
	},
}

// Shares of sunlight that are thrown back: by the reference crop (FAO-56) and by open water (McMahon et al. 2013).
const (
	CropAlbedo  = unit.Ratio(0.23)
	WaterAlbedo = unit.Ratio(0.08)
)

// ShortInput is sunlight on a surface.
type ShortInput struct {
	Sunlight unit.HeatFlux `sym:"R_s"`
	Albedo   unit.Ratio    `sym:"α"`
}

// NetShort gives the sunlight that is kept.
//
//	R_ns = (1 − α) R_s
//
// Source: FAO-56 equation 38; CropAlbedo is its own, WaterAlbedo is that of McMahon et al. 2013.
var NetShort = working.Formula[ShortInput, unit.HeatFlux]{
	ID: "climate.net-short", Name: "sunlight kept", Symbol: "R_ns",
	Equation: "R_ns = (1 − α) R_s", Source: source.FAO56.At("equation 38"),
	Eval: func(in ShortInput) unit.HeatFlux {
		return unit.HeatFlux((1 - in.Albedo.Float()) * float64(in.Sunlight))
	},
}

// LongInput is a day as far as its warmth is lost to the sky.
type LongInput struct {
	Least    unit.Temperature `sym:"T_min"`
	Most     unit.Temperature `sym:"T_max"`
	Vapour   unit.Pressure    `sym:"e_a"`
	Sunlight unit.HeatFlux    `sym:"R_s"`
	Clear    unit.HeatFlux    `sym:"R_so"`
}

// NetLong gives the warmth that a surface as warm as the air loses to the sky.
//
//	R_nl = σ (T_max⁴ + T_min⁴)/2 (0.34 − 0.14 √e_a)(1.35 R_s/R_so − 0.35),  R_s/R_so ≤ 1
//	σ = 4.903×10⁻⁹ MJ/(K⁴ m²) a day, T in K as °C + 273.16, e_a in kPa
//
// Source: FAO-56 equation 39.
var NetLong = working.Formula[LongInput, unit.HeatFlux]{
	ID: "climate.net-long", Name: "warmth lost to the sky", Symbol: "R_nl",
	Equation: "R_nl = σ (T_max⁴ + T_min⁴)/2 (0.34 − 0.14 √e_a)(1.35 R_s/R_so − 0.35), R_s/R_so ≤ 1, σ = 4.903e-9 MJ/(K⁴ m² day), T in K",
	Source:   source.FAO56.At("equation 39"),
	Eval: func(in LongInput) unit.HeatFlux {
		const sigma = 4.903e-9
		clear := 1.0 // without any sun nothing is known of clouds: the clear night is the colder
		if in.Clear > 0 {
			clear = min(1, float64(in.Sunlight/in.Clear))
		}
		fourth := func(t unit.Temperature) float64 { k := t.Celsius() + 273.16; return k * k * k * k }
		return unit.MegajoulesPerSquareMetreDay(sigma * (fourth(in.Most) + fourth(in.Least)) / 2 *
			(0.34 - 0.14*math.Sqrt(in.Vapour.Kilopascals())) * (1.35*clear - 0.35))
	},
}

// NetInput is what a surface keeps and loses.
type NetInput struct {
	Short unit.HeatFlux `sym:"R_ns"`
	Long  unit.HeatFlux `sym:"R_nl"`
}

// Net gives the radiation that is left to warm and to dry.
//
//	R_n = R_ns − R_nl
//
// Source: FAO-56 equation 40.
var Net = working.Formula[NetInput, unit.HeatFlux]{
	ID: "climate.net", Name: "net radiation", Symbol: "R_n", Equation: "R_n = R_ns − R_nl", Source: source.FAO56.At("equation 40"),
	Eval: func(in NetInput) unit.HeatFlux { return in.Short - in.Long },
}

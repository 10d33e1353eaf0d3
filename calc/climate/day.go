package climate

import (
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Site is where a pond lies and how it is sheltered.
type Site struct {
	Latitude   unit.Angle // north is positive
	Altitude   unit.Length
	WindHeight unit.Length // at which wind was measured
	WindShare  unit.Ratio  // over the pond, of that in the open at the same height
	Shade      unit.Ratio  // of the sunlight, kept off
}

// Check says what is wrong with the site, as an input.Errors.
func (s Site) Check() error {
	var problems input.Errors
	problems.Between("latitude_deg", s.Latitude.Degrees(), -66, 66, "give the latitude, north positive; days beyond the polar circles cannot be followed")
	problems.Between("altitude_m", s.Altitude.Metres(), -450, 4000, "give the height above the sea")
	problems.Between("wind_height_m", s.WindHeight.Metres(), 0.5, 50, "give the height at which wind was measured, 10 at most stations")
	problems.Between("wind_at_pond_percent", s.WindShare.Percent(), 0, 150, "give the wind over the pond as a share of that in the open")
	problems.Between("shade_percent", s.Shade.Percent(), 0, 95, "give the share of the sunlight that is kept off")
	return problems.Err()
}

// A Day is the weather of one day.
type Day struct {
	Date      int // day of the year, 1 for 1 January, 365 or 366 for 31 December
	Least     unit.Temperature
	Most      unit.Temperature
	Vapour    unit.Pressure // in the air
	Wind      unit.Velocity // at the site's height
	Sunshine  unit.Time
	Radiation *unit.HeatFlux // sunlight as measured; nil takes it from Sunshine
	Rain      unit.Length
}

// Check says what is wrong with the day, as an input.Errors.
func (d Day) Check() error {
	var problems input.Errors
	problems.Between("air_min_c", d.Least.Celsius(), -60, 50, "give the lowest temperature of the day")
	problems.Between("air_max_c", d.Most.Celsius(), d.Least.Celsius(), 60, "give the highest temperature, no less than the lowest")
	most := Saturation.Eval(AirInput{Temperature: d.Most}).Kilopascals()
	problems.Between("vapour_pressure_kpa", d.Vapour.Kilopascals(), 0, most*(1+1e-9), "look at humidity or dew point: air no warmer than this cannot hold more")
	problems.Between("wind_m_per_s", d.Wind.MetresPerSecond(), 0, 50, "give the mean wind of the day")
	problems.Between("sunshine_h", d.Sunshine.Hours(), 0, 24, "give the hours of bright sunshine")
	problems.Between("rain_mm", d.Rain.Millimetres(), 0, 1000, "give the rain of the day")
	if d.Radiation != nil {
		problems.Between("radiation_mj_per_m2", d.Radiation.MegajoulesPerSquareMetreDay(), 0, 50, "give the sunlight of the day")
	}
	return problems.Err()
}

// Sky is what a day's weather makes of sun, air and evaporation at a site.
type Sky struct {
	Day           Day
	Mean          unit.Temperature
	Pressure      unit.Pressure
	Psychrometric unit.PressurePerKelvin
	Latent        unit.SpecificEnergy
	Saturation    unit.Pressure
	Slope         unit.PressurePerKelvin
	Wind          unit.Velocity // over the pond, two metres up
	Daylight      unit.Time
	Top           unit.HeatFlux // above the air
	Clear         unit.HeatFlux
	Sunlight      unit.HeatFlux // in the open
	Kept          unit.HeatFlux // by the pond, past shade and mirror
	Long          unit.HeatFlux // lost to the sky by a surface as warm as the air
	Net           unit.HeatFlux // of the pond
	Penman        unit.Velocity // of water that keeps no heat
	Reference     unit.Velocity // of the reference crop at the site, under its shade and wind
	Shallow       unit.Velocity
}

// Under works out the sky of a day over a site. Both must pass their checks.
func (s Site) Under(t *working.Trail, d Day) Sky {
	sky := Sky{Day: d, Mean: (d.Least + d.Most) / 2}
	sky.Pressure = Pressure.Run(t, AltitudeInput{Altitude: s.Altitude})
	sky.Psychrometric = Psychrometric.Run(t, PressureInput{Pressure: sky.Pressure})
	sky.Latent = LatentHeat.Run(t, AirInput{Temperature: sky.Mean})
	sky.Saturation = MeanSaturation.Run(t, RangeInput{Least: d.Least, Most: d.Most})
	sky.Slope = Slope.Run(t, AirInput{Temperature: sky.Mean})
	sky.Wind = unit.Velocity(s.WindShare) * WindAtTwoMetres.Run(t, WindInput{Wind: d.Wind, Height: s.WindHeight})
	s.light(t, &sky)
	s.dry(t, &sky)
	return sky
}

func (s Site) light(t *working.Trail, sky *Sky) {
	date := DateInput{Day: sky.Day.Date}
	declination := Declination.Run(t, date)
	sunset := SunsetAngle.Run(t, SunsetInput{Latitude: s.Latitude, Declination: declination})
	sky.Daylight = Daylight.Run(t, DaylightInput{Sunset: sunset})
	sky.Top = Extraterrestrial.Run(t, TopInput{Latitude: s.Latitude, Distance: Distance.Run(t, date), Declination: declination, Sunset: sunset})
	sky.Clear = ClearSky.Run(t, ClearInput{Altitude: s.Altitude, Top: sky.Top})
	if sky.Day.Radiation != nil {
		sky.Sunlight = *sky.Day.Radiation
	} else {
		sky.Sunlight = Sunlight.Run(t, SunshineInput{Top: sky.Top, Sunshine: sky.Day.Sunshine, Daylight: sky.Daylight})
	}
	sky.Kept = NetShort.Run(t, ShortInput{Sunlight: s.past(sky.Sunlight), Albedo: WaterAlbedo})
	sky.Long = NetLong.Run(t, LongInput{Least: sky.Day.Least, Most: sky.Day.Most, Vapour: sky.Day.Vapour, Sunlight: sky.Sunlight, Clear: sky.Clear})
	sky.Net = Net.Run(t, NetInput{Short: sky.Kept, Long: sky.Long})
}

// past is the sunlight that shade lets through.
func (s Site) past(light unit.HeatFlux) unit.HeatFlux { return unit.HeatFlux(1-s.Shade) * light }

func (s Site) dry(t *working.Trail, sky *Sky) {
	drying := Drying.Run(t, DryingInput{Wind: sky.Wind, Saturation: sky.Saturation, Vapour: sky.Day.Vapour, Latent: sky.Latent})
	sky.Penman = Penman.Run(t, PenmanInput{Net: sky.Net, Drying: drying, Slope: sky.Slope, Psychrometric: sky.Psychrometric, Latent: sky.Latent})
	grass := NetShort.Run(t, ShortInput{Sunlight: s.past(sky.Sunlight), Albedo: CropAlbedo})
	sky.Reference = Reference.Run(t, ReferenceInput{
		Temperature: sky.Mean, Net: Net.Run(t, NetInput{Short: grass, Long: sky.Long}), Wind: sky.Wind,
		Saturation: sky.Saturation, Vapour: sky.Day.Vapour, Slope: sky.Slope, Psychrometric: sky.Psychrometric,
	})
	sky.Shallow = Shallow.Run(t, ShallowInput{Reference: sky.Reference})
}

package oxygen

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// NightInput is a pond on a night, usually the warmest and stillest.
type NightInput struct {
	Pond            unit.Volume
	Surface         unit.Area
	Temperature     unit.Temperature
	Altitude        unit.Length
	Salinity        unit.Ratio
	Wind            unit.Velocity // at 10 m; 0 for a still night
	Fish            unit.MassRate // oxygen the fish take: the greater of what they burn their feed with and RestingOxygen
	TAN             unit.MassRate // ammonia the filter turns over, as nitrogen
	Falls           Falls
	AirLow, AirHigh unit.Flow  // of Bubbles
	Dusk            unit.Ratio // oxygen at dusk as a share of saturation; 0 takes 1
	Night           unit.Time  // without light
}

// A Night is the oxygen from dusk to dawn: Low with little air and greedy water, High the other way.
type Night struct {
	Saturation unit.Concentration
	Low, High  unit.Concentration // at dawn
	PumpOff    unit.Concentration // Low, were the falls to stop at dusk
	PowerOff   unit.Concentration // Low, were the air pump to stop as well
	// Time from dusk until Low, with the pump off and with all off, would sink to LeastOxygen; negative is never.
	Lasts, PumpOffLasts, PowerOffLasts unit.Time
	Hours                              []Hour
	Supplies                           []Supply
	Demands                            []Demand
	Findings                           []finding.Finding
}

// An Hour is one point of the night.
type Hour struct {
	After                        unit.Time
	Low, High, PumpOff, PowerOff unit.Concentration
}

// A Supply is oxygen that air brings while the pond stands at ComfortOxygen.
type Supply struct {
	Name      string
	Low, High unit.MassRate
}

// A Demand is oxygen that something takes.
type Demand struct {
	Name      string
	Low, High unit.MassRate
}

// Water and mud breathe so much, as oxygen by volume and hour: Boyd (from memory).
const (
	littleBreath = 0.05e-3 / 3600 // kg/(m³ s)
	muchBreath   = 0.20e-3 / 3600
)

// Oxygen that fish are kept above: for good, and at the very least. Sources: common practice; Directive 2006/44/EC (from
// memory).
const (
	ComfortOxygen = unit.Concentration(6e-3)
	LeastOxygen   = unit.Concentration(4e-3)
)

// What stands in for what was not said: a hot night in a temperate summer, short as they are.
const (
	WarmNight  = unit.Temperature(25)
	ShortNight = unit.Time(9 * 3600)
)

// AtDawn follows a night. Problems of the input are in err, an input.Errors.
func AtDawn(t *working.Trail, in NightInput) (Night, error) {
	if err := checkNight(in); err != nil {
		return Night{}, err
	}
	if in.Dusk == 0 {
		in.Dusk = 1
	}
	p := water.AltitudePressure.Run(t, water.AltitudeInput{Altitude: in.Altitude})
	n := Night{Saturation: water.OxygenSaturation.Run(t, water.OxygenInput{Temperature: in.Temperature, Pressure: p, Salinity: in.Salinity})}
	low, high := edges(t, in, n.Saturation)
	off, dark := low, low
	off.FallFlow = 0
	dark.FallFlow, dark.Air = 0, 0
	n.Low, n.High, n.PumpOff, n.PowerOff = Dawn.Run(t, low), Dawn.Run(t, high), Dawn.Run(t, off), Dawn.Run(t, dark)
	n.Lasts, n.PumpOffLasts, n.PowerOffLasts = untilLeast(t, low), untilLeast(t, off), untilLeast(t, dark)
	n.Hours = hours(in.Night, low, high, off, dark)
	n.Supplies, n.Demands = supplies(t, low, high), demands(in)
	n.Findings = append(in.Falls.Findings, verdicts(in, n)...)
	return n, nil
}

// edges are the night with little air and greedy water, and the other way.
func edges(t *working.Trail, in NightInput, saturation unit.Concentration) (low, high DawnInput) {
	wind := SurfaceInput{Wind: in.Wind, Temperature: in.Temperature}
	living := in.Fish + FilterDemand.Run(t, FilterDemandInput{TAN: in.TAN})
	at := func(k unit.Velocity, breath float64, fall unit.Ratio, air unit.Flow) DawnInput {
		return DawnInput{
			Start: unit.Concentration(in.Dusk.Float() * float64(saturation)), Saturation: saturation,
			Demand: living + unit.MassRate(breath*in.Pond.CubicMetres()),
			Pond:   in.Pond, Surface: in.Surface, Transfer: k, FallFlow: in.Falls.Flow, Efficiency: fall, Air: air, Night: in.Night,
		}
	}
	return at(CalmTransfer.Run(t, wind), muchBreath, in.Falls.Low, in.AirLow),
		at(LakeTransfer.Run(t, wind), littleBreath, in.Falls.High, in.AirHigh)
}

func untilLeast(t *working.Trail, in DawnInput) unit.Time {
	return Lasts.Run(t, LastsInput{
		Start: in.Start, Least: LeastOxygen, Saturation: in.Saturation, Demand: in.Demand, Supply: supply(in), Pond: in.Pond,
	})
}

// hours are the night from hour to hour, and its end.
func hours(night unit.Time, low, high, off, dark DawnInput) []Hour {
	var list []Hour
	for h := unit.Time(0); ; h += unit.Hours(1) {
		h = min(h, night)
		at := func(in DawnInput) unit.Concentration {
			in.Night = h
			return Dawn.Eval(in)
		}
		list = append(list, Hour{After: h, Low: at(low), High: at(high), PumpOff: at(off), PowerOff: at(dark)})
		if h >= night {
			return list
		}
	}
}

// supplies are what air brings at ComfortOxygen: nothing where the water cannot hold so much.
func supplies(t *working.Trail, low, high DawnInput) []Supply {
	brings := func(in DawnInput, saturated float64) unit.MassRate {
		return unit.MassRate(saturated * max(0, float64(in.Saturation-ComfortOxygen)))
	}
	through := func(in DawnInput) float64 { return float64(in.Transfer) * in.Surface.SquareMetres() }
	list := []Supply{{"surface", brings(low, through(low)), brings(high, through(high))}}
	if low.FallFlow > 0 {
		list = append(list, Supply{"falls", FallSupply.Run(t, atComfort(low)), FallSupply.Run(t, atComfort(high))})
	}
	if high.Air > 0 {
		list = append(list, Supply{"air", brings(low, float64(low.Air)), brings(high, float64(high.Air))})
	}
	return list
}

func atComfort(in DawnInput) SupplyInput {
	return SupplyInput{Flow: in.FallFlow, Efficiency: in.Efficiency, Saturation: in.Saturation, Pond: min(ComfortOxygen, in.Saturation)}
}

func demands(in NightInput) []Demand {
	nitrifying := FilterDemand.Eval(FilterDemandInput{TAN: in.TAN})
	of := func(breath float64) unit.MassRate { return unit.MassRate(breath * in.Pond.CubicMetres()) }
	return []Demand{{"fish", in.Fish, in.Fish}, {"filter", nitrifying, nitrifying}, {"water and mud", of(littleBreath), of(muchBreath)}}
}

func checkNight(in NightInput) error {
	var problems input.Errors
	problems.Between("pond_volume_l", in.Pond.Litres(), 10, 1e9, "give the water in litres")
	problems.Between("surface_m2", in.Surface.SquareMetres(), 0, 1e6, "give the open water in square metres")
	problems.Between("water_temperature_c", in.Temperature.Celsius(), 0, 40, "give the water temperature")
	problems.Between("altitude_m", in.Altitude.Metres(), -500, 4000, "give the height above the sea")
	problems.Between("salt_g_per_kg", 1000*in.Salinity.Float(), 0, 40, "give the salt by mass of water")
	problems.Between("wind_m_per_s", in.Wind.MetresPerSecond(), 0, 10, "give the wind, 0 for a still night")
	problems.Between("fish_oxygen_g_per_day", in.Fish.GramsPerDay(), 0, 1e7, "give the oxygen the fish take")
	problems.Between("tan_g_per_day", in.TAN.GramsPerDay(), 0, 1e6, "give the ammonia the filter turns over")
	problems.Between("falls", in.Falls.Flow.LitresPerHour(), 0, 1e8, "give the flow over the falls, or nothing")
	problems.Between("falls.efficiency", in.Falls.High.Float(), in.Falls.Low.Float(), 1, "give the share of missing oxygen the falls make up")
	problems.Between("air", in.AirHigh.LitresPerHour(), in.AirLow.LitresPerHour(), 1e8, "give what the bubbles bring, or nothing")
	problems.Between("dusk_percent", in.Dusk.Percent(), 0, 200, "give the oxygen at dusk as a share of saturation, or nothing")
	problems.Between("night_h", in.Night.Hours(), 0.5, 24, "give the hours without light")
	return problems.Err()
}

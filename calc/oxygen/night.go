package oxygen

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// NightInput is a pond on a night, usually the warmest and stillest.
type NightInput struct {
	Pond        unit.Volume
	Surface     unit.Area
	Temperature unit.Temperature
	Altitude    unit.Length
	Salinity    unit.Ratio
	Wind        unit.Velocity // at 10 m; 0 for a still night
	Fish        unit.MassRate // oxygen the fish take, as of stock.Load
	TAN         unit.MassRate // ammonia the filter turns over, as nitrogen
	FallFlow    unit.Flow     // over the fall; 0 without one
	Efficiency  unit.Ratio    // of the fall, from CascadeEfficiency
	Dusk        unit.Ratio    // oxygen at dusk as a share of saturation; 0 takes 1
	Night       unit.Time     // without light
}

// A Night is the oxygen at dawn: Low with little air through the surface and greedy water, High the other way.
type Night struct {
	Saturation unit.Concentration
	Low, High  unit.Concentration
	PumpOff    unit.Concentration // Low, were the fall to stop at dusk
	Findings   []finding.Finding
}

// Water and mud breathe so much, as oxygen by volume and hour: Boyd (from memory).
const (
	littleBreath = 0.05e-3 / 3600 // kg/(m³ s)
	muchBreath   = 0.20e-3 / 3600
)

// Oxygen that fish are kept above: for good, and at the very least.
const (
	comfortOxygen = unit.Concentration(6e-3)
	leastOxygen   = unit.Concentration(4e-3)
)

// AtDawn says what oxygen is left in the morning. Problems of the input are in err, an input.Errors.
func AtDawn(t *working.Trail, in NightInput) (Night, error) {
	if err := checkNight(in); err != nil {
		return Night{}, err
	}
	if in.Dusk == 0 {
		in.Dusk = 1
	}
	p := water.AltitudePressure.Run(t, water.AltitudeInput{Altitude: in.Altitude})
	n := Night{Saturation: water.OxygenSaturation.Run(t, water.OxygenInput{Temperature: in.Temperature, Pressure: p, Salinity: in.Salinity})}
	wind := SurfaceInput{Wind: in.Wind, Temperature: in.Temperature}
	living := in.Fish + FilterDemand.Run(t, FilterDemandInput{TAN: in.TAN})
	dawn := func(k unit.Velocity, breath float64, fall unit.Flow) unit.Concentration {
		return Dawn.Run(t, DawnInput{
			Start: unit.Concentration(in.Dusk.Float() * float64(n.Saturation)), Saturation: n.Saturation,
			Demand: living + unit.MassRate(breath*in.Pond.CubicMetres()),
			Pond:   in.Pond, Surface: in.Surface, Transfer: k, FallFlow: fall, Efficiency: in.Efficiency, Night: in.Night,
		})
	}
	calm := CalmTransfer.Run(t, wind)
	n.Low = dawn(calm, muchBreath, in.FallFlow)
	n.High = dawn(LakeTransfer.Run(t, wind), littleBreath, in.FallFlow)
	n.PumpOff = dawn(calm, muchBreath, 0)
	n.Findings = verdicts(in, n)
	return n, nil
}

func checkNight(in NightInput) error {
	var problems input.Errors
	between := func(field string, v, low, high float64, change string) {
		if !(v >= low && v <= high) {
			problems.Add(field, change, "%g", v)
		}
	}
	between("pond_volume_l", in.Pond.Litres(), 10, 1e9, "give the water in litres")
	between("surface_m2", in.Surface.SquareMetres(), 0, 1e6, "give the open water in square metres")
	between("water_temperature_c", in.Temperature.Celsius(), 0, 40, "give the water temperature, 0 to 40 °C")
	between("altitude_m", in.Altitude.Metres(), -500, 4000, "give the height above the sea")
	between("salinity", in.Salinity.Float(), 0, 0.04, "give the salt by mass of water, 0.003 for 3 g/kg")
	between("wind_m_per_s", in.Wind.MetresPerSecond(), 0, 10, "give the wind, 0 for a still night")
	between("fish_oxygen_g_per_day", in.Fish.GramsPerDay(), 0, 1e7, "give the oxygen the fish take")
	between("tan_g_per_day", in.TAN.GramsPerDay(), 0, 1e6, "give the ammonia the filter turns over")
	between("fall_flow_l_per_h", in.FallFlow.LitresPerHour(), 0, 1e8, "give the flow over the fall, or nothing")
	between("fall_efficiency", in.Efficiency.Float(), 0, 1, "give the share of missing oxygen the fall makes up")
	between("dusk_share", in.Dusk.Float(), 0, 2, "give the oxygen at dusk as a share of saturation, or nothing")
	between("night_hours", in.Night.Hours(), 0.5, 24, "give the hours without light")
	return problems.Err()
}

func verdicts(in NightInput, n Night) []finding.Finding {
	var found []finding.Finding
	switch low := n.Low.MilligramsPerLitre(); {
	case n.Low < leastOxygen:
		found = append(found, dawnFinding("OXYGEN_TOO_LOW_AT_DAWN", finding.Stop, low, leastOxygen, source.CyprinidWater))
	case n.Low < comfortOxygen:
		found = append(found, dawnFinding("OXYGEN_LOW_AT_DAWN", finding.Caution, low, comfortOxygen, source.Practice))
	}
	if n.PumpOff < leastOxygen && n.Low >= leastOxygen {
		found = append(found, finding.Finding{
			Code: "OXYGEN_HANGS_ON_THE_FALL", Severity: finding.Caution, Subject: "pump",
			Sentence: fmt.Sprintf("With the fall off at night the oxygen may sink to %.1f mg/L by dawn.", n.PumpOff.MilligramsPerLitre()),
			Value:    finding.Of(n.PumpOff.MilligramsPerLitre(), "mg/L"), Limit: finding.Of(leastOxygen.MilligramsPerLitre(), "mg/L"),
			Change: "Leave the pump running through warm nights and keep a spare air pump.", Source: source.CyprinidWater,
		})
	}
	if in.Temperature > 30 {
		found = append(found, finding.Finding{
			Code: "SURFACE_TRANSFER_OUTSIDE_RANGE", Severity: finding.Caution, Subject: "water",
			Sentence: fmt.Sprintf("At %.1f °C the water is warmer than the 30 °C to which the oxygen through the surface is stated; it was taken at 30 °C.", in.Temperature.Celsius()),
			Value:    finding.Of(in.Temperature.Celsius(), "°C"), Limit: finding.Of(30, "°C"), Change: "Shade the pond.", Source: source.SchmidtNumber,
		})
	}
	return found
}

func dawnFinding(code string, severity finding.Severity, low float64, limit unit.Concentration, src source.Source) finding.Finding {
	return finding.Finding{
		Code: code, Severity: severity, Subject: "fish",
		Sentence: fmt.Sprintf("Oxygen may sink to %.1f mg/L by dawn; fish are kept above %.0f mg/L.", low, limit.MilligramsPerLitre()),
		Value:    finding.Of(low, "mg/L"), Limit: finding.Of(limit.MilligramsPerLitre(), "mg/L"),
		Change: "Aerate at night, feed less in hot spells, keep fewer fish.", Source: src,
	}
}

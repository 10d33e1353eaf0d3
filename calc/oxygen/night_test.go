package oxygen_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/oxygen"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

func warmNight() oxygen.NightInput {
	return oxygen.NightInput{
		Pond: unit.Litres(10_000), Surface: 10, Temperature: 25, Night: unit.Hours(9),
		Fish: unit.GramsPerDay(40), TAN: unit.GramsPerDay(3),
		Falls: oxygen.Falls{Flow: unit.LitresPerHour(8000), Low: 0.3, High: 0.3},
	}
}

// By hand at 25 °C, 8.26 mg/L at saturation: fish 40 g and filter 13.7 g a day are 0.224 mg/L an hour and the water at
// most 0.2. The fall makes up 8 m³/h x 0.3 in 10 m³, 0.24 an hour, the calm surface 0.002. Rest lies at
// 8.26 - 0.424/0.242 = 6.51, and after nine hours e^-2.18 of the way is left: 6.71.
func TestAWarmStillNight(t *testing.T) {
	trail := new(working.Trail)
	n, err := oxygen.AtDawn(trail, warmNight())
	require.NoError(t, err)
	assert.InDelta(t, 8.26, n.Saturation.MilligramsPerLitre(), 0.005)
	assert.InDelta(t, 6.71, n.Low.MilligramsPerLitre(), 0.01)
	assert.Empty(t, n.Findings)
	assert.InDelta(t, 8.26-0.424*9, n.PumpOff.MilligramsPerLitre(), 0.05) // without air a straight line; the surface adds a little
	// By hand with the pump off: from 8.26 down to 4 mg/L at 0.424 an hour, of which the surface makes up to 2 % good.
	assert.InDelta(t, (8.26-4)/0.424, n.PumpOffLasts.Hours(), 0.02*10.05)
	assert.Negative(t, n.Lasts)
	assert.InDelta(t, 8*0.3*(8.26-6)*24, n.Supplies[1].Low.GramsPerDay(), 0.5)
	assert.InDelta(t, 3*4.57, n.Demands[1].Low.GramsPerDay(), 1e-9)
	for _, step := range trail.Steps() {
		assert.True(t, step.Replay())
	}
}

// The night from hour to hour begins at dusk and ends at dawn; and the time until oxygen runs low is when the curve says so.
func TestHoursOfTheNight(t *testing.T) {
	in := warmNight()
	in.Fish, in.Night, in.AirLow, in.AirHigh = unit.GramsPerDay(150), unit.Hours(9.5), unit.LitresPerHour(200), unit.LitresPerHour(400)
	n, err := oxygen.AtDawn(nil, in)
	require.NoError(t, err)
	require.Len(t, n.Hours, 11)
	assert.Equal(t, n.Saturation, n.Hours[0].Low)
	last := n.Hours[10]
	assert.Equal(t, []unit.Concentration{n.Low, n.High, n.PumpOff, n.PowerOff}, []unit.Concentration{last.Low, last.High, last.PumpOff, last.PowerOff})
	assert.Less(t, n.PowerOffLasts, n.PumpOffLasts)

	in.Night = n.PowerOffLasts
	n, err = oxygen.AtDawn(nil, in)
	require.NoError(t, err)
	assert.InEpsilon(t, oxygen.LeastOxygen.MilligramsPerLitre(), n.PowerOff.MilligramsPerLitre(), 1e-12)
}

// Without air a pond of 10 m³ that takes 96 g a day sinks by 0.4 mg/L an hour: from 8 to 4 in ten hours. Balanced by air, it
// never does; already there, at once.
func TestLasts(t *testing.T) {
	in := oxygen.LastsInput{
		Start: unit.MilligramsPerLitre(8), Least: unit.MilligramsPerLitre(4), Saturation: unit.MilligramsPerLitre(8), Demand: unit.GramsPerDay(96), Pond: 10,
	}
	hours := func() float64 { return oxygen.Lasts.Eval(in).Hours() }
	assert.InDelta(t, 10, hours(), 1e-9)
	in.Supply = unit.CubicMetresPerHour(1.1) // rests at 8 - 4/1.1, above 4
	assert.Negative(t, hours())
	in.Supply, in.Demand = 0, 0
	assert.Negative(t, hours())
	in.Start = in.Least
	assert.Zero(t, hours())
}

func TestOxygenHangsOnPower(t *testing.T) {
	in := warmNight()
	in.Fish, in.Falls = unit.GramsPerDay(60), oxygen.Falls{}
	in.AirLow, in.AirHigh = unit.LitresPerHour(2000), unit.LitresPerHour(3000)
	n, err := oxygen.AtDawn(nil, in)
	require.NoError(t, err)
	assert.Contains(t, codes(n.Findings), "OXYGEN_HANGS_ON_POWER")
}

func TestNightVerdicts(t *testing.T) {
	in := warmNight()
	in.Fish = unit.GramsPerDay(110)
	n, err := oxygen.AtDawn(nil, in)
	require.NoError(t, err)
	assert.Equal(t, []string{"OXYGEN_LOW_AT_DAWN", "OXYGEN_HANGS_ON_THE_FALL"}, codes(n.Findings))

	in.Falls, in.Temperature = oxygen.Falls{}, 31
	n, err = oxygen.AtDawn(nil, in)
	require.NoError(t, err)
	assert.Equal(t, []string{"OXYGEN_TOO_LOW_AT_DAWN", "SURFACE_TRANSFER_OUTSIDE_RANGE"}, codes(n.Findings))
	assert.Equal(t, finding.Stop, n.Findings[0].Severity)
}

func TestAtDawnNamesEveryProblem(t *testing.T) {
	_, err := oxygen.AtDawn(nil, oxygen.NightInput{Temperature: 50, Falls: oxygen.Falls{High: 30}})
	var problems input.Errors
	require.ErrorAs(t, err, &problems)
	var list []string
	for _, p := range problems {
		list = append(list, p.Field)
	}
	assert.Equal(t, []string{"pond_volume_l", "water_temperature_c", "falls.efficiency", "night_h"}, list)
}

func codes(findings []finding.Finding) []string {
	var list []string
	for _, f := range findings {
		list = append(list, f.Code)
	}
	return list
}

func BenchmarkAtDawn(b *testing.B) {
	in := warmNight()
	b.ReportAllocs()
	for b.Loop() {
		_, _ = oxygen.AtDawn(nil, in)
	}
}

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
		FallFlow: unit.LitresPerHour(8000), Efficiency: 0.3,
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
	for _, step := range trail.Steps() {
		assert.True(t, step.Replay())
	}
}

func TestNightVerdicts(t *testing.T) {
	in := warmNight()
	in.Fish = unit.GramsPerDay(110)
	n, err := oxygen.AtDawn(nil, in)
	require.NoError(t, err)
	assert.Equal(t, []string{"OXYGEN_LOW_AT_DAWN", "OXYGEN_HANGS_ON_THE_FALL"}, codes(n.Findings))

	in.FallFlow, in.Temperature = 0, 31
	n, err = oxygen.AtDawn(nil, in)
	require.NoError(t, err)
	assert.Equal(t, []string{"OXYGEN_TOO_LOW_AT_DAWN", "SURFACE_TRANSFER_OUTSIDE_RANGE"}, codes(n.Findings))
	assert.Equal(t, finding.Stop, n.Findings[0].Severity)
}

func TestAtDawnNamesEveryProblem(t *testing.T) {
	_, err := oxygen.AtDawn(nil, oxygen.NightInput{Temperature: 50, Efficiency: 30})
	var problems input.Errors
	require.ErrorAs(t, err, &problems)
	var list []string
	for _, p := range problems {
		list = append(list, p.Field)
	}
	assert.Equal(t, []string{"pond_volume_l", "water_temperature_c", "fall_efficiency", "night_hours"}, list)
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

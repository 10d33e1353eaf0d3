package oxygen_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/oxygen"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Were all of the oxygen taken up from oxygen-free clean water at 20 °C, the bubbles would bring what is in the air: by
// the ideal gas law 0.20946 · 31.998 g/mol · 101,325 Pa/(8.314463 J/(mol K) · 293.15 K) = 278.6 g/m³ (composition of dry
// air by ISO 2533, gas constant by CODATA 2018, both from memory). The constant is printed to four digits.
func TestAirTransferBringsNoMoreThanIsInTheAir(t *testing.T) {
	const inAir = 0.20946 * 31.998 * 101_325 / (8.314463 * 293.15) // g/m³
	G := oxygen.AirTransfer.Eval(oxygen.AirInput{Flow: unit.CubicMetresPerHour(1), Depth: 1, PerMetre: 1, Alpha: 1, Temperature: 20})
	brought := float64(G) * 3600 * 9.092 // by an hour, Cs - C = C20
	assert.InDelta(t, inAir, brought, 0.05)
}

// ASCE Standard 2, as reproduced: uptake changes by 1.024 a degree, and by Cs − C over C20.
func TestAirTransferGoesWithTemperatureAsTheStandardSays(t *testing.T) {
	at := func(celsius float64) float64 {
		return float64(oxygen.AirTransfer.Eval(oxygen.AirInput{Flow: 1, Depth: 1, PerMetre: 0.05, Alpha: 0.8, Temperature: unit.Celsius(celsius)}))
	}
	assert.InEpsilon(t, 1.2677, at(30)/at(20), 4e-5) // 1.024^10 to five digits
	assert.InEpsilon(t, 1/1.2677, at(10)/at(20), 4e-5)
}

// An air stone a metre down in a pond at 6 of 8.26 mg/L takes up 2 to 3 % of the oxygen in its air in clean empty water, and
// here 0.6 to 0.9 of that, times 2.26/9.09 and 1.024^5 = 1.126: of 20 L/min, 334 g of oxygen an hour, 1.12 to 2.53 g.
func TestBubblesOfAnAirStone(t *testing.T) {
	trail := new(working.Trail)
	low, high, err := oxygen.Bubbles(trail, oxygen.Air{Flow: unit.LitresPerMinute(20), Depth: 1}, 25)
	require.NoError(t, err)
	perHour := func(G unit.Flow) float64 { return float64(G) * 3600 * (8.26 - 6) }
	assert.InDelta(t, 1.12, perHour(low), 0.005)
	assert.InDelta(t, 2.53, perHour(high), 0.01)
	for _, step := range trail.Steps() {
		assert.True(t, step.Replay())
	}
	fine, _, err := oxygen.Bubbles(nil, oxygen.Air{Flow: unit.LitresPerMinute(20), Depth: 1, Fine: true}, 25)
	require.NoError(t, err)
	assert.InEpsilon(t, 2, float64(fine/low), 1e-12)
	none, _, err := oxygen.Bubbles(nil, oxygen.Air{}, 25)
	require.NoError(t, err)
	assert.Zero(t, none)
	_, _, err = oxygen.Bubbles(nil, oxygen.Air{Flow: 1, Depth: 9}, 25)
	assert.ErrorContains(t, err, "air.depth_m")
}

// Two falls of half a metre: a step is 1 + 0.38·1.8·0.8·0.5·0.945·2.15 = 1.556 at 25 °C in clean water over a sharp lip
// (the notes of 1973 from memory), 35.7 % of what is missing; two make up 58.7 %. The low edge is 1.0 and 0.7: 22.4 and 39.8 %.
func TestFallsTogether(t *testing.T) {
	one := oxygen.Fall{Drop: 0.5, Steps: 1, Flow: unit.LitresPerHour(5000)}
	two := one
	two.Steps = 2
	f, err := oxygen.Together(nil, []oxygen.Fall{one}, 25)
	require.NoError(t, err)
	assert.InDelta(t, 0.357, f.High.Float(), 0.0005)
	assert.InDelta(t, 1-1/(1+0.38*0.7*0.5*0.945*2.15), f.Low.Float(), 1e-12)
	both, err := oxygen.Together(nil, []oxygen.Fall{one, two}, 25)
	require.NoError(t, err)
	assert.InDelta(t, (0.357+0.587)/2, both.High.Float(), 0.0005)
	assert.InDelta(t, 10_000, both.Flow.LitresPerHour(), 1e-9)
	none, err := oxygen.Together(nil, nil, 25)
	require.NoError(t, err)
	assert.Zero(t, none)
	_, err = oxygen.Together(nil, []oxygen.Fall{{}}, 25)
	var problems input.Errors
	require.ErrorAs(t, err, &problems)
	assert.Equal(t, "falls[0].drop_m", problems[0].Field)
	assert.Len(t, problems, 3)
}

// A sill and a pool widen the band by the second road, and never narrow it.
func TestASillNeverNarrowsTheBand(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := oxygen.Fall{
			Drop: unit.Metres(rapid.Float64Range(0.1, 3).Draw(t, "drop")), Steps: rapid.IntRange(1, 10).Draw(t, "steps"),
			Flow: unit.LitresPerHour(rapid.Float64Range(500, 50_000).Draw(t, "flow")),
		}
		plain, err := oxygen.Together(nil, []oxygen.Fall{f}, 20)
		require.NoError(t, err)
		f.Sill, f.Pool = unit.Centimetres(rapid.Float64Range(5, 300).Draw(t, "sill")), unit.Centimetres(rapid.Float64Range(5, 100).Draw(t, "pool"))
		wide, err := oxygen.Together(nil, []oxygen.Fall{f}, 20)
		require.NoError(t, err)
		assert.LessOrEqual(t, wide.Low, plain.Low)
		assert.GreaterOrEqual(t, wide.High, plain.High)
		assert.LessOrEqual(t, wide.High, unit.Ratio(1))
	})
}

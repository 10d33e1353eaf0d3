package uv_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/uv/kill"
	"example.com/pondwright/calc/uv/mixing"
)

func passInput(t require.TestingT, transmittance, flow float64) uv.InactivationInput {
	f, err := uv.FieldAt(nil, gardenUnit(), uv.Condition{Transmittance: unit.Percent(transmittance)})
	require.NoError(t, err)
	return uv.InactivationInput{Field: f, Flow: unit.CubicMetresPerHour(flow), Tanks: mixing.UsualTanks, Responses: kill.Responses()}
}

// Chick's law and tanks in series by hand, to the last bits: D/D10, and N log10(1 + ln 10 D/(N D10)).
func TestInactivationClosedForms(t *testing.T) {
	in := passInput(t, 85, 3)
	in.Responses, in.D10 = nil, unit.MillijoulesPerSquareCentimetre(20)
	effects, _, err := uv.Inactivate(nil, in)
	require.NoError(t, err)
	require.Len(t, effects, 1)
	dose, err := uv.DoseFrom(nil, in.Field, in.Flow, 0, 0)
	require.NoError(t, err)
	x := dose.Mean.MillijoulesPerSquareCentimetre() / 20
	assert.InEpsilon(t, x, effects[0].Log.High.Float(), 1e-12)
	assert.InEpsilon(t, 2*math.Log10(1+math.Ln10*x/2), effects[0].Log.Expected.Float(), 1e-12)
	assert.InEpsilon(t, 1-math.Pow(10, -x), effects[0].Share.High.Float(), 1e-12)
	assert.Nil(t, effects[0].Published)
	assert.Zero(t, effects[0].Reach)
}

// The order holds for every organism at every flow and in every water: laminar bound, tanks in series, plug flow.
func TestPassIsAlwaysOrdered(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := passInput(t, rapid.Float64Range(1, 100).Draw(t, "T"), rapid.Float64Range(0.01, 50).Draw(t, "Q"))
		in.Tanks = rapid.IntRange(1, 100).Draw(t, "N")
		in.D10 = unit.MillijoulesPerSquareCentimetre(rapid.Float64Range(0.1, 1e4).Draw(t, "D10"))
		effects, _, err := uv.Inactivate(nil, in)
		require.NoError(t, err)
		for _, e := range effects {
			b := e.Pass.Band
			assert.LessOrEqual(t, float64(b.Low), float64(e.Pass.Fastest))
			assert.LessOrEqual(t, float64(b.Low), float64(b.Expected))
			assert.LessOrEqual(t, float64(b.Expected), float64(b.High))
			assert.NotEmpty(t, e.Pass.Reason)
			if r := e.Published; r != nil {
				assert.Equal(t, b.Low >= r.High, e.Reach == uv.Above, r.Key)
				assert.Equal(t, b.High < r.Low, e.Reach == uv.Below, r.Key)
			}
			if e.Published != nil && e.Log != nil {
				assert.LessOrEqual(t, e.Log.High.Float(), e.Published.Log10.Float()*(1+1e-12), "more than was published")
			}
		}
	})
}

// The low end says which path governs: the dim wall in dark water, tanks against a sensitive organism in clear water.
func TestPassSaysWhatGoverns(t *testing.T) {
	reason := func(transmittance, d10 float64, tanks int) string {
		in := passInput(t, transmittance, 3)
		in.Responses, in.Tanks, in.D10 = nil, tanks, unit.MillijoulesPerSquareCentimetre(d10)
		effects, _, err := uv.Inactivate(nil, in)
		require.NoError(t, err)
		return effects[0].Pass.Reason
	}
	assert.Contains(t, reason(50, 5, 20), "dim wall")
	assert.Contains(t, reason(95, 5, 20), "fastest laminar")
	assert.Contains(t, reason(95, 1, 1), "mixed tank")
}

// Green cells showed no suppression at 20 to 200 mJ/cm² (Tao et al. 2010): whatever one pass gives, nothing is taken of them.
func TestNoGreenAlgaIsTakenInOnePass(t *testing.T) {
	for _, flow := range []float64{0.01, 1, 20} {
		effects, found, err := uv.Inactivate(nil, passInput(t, 85, flow))
		require.NoError(t, err)
		for _, e := range effects {
			if e.Published.Group == kill.GreenAlgae {
				assert.Nil(t, e.Log, e.Published.Key)
				assert.Nil(t, e.Share, e.Published.Key)
			}
		}
		assert.Equal(t, "NO_KILL_IN_ONE_PASS", found[0].Code)
	}
}

func TestInactivateRefusesNonsenseWhole(t *testing.T) {
	in := passInput(t, 85, 3)
	in.Flow, in.Tanks, in.D10 = 0, 0, unit.Fluence(math.NaN())
	_, _, err := uv.Inactivate(nil, in)
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 3)
}

func BenchmarkKillBand(b *testing.B) {
	in := passInput(b, 85, 3)
	in.Responses, in.D10 = nil, unit.MillijoulesPerSquareCentimetre(20)
	b.ReportAllocs()
	for b.Loop() {
		_, _, _ = uv.Inactivate(nil, in)
	}
}

package tree

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// Reference: the central difference of pipe.Run.Loss with a step of 1e-5, good to some 1e-9 away from the two Reynolds
// numbers where the friction law has a kink. It holds the closed form to whatever law calc/pipe has.
func TestSlopeOfLossMeetsDifferences(t *testing.T) {
	w := water.At(nil, 15)
	rapid.Check(t, func(t *rapid.T) {
		spec := pipe.Spec{
			Length: unit.Metres(rapid.Float64Range(0.1, 100).Draw(t, "length")), Bore: unit.Millimetres(rapid.Float64Range(10, 150).Draw(t, "bore")),
			Wall: rapid.SampledFrom([]pipe.Wall{pipe.Smooth, pipe.Corrugated}).Draw(t, "wall"), OtherK: rapid.Float64Range(0, 5).Draw(t, "k"),
		}
		spec.Roughness = spec.Bore * unit.Length(math.Pow(10, rapid.Float64Range(-6, -1.5).Draw(t, "roughness")))
		for kind := pipe.Kind(1); kind < 40; kind++ {
			one := pipe.Spec{Length: 1, Bore: spec.Bore, Wall: pipe.Smooth, Fittings: []pipe.Fitted{{Kind: kind, Count: 1}}}
			if _, err := pipe.NewRun(one); err == nil && rapid.Bool().Draw(t, "fitted") {
				spec.Fittings = append(spec.Fittings, one.Fittings...)
			}
		}
		if rapid.Bool().Draw(t, "reduced") { // whose coefficient goes with the friction factor as well
			spec.Fittings = append(spec.Fittings, pipe.Fitted{Kind: pipe.Reducer, Count: 1, From: spec.Bore, To: spec.Bore / 2, Angle: unit.Degrees(8)})
		}
		run, err := pipe.NewRun(spec)
		require.NoError(t, err)
		l := newLine(run, w)
		re := math.Pow(10, rapid.Float64Range(1, 6).Draw(t, "log Re"))
		if math.Abs(re-2000) < 1 || math.Abs(re-4000) < 1 {
			return
		}
		q := re / l.reynolds
		const step = 1e-5
		less, more := run.Loss(unit.Flow(q*(1-step)), w), run.Loss(unit.Flow(q*(1+step)), w)
		_, slope := l.loss(run, q, w)
		assert.InEpsilon(t, (more-less).Metres()/(2*step*q), slope, 1e-7, "Re %g", re)
	})
}

// The slopes with roughness likewise, from the friction factor itself.
func TestExponentsMeetDifferences(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		re := math.Pow(10, rapid.Float64Range(2, 7).Draw(t, "log Re"))
		e := math.Pow(10, rapid.Float64Range(-6, -1.4).Draw(t, "log roughness"))
		if math.Abs(re-2000) < 1 || math.Abs(re-4000) < 1 {
			return
		}
		f := func(re, e float64) float64 {
			return math.Log(pipe.FrictionFactor.Eval(pipe.FactorInput{Reynolds: re, RelativeRoughness: unit.Ratio(e)}))
		}
		const step = 1e-5
		withRe, withRoughness := exponents(math.Exp(f(re, e)), re, e)
		assert.InDelta(t, (f(re*(1+step), e)-f(re*(1-step), e))/(2*step), withRe, 1e-6)
		assert.InDelta(t, (f(re, e*(1+step))-f(re, e*(1-step)))/(2*step), withRoughness, 1e-6)
	})
}

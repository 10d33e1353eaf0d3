package pipe_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
)

// By definition a valve of Kv 10 m³/h takes 1 bar, 10.1972 m of water, at 10 m³/h (1 bar by 1000 kg/m³ and standard gravity).
// Laws: the head a valve of that Kv takes at the flow is the head it was asked to take, and the loss coefficient that the
// standard gives for it takes the same head, but for the standard's rounding of 1.6×10⁹ (1.5989×10⁹ by 1000 kg/m³).
func TestFlowCoefficientIsTheFlowAtOneBar(t *testing.T) {
	kv := pipe.KvFor.Eval(pipe.KvForInput{Flow: unit.CubicMetresPerHour(10), Head: unit.MetresOfWater(10.1972)})
	assert.InDelta(t, 10, kv.CubicMetresPerHour(), 1e-4)
	rapid.Check(t, func(t *rapid.T) {
		in := pipe.KvForInput{
			Flow: unit.LitresPerHour(rapid.Float64Range(10, 1e5).Draw(t, "flow")), Head: unit.Head(rapid.Float64Range(1e-3, 20).Draw(t, "head")),
		}
		kv := pipe.KvFor.Eval(in)
		assert.InEpsilon(t, in.Head.Metres(), pipe.KvLoss.Eval(pipe.KvLossInput{Flow: in.Flow, Kv: kv}).Metres(), 1e-12)
		bore := unit.Millimetres(40)
		byBore := pipe.MinorLoss.Eval(pipe.MinorInput{
			Coefficient: pipe.LossOfKv.Eval(pipe.KvInput{Kv: kv, Bore: bore}), Velocity: pipe.Velocity.Eval(pipe.VelocityInput{Flow: in.Flow, Bore: bore}),
		})
		assert.InEpsilon(t, in.Head.Metres(), byBore.Metres(), 7.1e-4)
	})
}

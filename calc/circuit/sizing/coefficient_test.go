package sizing_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/circuit/sizing"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/unit"
)

// By definition a valve of Kv 10 m³/h takes 1 bar, 10.1972 m of water, at 10 m³/h (1 bar by 1000 kg/m³ and standard gravity).
// Law: the head a valve of that Kv takes at the flow is the head it was asked to take.
func TestFlowCoefficientIsTheFlowAtOneBar(t *testing.T) {
	kv := sizing.FlowCoefficient.Eval(sizing.KvInput{Flow: unit.CubicMetresPerHour(10), Head: unit.MetresOfWater(10.1972)})
	assert.InDelta(t, 10, kv.CubicMetresPerHour(), 1e-4)
	rapid.Check(t, func(t *rapid.T) {
		in := sizing.KvInput{
			Flow: unit.LitresPerHour(rapid.Float64Range(10, 1e5).Draw(t, "flow")), Head: unit.Head(rapid.Float64Range(1e-3, 20).Draw(t, "head")),
		}
		back := tree.KvLoss.Eval(tree.KvInput{Flow: in.Flow, Kv: sizing.FlowCoefficient.Eval(in)})
		assert.InEpsilon(t, in.Head.Metres(), back.Metres(), 1e-12)
	})
}

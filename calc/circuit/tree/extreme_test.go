package tree_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// wild makes the numbers of a circuit span what the checks let pass.
func (d *drawer) wild(c *tree.Circuit) {
	power := func(lo, hi float64) float64 { return math.Pow(10, d.between(lo, hi)) }
	run := func() tree.Hose {
		bore := power(-3, 0)
		made, err := pipe.NewRun(pipe.Spec{
			Length: unit.Metres(power(-3, 4)), Bore: unit.Metres(bore), Wall: pipe.Smooth,
			Roughness: unit.Metres(bore * power(-8, -1.31)), OtherK: power(-3, 6),
		})
		require.NoError(d.t, err)
		return tree.Hose{Name: d.name("wild"), Run: made}
	}
	for _, b := range []*tree.Branch{&c.Intake, &c.Delivery} {
		b.Parts = append(b.Parts, run(), tree.Valve{Name: d.name("valve"), Kv: unit.CubicMetresPerHour(power(-4, 4))})
		if fork, ok := b.End.(tree.Fork); ok {
			for i := range fork {
				fork[i].Parts = append(fork[i].Parts, run())
				if _, ok := fork[i].End.(tree.Surface); ok {
					fork[i].End = tree.Surface{Level: unit.Metres(d.between(-1, 1) * power(-6, 2))}
				}
			}
		}
	}
}

// Whatever passes the checks ends, and never with a number that is not one.
func TestExtremeCircuitsEndInNumbersOrFindings(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := &drawer{dice: rapidDice{t}, t: t}
		c := d.circuit()
		d.wild(&c)
		n, err := tree.New(c)
		require.NoError(t, err)
		s, found := n.Assess(nil, tree.Conditions{Water: water.At(nil, 15), Due: true})
		if s == nil {
			require.NotEmpty(t, found)
			assert.NotEqual(t, "NOT_CALCULABLE", found[0].Code)
			return
		}
		assert.Less(t, s.Steps, 10*mostSteps)
		for _, p := range s.Parts {
			for _, x := range []float64{float64(p.Flow), float64(p.Lost), float64(p.Before), float64(p.Velocity)} {
				assert.False(t, math.IsNaN(x) || math.IsInf(x, 0), "%s: %g", p.Part, x)
			}
		}
	})
}

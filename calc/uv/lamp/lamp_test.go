package lamp_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/lamp"
)

// EPA UV Disinfection Guidance Manual 2006, table 2.1 (from memory): 35 to 38 % of lamp power for low pressure, 30 to
// 35 % for amalgam, here less a tenth for the ballast. Small lamps: 0.20 to 0.28 of wall power over 5 to 18 W, assumed.
func TestEfficiency(t *testing.T) {
	eta := func(w float64, amalgam bool) float64 {
		return lamp.Efficiency.Run(nil, lamp.EfficiencyInput{WallPower: unit.Watts(w), Amalgam: amalgam, BallastLoss: lamp.BallastLoss}).Float()
	}
	assert.InDelta(t, 0.20, eta(5, false), 1e-12)
	assert.InDelta(t, 0.28, eta(18, false), 1e-12)
	assert.InDelta(t, 0.315, eta(55, false), 1e-12)
	assert.InDelta(t, 0.297, eta(200, true), 1e-12)
	assert.InDelta(t, 0.20, eta(3, false), 1e-12)
	// A magnetic ballast that keeps 0.20 leaves eight ninths of what one that keeps 0.10 does.
	magnetic := lamp.Efficiency.Run(nil, lamp.EfficiencyInput{WallPower: unit.Watts(55), BallastLoss: 0.20})
	assert.InDelta(t, 0.315*8/9, magnetic.Float(), 1e-12)
	assert.NotEmpty(t, lamp.Efficiency.Outside(lamp.EfficiencyInput{WallPower: 3}))
	assert.Empty(t, lamp.Efficiency.Outside(lamp.EfficiencyInput{WallPower: 5}))
}

// UFGS 11376, note to the designer: a bank of 5100 uW/cm² for 7 s gives 35.7 mJ/cm² new, and 0.65 of that, 23.2, at the
// end of the lamps' life.
func TestAgedToTheEndOfLife(t *testing.T) {
	left := lamp.Aged.Run(nil, lamp.AgedInput{NewOutput: unit.Watts(35.7), Age: 1, EndShare: lamp.EndOfLifeShare})
	assert.InDelta(t, 23.2, left.Watts(), 0.05)
	assert.InDelta(t, 23.205, left.Watts(), 1e-12)
	assert.NotEmpty(t, lamp.Aged.Outside(lamp.AgedInput{Age: 1.2}))
}

// NWRI 2012 (from memory): the default product of ageing 0.5 and fouling 0.8 is 0.4.
func TestFoulingAndAgeingMultiply(t *testing.T) {
	aged := lamp.Aged.Run(nil, lamp.AgedInput{NewOutput: 1, Age: 1, EndShare: 0.5})
	assert.InDelta(t, 0.4, lamp.ThroughFouling.Run(nil, lamp.LossInput{Output: aged, Share: lamp.Fouling}).Watts(), 1e-12)
}

func TestLightOnlyFallsOnItsWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := lamp.EfficiencyInput{
			WallPower: unit.Watts(rapid.Float64Range(0.1, 1000).Draw(t, "w")), Amalgam: rapid.Bool().Draw(t, "amalgam"),
			BallastLoss: unit.Ratio(rapid.Float64Range(0, 0.3).Draw(t, "b")),
		}
		eta := lamp.Efficiency.Run(nil, in)
		larger := in
		larger.WallPower *= 1.1
		more := lamp.Efficiency.Run(nil, larger)
		assert.LessOrEqual(t, float64(eta), float64(more), "a larger lamp is not less efficient")

		n := rapid.IntRange(1, 20).Draw(t, "n")
		p := lamp.NewOutput.Run(nil, lamp.NewOutputInput{Count: n, WallPower: in.WallPower, Efficiency: eta})
		assert.Less(t, p.Watts(), 0.4*float64(n)*in.WallPower.Watts())
		x := unit.Ratio(rapid.Float64Range(0, 0.9).Draw(t, "x"))
		now := lamp.Aged.Run(nil, lamp.AgedInput{NewOutput: p, Age: x, EndShare: lamp.EndOfLifeShare})
		later := lamp.Aged.Run(nil, lamp.AgedInput{NewOutput: p, Age: x + 0.1, EndShare: lamp.EndOfLifeShare})
		assert.Less(t, later.Watts(), now.Watts())
		inside := lamp.ThroughSleeve.Run(nil, lamp.LossInput{Output: now, Share: lamp.CleanSleeve})
		assert.InEpsilon(t, 0.9*now.Watts(), inside.Watts(), 1e-12)
	})
}

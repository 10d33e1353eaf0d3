package treat_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/treat"
	"example.com/pondwright/calc/unit"
)

// Keepers' pages give 2 to 7 parts of thiosulphate crystals to one of chlorine (a thread of a pond forum, read in an excerpt; so does
// common practice). Two moles to one of Cl₂ are 7.0 by weight; a quarter of a mole, the least chemistry needs, is 0.88.
func ExampleThiosulphate() {
	for _, way := range []unit.Ratio{treat.ToSulphate, treat.ToTetrathionate} {
		m := treat.Thiosulphate.Eval(treat.ThiosulphateInput{Chlorine: unit.Grams(1), PerMole: way})
		fmt.Printf("%.2f g\n", m.Grams())
	}
	// Output:
	// 0.88 g
	// 7.00 g
}

// Molar masses in g as chemical suppliers print them, from memory: Na₂S₂O₃·5H₂O 248.18, Cl₂ 70.90, N 14.007. Printed to 0.01.
func TestMolarMasses(t *testing.T) {
	per := treat.Thiosulphate.Eval(treat.ThiosulphateInput{Chlorine: unit.Grams(70.90), PerMole: 1}).Grams()
	assert.InDelta(t, 248.18, per, 0.01)
	left := treat.AmmoniaLeft.Eval(treat.ChloramineInput{Chlorine: unit.MilligramsPerLitre(70.90)}).MilligramsPerLitre()
	assert.InDelta(t, 14.007, left, 0.001)
}

// Water with 0.5 mg/L as a tenth of a pond brings it to 0.05 mg/L: the figures of a koi keepers' page (koifishponds.com/chlorine.htm, read).
func TestATenthOfTapWater(t *testing.T) {
	made := treat.Filling{Volume: unit.Litres(1000), Chlorine: unit.MilligramsPerLitre(0.5), Chloramine: true}.Of(nil)
	assert.InDelta(t, 0.05, made.Tenth.MilligramsPerLitre(), 1e-12)
	assert.InDelta(t, 0.5, made.Chlorine.Grams(), 1e-12)
	assert.Greater(t, made.AmmoniaLeft.MilligramsPerLitre(), 0.09)
	assert.Len(t, made.Findings, 2)
}

// 1 kg of salt in 1,000 L is 0.1 %: by definition, and the ready reckoner of the trade.
func TestSaltOfAThousandLitres(t *testing.T) {
	assert.InDelta(t, 1, treat.MassInWater.Eval(treat.MassInput{Volume: unit.Litres(1000), Concentration: unit.KilogramsPerCubicMetre(1)}).Kilograms(), 1e-12)
}

func TestWaterWithoutChlorineNeedsNothing(t *testing.T) {
	assert.Equal(t, treat.Treatment{}, treat.Filling{Volume: unit.Litres(1000)}.Of(nil))
}

// Mixing lies between what is mixed, and keeps the mass.
func TestLawsOfMixing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		in := treat.MixedInput{
			Share: unit.Ratio(rapid.Float64Range(0, 1).Draw(t, "share")), New: unit.Concentration(rapid.Float64Range(0, 1).Draw(t, "new")),
			Old: unit.Concentration(rapid.Float64Range(0, 1).Draw(t, "old")),
		}
		c := treat.Mixed.Eval(in)
		assert.LessOrEqual(t, float64(min(in.New, in.Old)), float64(c)+1e-15)
		assert.GreaterOrEqual(t, float64(max(in.New, in.Old)), float64(c)-1e-15)
		back := treat.Mixed.Eval(treat.MixedInput{Share: 1 - in.Share, New: in.Old, Old: in.New})
		assert.InDelta(t, float64(c), float64(back), 1e-15)
	})
}

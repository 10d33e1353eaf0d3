package pipe_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// Reference: Colebrook's equation solved with mpmath to 40 digits; column f_ref follows the same laminar and transition
// rule. Ten digits are printed, so the tolerance is half of the last one.
func TestFrictionFactorIsExactColebrook(t *testing.T) {
	for _, row := range reftest.Table(t, "hydraulics/friction_colebrook_grid.csv") {
		got := pipe.FrictionFactor.Eval(pipe.FactorInput{
			Reynolds: row.Float("Re"), RelativeRoughness: unit.Ratio(row.Float("eD")),
		})
		assert.InEpsilon(t, row.Float("f_ref"), got, 6e-10, "Re %s, ε/D %s", row.Text("Re"), row.Text("eD"))
	}
}

// Law: head, which goes with f Re², rises strictly with flow over the whole range, transition included.
func TestHeadAlwaysRisesWithFlow(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		re := math.Pow(10, rapid.Float64Range(0, 7).Draw(t, "log Re"))
		rough := unit.Ratio(rapid.Float64Range(0, 0.05).Draw(t, "ε/D"))
		more := re * (1 + math.Pow(10, rapid.Float64Range(-6, 0).Draw(t, "log step")))
		for _, f := range []func(pipe.FactorInput) float64{pipe.FrictionFactor.Eval, pipe.CorrugatedFactor.Eval} {
			less := f(pipe.FactorInput{Reynolds: re, RelativeRoughness: rough}) * re * re
			assert.Greater(t, f(pipe.FactorInput{Reynolds: more, RelativeRoughness: rough})*more*more, less)
		}
	})
}

// Law: the bridge between laminar and turbulent has no step at its ends.
func TestTransitionIsContinuous(t *testing.T) {
	for _, end := range []float64{2000, 4000} {
		for _, rough := range []unit.Ratio{0, 0.001, 0.05} {
			below := pipe.FrictionFactor.Eval(pipe.FactorInput{Reynolds: end * (1 - 1e-9), RelativeRoughness: rough})
			above := pipe.FrictionFactor.Eval(pipe.FactorInput{Reynolds: end * (1 + 1e-9), RelativeRoughness: rough})
			assert.InEpsilon(t, below, above, 1e-7, "at Re %g", end)
		}
	}
}

// Source: Y. A. Çengel and J. M. Cimbala, Fluid Mechanics, head loss in a 2 in stainless steel pipe: 200 ft, 0.2 ft³/s of
// water at 60 °F, ε 0.000007 ft: Re 126 400, f 0.0174, h 27.3 ft (inputs and answers from memory). The viscosity is the
// book's 1.225e-5 ft²/s (0.76e-3 lb/(ft s) by 62.36 lb/ft³, rounded); tolerances are half of the last printed digit, but
// for Re, which the book rounds to four digits.
func ExampleFrictionLoss() {
	const foot = 0.3048
	bore := unit.Feet(2.0 / 12)
	v := pipe.Velocity.Eval(pipe.VelocityInput{Flow: unit.CubicMetresPerSecond(0.2 * foot * foot * foot), Bore: bore})
	f := pipe.FrictionFactor.Eval(pipe.FactorInput{Reynolds: 126400, RelativeRoughness: 0.000042})
	h := pipe.FrictionLoss.Eval(pipe.FrictionInput{Factor: f, Length: unit.Feet(200), Bore: bore, Velocity: v})
	fmt.Printf("f = %.4f, h = %.1f ft\n", f, h.Metres()/foot)
	// Output: f = 0.0174, h = 27.3 ft
}

// Source: E. Maurer, documentation of the R package hydraulics, example 1: 20 in pipe of 10 560 ft, 4 ft³/s, ks 0.0005 ft,
// f 0.0173, head loss 5.72 ft (read). The example takes g as 32.2 ft/s², hence the factor before printing.
func ExampleFrictionFactor() {
	f := pipe.FrictionFactor.Eval(pipe.FactorInput{Reynolds: 248624.7, RelativeRoughness: 0.0005 / (20.0 / 12)})
	v := pipe.Velocity.Eval(pipe.VelocityInput{
		Flow: unit.CubicMetresPerSecond(4 * 0.3048 * 0.3048 * 0.3048), Bore: unit.Inches(20),
	})
	h := pipe.FrictionLoss.Eval(pipe.FrictionInput{Factor: f, Length: unit.Feet(10560), Bore: unit.Inches(20), Velocity: v})
	const g = 32.2 * 0.3048
	fmt.Printf("f = %.4f, h = %.2f ft\n", f, h.Metres()/0.3048*water.Gravity/g)
	// Output: f = 0.0173, h = 5.72 ft
}

// Source: E. Maurer, documentation of the R package hydraulics, section 6: 3884 ft of 20 in pipe, ks 0.0005 ft, viscosity
// 1.23e-5 ft²/s, loses 0.16 ft for 1 ft³/s (read).
func ExampleReynolds() {
	bore, footCubed := unit.Inches(20), 0.3048*0.3048*0.3048
	v := pipe.Velocity.Eval(pipe.VelocityInput{Flow: unit.CubicMetresPerSecond(footCubed), Bore: bore})
	re := pipe.Reynolds.Eval(pipe.ReynoldsInput{Velocity: v, Bore: bore, Viscosity: unit.KinematicViscosity(1.23e-5 * 0.3048 * 0.3048)})
	f := pipe.FrictionFactor.Eval(pipe.FactorInput{Reynolds: re, RelativeRoughness: 0.0005 / (20.0 / 12)})
	h := pipe.FrictionLoss.Eval(pipe.FrictionInput{Factor: f, Length: unit.Feet(3884), Bore: bore, Velocity: v})
	fmt.Printf("%.2f ft\n", h.Metres()/0.3048)
	// Output: 0.16 ft
}

func BenchmarkFrictionFactor(b *testing.B) {
	b.ReportAllocs()
	re := 3e4
	for b.Loop() {
		re += pipe.FrictionFactor.Eval(pipe.FactorInput{Reynolds: re, RelativeRoughness: 3e-4})
	}
}

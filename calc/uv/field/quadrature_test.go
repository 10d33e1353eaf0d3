package field

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/unit"
)

// Values by scipy.integrate.quad, printed to 10 digits; definition as Abramowitz & Stegun 1964, section 27.4 (from memory).
// 16 points along the lamp are good for 1e-9.
func TestSievertIntegral(t *testing.T) {
	angles := map[string]float64{
		"F_10deg": 10, "F_30deg": 30, "F_45deg": 45, "F_60deg": 60, "F_75deg": 75, "F_85deg": 85, "F_89deg": 89,
	}
	for _, row := range reftest.Table(t, "uv/sievert_integral.csv") {
		for column, deg := range angles {
			F, _ := along.sievert(math.Tan(deg*math.Pi/180), row.Float("b"))
			assert.InDelta(t, row.Float(column), F, 1e-9, "b %s %s", row.Text("b"), column)
		}
	}
}

// Without absorption F is the arc tangent, and G its integral.
func TestSievertWithoutAbsorption(t *testing.T) {
	for _, X := range []float64{-30, -0.2, 0, 1e-6, 0.5, 3, 80} {
		F, G := along.sievert(X, 0)
		assert.InDelta(t, math.Atan(X), F, 1e-9, "F(%g)", X) // 16 points over asinh 80 = 5.1
		assert.InDelta(t, X*math.Atan(X)-math.Log1p(X*X)/2, G, 1e-8, "G(%g)", X)
	}
}

// The averages move by less than 1e-6 when the rules get five times the points, anywhere in the bounds the package is
// used in: this is the quadrature error stated in the documentation.
func TestRulesHaveEnoughPoints(t *testing.T) {
	coarseAcross, coarseAlong := across, along
	t.Cleanup(func() { across, along = coarseAcross, coarseAlong })
	fineAcross, fineAlong := legendre(100), legendre(100)

	rapid.Check(t, func(t *rapid.T) {
		c := anyChamber(t)
		across, along = coarseAcross, coarseAlong
		line, careful := lineSourceAverage(c), carefulAverage(c)
		across, along = fineAcross, fineAlong
		assert.InEpsilon(t, float64(lineSourceAverage(c)), float64(line), 1e-6)
		assert.InEpsilon(t, float64(carefulAverage(c)), float64(careful), 1e-6)
	})
}

func anyChamber(t *rapid.T) Chamber {
	rs := rapid.Float64Range(0.0025, 0.05).Draw(t, "rs")
	T := rapid.OneOf(rapid.Just(1.0), rapid.Float64Range(0.01, 1)).Draw(t, "T")
	return Chamber{
		Output:        unit.Watts(rapid.Float64Range(0.1, 500).Draw(t, "P")),
		ArcLength:     unit.Metres(rapid.Float64Range(0.02, 2).Draw(t, "L")),
		ChamberLength: unit.Metres(rapid.Float64Range(0.02, 3).Draw(t, "H")),
		SleeveRadius:  unit.Metres(rs),
		ChamberRadius: unit.Metres(rs * rapid.Float64Range(1.05, 10).Draw(t, "R/rs")),
		Absorption:    absorption(AbsorptionInput{Transmittance: unit.Ratio(T), Path: unit.Millimetres(10)}),
	}
}

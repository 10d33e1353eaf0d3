package fill_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/fill"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// By hand.
func TestByMeter(t *testing.T) {
	trail := new(working.Trail)
	e, err := fill.ByMeter(trail, unit.CubicMetres(1204.35), unit.CubicMetres(1213.85), unit.Percent(5))
	require.NoError(t, err)
	assert.InDelta(t, 9500, e.Expected.Litres(), 1e-6)
	assert.InDelta(t, 9025, e.Low.Litres(), 1e-6)
	assert.InDelta(t, 9975, e.High.Litres(), 1e-6)
	assert.Len(t, trail.Steps(), 1)
}

// By hand: 18 L/min for 9 h 15 min.
func TestByTime(t *testing.T) {
	e, err := fill.ByTime(nil, unit.LitresPerMinute(18), unit.Hours(9.25), unit.Percent(10))
	require.NoError(t, err)
	assert.InDelta(t, 9990, e.Expected.Litres(), 1e-9)
	back := fill.FillTime.Eval(fill.TimeInput{Volume: e.Expected, Flow: unit.LitresPerMinute(18)})
	assert.InDelta(t, 9.25, back.Hours(), 1e-12)
}

// By hand: 10 kg of salt raises 10 m³ by 1 g/L. Readings good to 0.05 g/L and a scale good to 1 %:
// √(0.01² + 2·0.05²) = 0.07141.
func TestBySalt(t *testing.T) {
	e, err := fill.BySalt(nil, fill.Salting{
		Mass: 10, Purity: 1, Before: unit.KilogramsPerCubicMetre(0.3), After: unit.KilogramsPerCubicMetre(1.3),
		MassOff: unit.Percent(1), ReadingOff: unit.KilogramsPerCubicMetre(0.05),
	})
	require.NoError(t, err)
	assert.InDelta(t, 10, e.Expected.CubicMetres(), 1e-9)
	assert.InDelta(t, 0.7141, (e.High - e.Expected).CubicMetres(), 5e-5)
	require.Len(t, e.Findings, 1)
}

// First-order propagation against the spread that trying both ends of each error gives: the worst of all is no more than
// the sum of the three, and the estimate lies between the largest one and that.
func TestSaltUncertaintyLiesBetweenOneErrorAndAll(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		um := rapid.Float64Range(0, 0.05).Draw(t, "scale")
		uc := rapid.Float64Range(0, 0.05).Draw(t, "meter")
		u := fill.SaltUncertainty.Eval(fill.UncertaintyInput{
			Mass: unit.Ratio(um), Reading: unit.KilogramsPerCubicMetre(uc), After: unit.KilogramsPerCubicMetre(1),
		}).Float()
		assert.GreaterOrEqual(t, u, max(um, uc)*(1-1e-12))
		assert.LessOrEqual(t, u, (um+2*uc)*(1+1e-12))
	})
}

func TestFillRefuses(t *testing.T) {
	var errs input.Errors
	_, err := fill.ByMeter(nil, 5, 4, 0)
	require.ErrorContains(t, err, "after_m3: the reading after filling, 4 m³, is not above")
	_, err = fill.ByMeter(nil, unit.Volume(math.NaN()), -1, 2)
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 3)
	_, err = fill.ByTime(nil, 0, unit.Time(math.Inf(1)), 0)
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 2)
	_, err = fill.BySalt(nil, fill.Salting{})
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 2)
	_, err = fill.BySalt(nil, fill.Salting{Mass: 1, Purity: 1, Before: 1, After: 1.1, ReadingOff: 0.06})
	require.ErrorContains(t, err, "does not stand out")
	_, err = fill.BySalt(nil, fill.Salting{Mass: 1, Purity: 1, Before: 1, After: 1})
	require.ErrorContains(t, err, "does not stand out")
}

func TestCompare(t *testing.T) {
	estimate := func(low, expected, high float64, how string) fill.Estimate {
		return fill.Estimate{Low: unit.Litres(low), Expected: unit.Litres(expected), High: unit.Litres(high), How: how}
	}
	measured := estimate(9000, 9500, 10000, "by the water meter")
	f, err := fill.Compare(estimate(9900, 10500, 11100, ""), measured)
	require.NoError(t, err)
	assert.Equal(t, "VOLUMES_AGREE", f.Code)
	f, err = fill.Compare(estimate(12000, 12350, 12700, ""), measured)
	require.NoError(t, err)
	assert.Equal(t, "DRAWN_VOLUME_WRONG", f.Code)
	assert.Equal(t, "The drawing says 12,350 L, 30 % more than the 9,500 L found by the water meter.", f.Sentence)
	f, err = fill.Compare(estimate(7500, 7600, 7700, ""), measured)
	require.NoError(t, err)
	assert.InDelta(t, 20, f.Value.Number, 1e-9)
	assert.Contains(t, f.Sentence, "20 % less")
	_, err = fill.Compare(estimate(0, 0, 0, ""), measured)
	require.ErrorContains(t, err, "drawn.expected_m3")
}

func TestFormulasAreNamedAfterThePackage(t *testing.T) {
	for _, f := range fill.Formulas() {
		assert.True(t, strings.HasPrefix(f.Describe().ID, "fill."), f.Describe().ID)
	}
}

package ode_test

import (
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/ode"
)

var tight = ode.Tolerance{Relative: 1e-10, Absolute: 1e-12}

func oscillator(_ float64, y, dy []float64) { dy[0], dy[1] = y[1], -y[0] }

func logistic(_ float64, y, dy []float64) { dy[0] = y[0] * (1 - y[0]) }

// Three closed forms. A tolerance is met a step; over some hundred steps of a system that neither grows nor damps its
// errors they add up to some hundred times as much.
func TestSolveAgainstClosedForms(t *testing.T) {
	y := []float64{1, 0}
	require.NoError(t, ode.Solve(oscillator, y, 0, 20, tight, nil))
	assert.InDelta(t, math.Cos(20), y[0], 1e-8)
	assert.InDelta(t, -math.Sin(20), y[1], 1e-8)

	y = []float64{0.01}
	require.NoError(t, ode.Solve(logistic, y, 0, 8, tight, nil))
	assert.InDelta(t, 1/(1+99*math.Exp(-8)), y[0], 1e-8)

	y = []float64{0}
	forced := func(t float64, y, dy []float64) { dy[0] = math.Cos(t) - y[0] }
	require.NoError(t, ode.Solve(forced, y, 1, 6, tight, nil))
	exact := func(t float64) float64 { return (math.Cos(t) + math.Sin(t)) / 2 }
	assert.InDelta(t, exact(6)-exact(1)*math.Exp(-5), y[0], 1e-8)
}

// A tenth of the tolerance must bring the error down by nearly as much: error goes with the tolerance, to the power 0.8
// or better for a pair of orders 5 and 4.
func TestErrorFollowsTheTolerance(t *testing.T) {
	miss := func(tol float64) float64 {
		y := []float64{1, 0}
		require.NoError(t, ode.Solve(oscillator, y, 0, 10, ode.Tolerance{Relative: tol, Absolute: tol}, nil))
		return math.Hypot(y[0]-math.Cos(10), y[1]+math.Sin(10))
	}
	coarse, fine := miss(1e-5), miss(1e-9)
	assert.Less(t, coarse, 1e-3)
	assert.Greater(t, math.Log10(coarse/fine), 0.8*4)
}

// A front that comes after a long calm: steps have grown, and the first ones that meet it must be thrown away. Its closed
// form is tanh; ten tolerances are left for the steps that carry it.
func TestAFrontAfterACalmIsNotRunOver(t *testing.T) {
	front := func(t float64, _, dy []float64) { dy[0] = 5 / math.Pow(math.Cosh(5*(t-6)), 2) }
	y := []float64{math.Tanh(-30)}
	require.NoError(t, ode.Solve(front, y, 0, 7, ode.Tolerance{Relative: 1e-7, Absolute: 1e-7}, nil))
	assert.InDelta(t, math.Tanh(5), y[0], 1e-6)
}

// The interpolant is of fourth order: within a step it misses the solution by no more than a few hundred tolerances here.
func TestStepsInterpolate(t *testing.T) {
	y, steps, at := []float64{1, 0}, 0, 0.0
	err := ode.Solve(oscillator, y, 0, 10, ode.Tolerance{Relative: 1e-8, Absolute: 1e-8}, func(s *ode.Step) error {
		steps++
		assert.Equal(t, at, s.From)
		at = s.To
		for _, part := range []float64{0, 0.3, 0.7, 1} {
			when := s.From + part*(s.To-s.From)
			assert.InDelta(t, math.Cos(when), s.At(when, 0), 2e-6)
		}
		assert.InDelta(t, s.Start(1), s.At(s.From, 1), 1e-15)
		assert.InDelta(t, s.State(1), s.At(s.To, 1), 1e-15)
		return nil
	})
	require.NoError(t, err)
	assert.Equal(t, 10.0, at)
	assert.Less(t, steps, 200)
}

func TestSolveKeepsWhatIsConserved(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		rate := rapid.Float64Range(0.01, 50).Draw(t, "rate")
		back := rapid.Float64Range(0, 50).Draw(t, "back")
		y := []float64{rapid.Float64Range(0, 10).Draw(t, "a"), rapid.Float64Range(0, 10).Draw(t, "b")}
		total := y[0] + y[1]
		exchange := func(_ float64, y, dy []float64) {
			dy[0] = back*y[1] - rate*y[0]
			dy[1] = -dy[0]
		}
		require.NoError(t, ode.Solve(exchange, y, 0, 3, tight, nil))
		assert.InDelta(t, total, y[0]+y[1], 1e-12*(1+total))
		end := total * back / (rate + back)
		if (rate+back)*3 > 40 { // e^-40 of the start is left
			assert.InDelta(t, end, y[0], 1e-8*(1+total))
		}
	})
}

func TestSolveRefusesWhatItCannotDo(t *testing.T) {
	y := []float64{1}
	assert.ErrorContains(t, ode.Solve(logistic, y, 1, 0, tight, nil), "from 1 to 0")
	assert.Error(t, ode.Solve(logistic, y, 0, math.Inf(1), tight, nil))
	assert.Error(t, ode.Solve(logistic, y, 0, 1, ode.Tolerance{}, nil))
	require.NoError(t, ode.Solve(logistic, y, 3, 3, tight, nil))
	assert.Equal(t, []float64{1}, y)

	blowUp := func(_ float64, y, dy []float64) { dy[0] = y[0] * y[0] } // 1/(1 - t) ends at t = 1
	assert.ErrorIs(t, ode.Solve(blowUp, y, 0, 2, tight, nil), ode.ErrStepTooSmall)
	undefined := func(_ float64, _, dy []float64) { dy[0] = math.NaN() }
	assert.Error(t, ode.Solve(undefined, []float64{1}, 0, 1, tight, nil))
}

// Whoever looks on can end it: the state is that of the step it was ended at.
func TestSolveEndsWhenToldTo(t *testing.T) {
	enough, steps, at := errors.New("enough"), 0, 0.0
	y := []float64{1, 0}
	err := ode.Solve(oscillator, y, 0, 20, tight, func(s *ode.Step) error {
		at = s.To
		if steps++; steps == 3 {
			return enough
		}
		return nil
	})
	assert.ErrorIs(t, err, enough)
	assert.Equal(t, 3, steps)
	assert.InDelta(t, math.Cos(at), y[0], 1e-8)
}

func BenchmarkSolve(b *testing.B) {
	y := make([]float64, 2)
	b.ReportAllocs()
	for b.Loop() {
		y[0], y[1] = 1, 0
		_ = ode.Solve(oscillator, y, 0, 20, ode.Tolerance{Relative: 1e-8, Absolute: 1e-8}, nil)
	}
}

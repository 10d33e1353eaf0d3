package stream_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/stream"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// discharge is the flow by Manning's law in a section.
func discharge(s stream.Section, slope unit.Ratio, n unit.ManningCoefficient) float64 {
	v := stream.Manning.Eval(stream.ManningInput{Radius: s.Radius, Slope: slope, Roughness: n})
	return v.MetresPerSecond() * s.Area.SquareMetres()
}

// Source: E. Maurer, documentation of the R package hydraulics, page manningt: a trapezoid 3 m wide, banks 2 in 1, 1.83 m
// deep, n 0.013, slope 0.0005, carries 22.19996 m³/s (read).
func ExampleTrapezoid() {
	s := stream.Trapezoid.Eval(stream.TrapezoidInput{Bed: 3, Side: 2, Depth: 1.83})
	fmt.Printf("%.5f m³/s\n", discharge(s, 0.0005, 0.013))
	// Output: 22.19996 m³/s
}

// Source: the same, page manningc: a pipe of 0.6 m, 0.24 m deep, n 0.013, slope 1 in 400, carries 0.1034572 m³/s (read).
func ExampleRoundSection() {
	s := stream.RoundSection.Eval(stream.RoundInput{Bore: 0.6, Depth: 0.24})
	fmt.Printf("%.7f m³/s\n", discharge(s, 1.0/400, 0.013))
	// Output: 0.1034572 m³/s
}

// Source: V. M. Ponce, San Diego State University, CIVE 530, solutions of two examinations (read): channels 6 m wide and
// 1.6 m deep, 32.91 m³/s, and 5 m wide and 0.8 m deep, 9.548 m³/s, both with n 0.015 and slope 0.0025. Both answers
// are printed to four digits and lie 0.03 and 0.01 % off their own equation, as hand calculations do: two units of the last.
func TestManningMeetsTheExaminations(t *testing.T) {
	for _, c := range []struct{ bed, depth, want, unitOfLast float64 }{{6, 1.6, 32.91, 0.01}, {5, 0.8, 9.548, 0.001}} {
		s := stream.Trapezoid.Eval(stream.TrapezoidInput{Bed: unit.Metres(c.bed), Depth: unit.Metres(c.depth)})
		assert.InDelta(t, c.want, discharge(s, 0.0025, 0.015), 2*c.unitOfLast)
	}
}

// Source: Flow of Fluids TP-410, 2009, example 7-26, as reworked in the python fluids documentation (read): a cast iron pipe
// of 24 in, two thirds full, falling 3/4 in a foot, relative roughness 0.00036 of four hydraulic radii, carries 24,500 US
// gallons a minute. The handbook reads its friction factor in the fully turbulent range, hence no viscosity here.
func ExampleRoughPipe() {
	bore, slope := unit.Inches(24), unit.Ratio(0.75/12)
	s := stream.RoundSection.Eval(stream.RoundInput{Bore: bore, Depth: bore * 2 / 3})
	v := stream.RoughPipe.Eval(stream.RoughPipeInput{Radius: s.Radius, Slope: slope, Roughness: 0.00036 * 4 * s.Radius})
	fmt.Printf("%.3g US gal/min\n", v.MetresPerSecond()*s.Area.SquareMetres()/unit.USGallonsPerMinute(1).CubicMetresPerSecond())
	// Output: 2.45e+04 US gal/min
}

// Reference: normal depth by scipy's brentq on python3-fluids' V_Manning, ten digits printed.
func TestNormalDepthMeetsTheTable(t *testing.T) {
	for _, row := range reftest.Table(t, "hydraulics/manning_channel.csv") {
		n := unit.ManningCoefficient(row.Float("n"))
		r := stream.Reach{
			Length: 7, Bed: unit.Metres(row.Float("b_m")), Side: unit.Ratio(row.Float("z")), Slope: unit.Ratio(row.Float("slope")),
			N: stream.Coefficients{Low: n, Usual: n, High: n},
		}
		run, _, err := r.Run(nil, unit.CubicMetresPerHour(row.Float("Q_m3_h")))
		require.NoError(t, err)
		assert.InEpsilon(t, row.Float("y_mm"), run.Depth.Usual.Millimetres(), 1e-9)
		assert.InEpsilon(t, row.Float("V_m_s"), run.Velocity.MetresPerSecond(), 1e-9)
		assert.InEpsilon(t, row.Float("Froude"), run.Froude, 1e-9)
		assert.InEpsilon(t, row.Float("storage_L_per_m"), run.Held.Usual.Litres()/7, 1e-9)
	}
}

// Source: V. T. Chow, Open-Channel Hydraulics 1959, table 5-6, as carried by the python fluids library, each row as printed.
func TestBedsMeetChow(t *testing.T) {
	printed := map[stream.Coefficients]bool{}
	for _, row := range reftest.Table(t, "hydraulics/manning_n.csv") {
		printed[stream.Coefficients{
			Low: unit.ManningCoefficient(row.Float("n_min")), Usual: unit.ManningCoefficient(row.Float("n_normal")), High: unit.ManningCoefficient(row.Float("n_max")),
		}] = true
	}
	seen := map[string]bool{}
	for _, b := range stream.Beds() {
		assert.True(t, printed[b.N], b.ID)
		assert.False(t, seen[b.ID], b.ID)
		seen[b.ID] = true
		got, ok := stream.BedByID(b.ID)
		assert.True(t, ok)
		assert.Equal(t, b, got)
	}
	_, ok := stream.BedByID("lava")
	assert.False(t, ok)
}

func TestShallowWaterOverStonesIsARange(t *testing.T) {
	gravel, _ := stream.BedByID("gravel")
	r := stream.Reach{Length: 6, Bed: 0.45, Side: 1, Slope: 0.02, N: gravel.N}
	smooth, found, err := r.Run(nil, unit.LitresPerHour(4000))
	require.NoError(t, err)
	for _, f := range found {
		assert.NotEqual(t, "SHALLOW_OVER_STONES", f.Code)
	}
	r.Stone = unit.Millimetres(40)
	trail := new(working.Trail)
	stony, found, err := r.Run(trail, unit.LitresPerHour(4000))
	require.NoError(t, err)
	require.NotEmpty(t, found)
	assert.Equal(t, "SHALLOW_OVER_STONES", found[0].Code)
	assert.Greater(t, stony.Depth.Low, smooth.Depth.High)
	assert.Less(t, stony.Held.Low, stony.Held.Usual)
	assert.Less(t, stony.Held.Usual, stony.Held.High)
	require.NotEmpty(t, trail.Steps())
	for _, s := range trail.Steps() {
		assert.True(t, s.Replay())
	}
	steep := stream.Reach{Length: 6, Bed: 0.45, Slope: 0.2, N: gravel.N}
	_, found, err = steep.Run(nil, unit.LitresPerHour(9000))
	require.NoError(t, err)
	require.Len(t, found, 1)
	assert.Equal(t, "STREAM_SHOOTS", found[0].Code)
}

// Laws: more flow never less depth, a rougher bed never less depth.
func TestMoreFlowOrRoughnessMoreDepth(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		r := stream.Reach{
			Length: 1, Bed: unit.Metres(rapid.Float64Range(0.05, 3).Draw(t, "bed")), Side: unit.Ratio(rapid.Float64Range(0, 4).Draw(t, "side")),
			Slope: unit.Ratio(rapid.Float64Range(0.001, 0.5).Draw(t, "slope")), N: stream.Coefficients{Low: 0.02, Usual: 0.03, High: 0.05},
		}
		q := unit.LitresPerHour(math.Pow(10, rapid.Float64Range(1, 6).Draw(t, "log flow")))
		run, _, err := r.Run(nil, q)
		require.NoError(t, err)
		more, _, err := r.Run(nil, q*1.01)
		require.NoError(t, err)
		assert.Greater(t, more.Depth.Usual, run.Depth.Usual)
		assert.Greater(t, run.Depth.High, run.Depth.Usual)
		assert.Greater(t, run.Depth.Usual, run.Depth.Low)
		s := stream.Trapezoid.Eval(stream.TrapezoidInput{Bed: r.Bed, Side: r.Side, Depth: run.Depth.Usual})
		assert.InEpsilon(t, q.CubicMetresPerSecond(), discharge(s, r.Slope, r.N.Usual), 1e-12)
	})
}

func TestReachNamesEveryFault(t *testing.T) {
	_, _, err := stream.Reach{Side: -1, Slope: 2, Stone: -1, N: stream.Coefficients{Low: 1, Usual: 0}}.Run(nil, unit.Flow(math.NaN()))
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	var fields []string
	for _, e := range errs {
		fields = append(fields, e.Field)
	}
	assert.Equal(t, []string{"flow_l_per_h", "length_m", "side", "slope", "stone_m", "n"}, fields)
	_, _, err = stream.Reach{Length: 1, Slope: 0.1, N: stream.Coefficients{Low: 0.02, Usual: 0.03, High: 0.05}}.Run(nil, 1)
	assert.ErrorContains(t, err, "without width")
}

func BenchmarkReach(b *testing.B) {
	r := stream.Reach{Length: 6, Bed: 0.45, Side: 1, Slope: 0.02, N: stream.Coefficients{Low: 0.022, Usual: 0.025, High: 0.03}}
	b.ReportAllocs()
	for b.Loop() {
		if _, _, err := r.Run(nil, unit.LitresPerHour(4000)); err != nil {
			b.Fatal(err)
		}
	}
}

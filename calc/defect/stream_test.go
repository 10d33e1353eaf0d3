package defect_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/defect"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// mixed is a catalogue with every kind of defect in it.
func mixed(n int) []defect.Curve {
	r := rand.New(rand.NewPCG(seed, 9))
	all := soundCurves(r, n)
	kinds := plants()
	var curves []defect.Curve
	for i := range all {
		if i > 100 && r.Float64() < 0.3 {
			if c := all[i].clone(); kinds[r.IntN(len(kinds))].put(r, &c, all[:i]) {
				all[i] = c
			}
		}
		curves = append(curves, all[i].curve())
	}
	return curves
}

// Law: a stream that is cut and taken up again gives what it would have given in one piece.
func TestAStreamTakenUpAgainGivesTheSame(t *testing.T) {
	curves := mixed(3000)
	whole := defect.NewChecker(usual())
	first, second := defect.NewChecker(usual()), defect.NewChecker(usual())
	var want, got []defect.Result
	for i := range slices.Collect(slices.Chunk(curves, 250)) {
		batch := curves[i*250 : (i+1)*250]
		want = append(want, whole.Check(batch)...)
		if i < 5 {
			got = append(got, first.Check(batch)...)
			continue
		}
		if i == 5 {
			require.NoError(t, second.Restore(first.State()))
			assert.Equal(t, 1250, second.Checked())
		}
		got = append(got, second.Check(batch)...)
	}
	require.Len(t, got, len(want))
	for i := range want {
		assert.Equal(t, want[i].Defects, got[i].Defects)
		if want[i].Repair == nil {
			assert.Nil(t, got[i].Repair)
			continue
		}
		assert.Equal(t, fmt.Sprintf("%+v", *want[i].Repair), fmt.Sprintf("%+v", *got[i].Repair)) // as text, in which NaN is NaN
	}
	assert.Equal(t, whole.Review(), second.Review())
}

func TestAStateFromElsewhereIsRefused(t *testing.T) {
	c := defect.NewChecker(usual())
	c.Check(mixed(300))
	for name, spoil := range map[string]func(*defect.State){
		"place":   func(s *defect.State) { s.Place = -1 },
		"bins":    func(s *defect.State) { s.Catalogue.Merits = s.Catalogue.Merits[1:] },
		"counts":  func(s *defect.State) { s.Catalogue.Speeds[3] = -1 },
		"code":    func(s *defect.State) { s.Counts.Defects["NO_SUCH_CODE"] = 1 },
		"imprint": func(s *defect.State) { s.Imprints[0].Head = float32(math.NaN()) },
		"numbers": func(s *defect.State) { s.Numbers[1] = s.Numbers[0] },
		"cover":   func(s *defect.State) { s.Counts.Cover = nil },
		"least":   func(s *defect.State) { s.Counts.Least[0] = math.NaN() },
	} {
		s := c.State()
		spoil(&s)
		assert.Error(t, defect.NewChecker(usual()).Restore(s), name)
	}
	assert.NoError(t, defect.NewChecker(usual()).Restore(c.State()))
}

// Whatever the numbers are: no panic, no NaN in a finding, every finding with a code that is listed, a sentence and a confidence.
func TestAnyNumbersGiveSensibleFindings(t *testing.T) {
	anything := rapid.OneOf(rapid.Float64(), rapid.Float64Range(0, 20), rapid.Float64Range(0, 1e5), rapid.SampledFrom([]float64{0, math.NaN(), math.Inf(1), -1, 1e300, 5e-324}))
	rapid.Check(t, func(t *rapid.T) {
		c := defect.NewChecker(usual())
		var curves []defect.Curve
		for range rapid.IntRange(1, 4).Draw(t, "curves") {
			curve := defect.Curve{
				Number: rapid.StringN(0, 4, 8).Draw(t, "number"), Power: unit.Power(anything.Draw(t, "power")), AtShaft: rapid.Bool().Draw(t, "shaft"),
				LabelFlow: unit.Flow(anything.Draw(t, "label flow")), LabelHead: unit.Head(anything.Draw(t, "label head")),
			}
			point := rapid.Custom(func(t *rapid.T) pump.Point {
				return pump.Point{Flow: unit.LitresPerHour(anything.Draw(t, "q")), Head: unit.Head(anything.Draw(t, "h")), Power: unit.Power(anything.Draw(t, "p"))}
			})
			curve.Points = rapid.SliceOfN(point, 0, 14).Draw(t, "points")
			curve.Measured = rapid.SliceOfN(point, 0, 3).Draw(t, "measured")
			curves = append(curves, curve)
		}
		for _, r := range c.Check(curves) {
			for _, d := range r.Defects {
				_, known := defect.Codes()[d.Code]
				assert.True(t, known, d.Code)
				assert.True(t, d.Confidence > 0 && d.Confidence <= 1, "%s %g", d.Code, d.Confidence)
				assert.NotContains(t, d.Sentence, "NaN")
				assert.True(t, strings.HasSuffix(d.Sentence, "."), d.Sentence)
				for _, e := range d.Evidence {
					assert.False(t, math.IsNaN(e.Value.Number), "%s: %s", d.Code, e.Name)
				}
			}
		}
		v := c.Review()
		assert.Equal(t, len(curves), v.Curves)
		assert.Equal(t, v.Curves, v.Sound+v.Notes+v.Cautions+v.Stops)
	})
}

func TestResultsKeepTheOrder(t *testing.T) {
	c := defect.NewChecker(usual())
	place := 0
	for batch := range slices.Chunk(mixed(500), 37) {
		for _, r := range c.Check(batch) {
			assert.Equal(t, place, r.Place)
			place++
		}
	}
	assert.Equal(t, 500, place)
}

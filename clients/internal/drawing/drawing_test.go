package drawing

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// square is an invented bay of 4 by 3 m with a shelf, measured from a peg that is not its corner.
func square() Plan {
	return Plan{Title: "Plan <of> a bay", Outline: []Point{{1, 1}, {5, 1}, {5, 4}, {1, 4}}, Depth: 1,
		Bank: []BankPoint{{0, 0}, {0, 0.3}, {0.4, 0.3}, {0.6, 1}}}
}

func cutOpen() Section {
	return Section{Title: "Section", Length: 4, Depth: 1, Bank: []BankPoint{{0, 0}, {0, 0.3}, {0.4, 0.3}, {0.6, 1}}, Freeboard: 0.1,
		Pump: &Intake{0.85, "pump"}, WinterPump: &Intake{0.3, "pump in <winter>"}, Fall: []float64{0.4, 0.3}}
}

func wellFormed(t *testing.T, d Drawing) string {
	t.Helper()
	svg := string(d.SVG("one"))
	assert.NotContains(t, svg, "style=")
	assert.NotContains(t, svg, "\x00")
	assert.NotContains(t, svg, "<winter>")
	for decoder := xml.NewDecoder(strings.NewReader(svg)); ; {
		_, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			return svg
		}
		require.NoError(t, err)
	}
}

// Reference: SVG 2, section 5.8, and WAI-ARIA 1.2: an image has a name and a description.
func TestDrawingsAreNamedAndAlwaysTheSame(t *testing.T) {
	plan, err := square().Draw()
	require.NoError(t, err)
	section, err := cutOpen().Draw()
	require.NoError(t, err)
	for _, d := range []Drawing{plan, section} {
		svg := wellFormed(t, d)
		assert.Contains(t, svg, `role="img" aria-labelledby="one-title one-desc"`)
		assert.NotEmpty(t, d.Sentence)
		assert.NotEmpty(t, d.Table.Rows)
	}
	again, err := square().Draw()
	require.NoError(t, err)
	assert.Equal(t, plan, again)
	assert.Len(t, plan.Table.Rows, 4)
	assert.Equal(t, []string{"2", "5.00", "1.00", "4.00"}, plan.Table.Rows[1])
}

// An arrow that points anywhere but north would be worse than none.
func TestNorthIsDrawnOnlyWhereItIsKnown(t *testing.T) {
	plan := square()
	without, err := plan.Draw()
	require.NoError(t, err)
	assert.NotContains(t, string(without.SVG("one")), `class="north"`)
	assert.Contains(t, without.Sentence, "Which way north lies was not given.")
	plan.North = new(90.0) // up is east, so north is to the left
	with, err := plan.Draw()
	require.NoError(t, err)
	assert.Contains(t, string(with.SVG("one")), `class="north" transform="rotate(-90 `)
}

func TestContoursAndSoundingsAreDrawnWhereTheyWereTaken(t *testing.T) {
	plan := square()
	plan.Bank = nil
	plan.Contours = []Contour{{Depth: 0.5, Line: []Point{{2, 2}, {4, 2}, {3, 3}}}}
	plan.Soundings = []Sounding{{At: Point{3, 2.5}, Depth: 1}}
	plan.Places = []Place{{Name: "return", At: Point{1, 2}}}
	d, err := plan.Draw()
	require.NoError(t, err)
	svg := wellFormed(t, d)
	assert.Contains(t, svg, `class="contour"`)
	assert.Contains(t, svg, `class="sounding"`)
	assert.Contains(t, svg, "A  return")
	assert.NotContains(t, svg, `class="band"`)
}

func TestWhatCannotBeDrawnIsRefused(t *testing.T) {
	_, err := Plan{Title: "none"}.Draw()
	require.ErrorIs(t, err, ErrNothing)
	_, err = Section{Title: "none"}.Draw()
	require.ErrorIs(t, err, ErrNothing)
	bad := square()
	bad.Outline[0].X = math.NaN()
	_, err = bad.Draw()
	require.Error(t, err)
	worse := cutOpen()
	worse.Bank[1].Run = math.Inf(1)
	_, err = worse.Draw()
	require.Error(t, err)
}

var lengthLine = regexp.MustCompile(`<line class="dimension length" x1="([\d.]+)" y1="[\d.]+" x2="([\d.]+)"`)

// Whatever the size of the pond, a scale rule reads its length, and the drawing fits on the paper.
func TestAnyPondIsDrawnToItsScale(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		length := rapid.Float64Range(0.5, 300).Draw(r, "length")
		depth := rapid.Float64Range(0.1, 6).Draw(r, "depth")
		fall := rapid.Float64Range(0, 8).Draw(r, "fall")
		s := Section{Title: "any", Length: length, Depth: depth, Freeboard: rapid.Float64Range(0, 1).Draw(r, "freeboard")}
		if fall > 0.05 {
			s.Fall = []float64{fall}
		}
		d, err := s.Draw()
		if err != nil {
			r.Fatal(err)
		}
		match := lengthLine.FindStringSubmatch(string(d.SVG("x")))
		x1, _ := strconv.ParseFloat(match[1], 64)
		x2, _ := strconv.ParseFloat(match[2], 64)
		// Each end is written to a hundredth of a millimetre.
		if off := math.Abs((x2-x1)*d.Scale/1000 - length); off > 0.01*d.Scale/1000*(1+1e-9) {
			r.Fatalf("%g m are drawn as %g mm at 1:%g", length, x2-x1, d.Scale)
		}
		if d.width > 180 || d.height > 245 || x2 > d.width {
			r.Fatalf("%g by %g mm do not fit", d.width, d.height)
		}
	})
}

// Scales and bars are of round numbers, as on a scale rule: 1, 2 and 5 times a power of ten.
func TestStepsAreRound(t *testing.T) {
	for in, want := range map[float64]float64{0.9: 0.5, 1: 1, 1.9: 1, 2: 2, 4.99: 2, 5: 5, 36: 20, 0.036: 0.02} {
		assert.InEpsilon(t, want, niceBelow(in), 1e-12, fmt.Sprint(in))
	}
}

package survey_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/survey"
)

func feetAndInches(feet, inches int) string { return fmt.Sprintf("%d ft %d in", feet, inches) }

// One pond of 4 x 3 m written down in five ways, with the units mixed; 1 ft is 304.8 mm.
func TestReadNotes(t *testing.T) {
	tests := map[string]string{
		"two pegs":     "two pegs, 4 m # along the terrace\n\n0 m, 4 m\n4 m, 0 m\n5 m, 300 cm\n3 m, 5000 mm\n",
		"running ties": "Running ties, 400 cm\n0-1, 5 m, 3 m\n0 - 2, 3 m, 4 m\ncheck 1-3, 5 m",
		"string line":  "string line\n0 m, 150 cm, 1.5 m\n4 m, 1.5 m, 1.5 m",
		"points":       "points\n0, 0\n13 ft 1.48031496063 in, 0\n4 m, 9 ft 10.1102362205 in\n0, 3 m",
		"in feet":      "points\nin feet\n0, 0\n13.1233595801, 0\n4 m, 9.84251968504\n0, 3 m",
	}
	for name, text := range tests {
		s, err := survey.ReadNotes(nil, text)
		require.NoError(t, err, name)
		plan, err := outline.MeasurePlan(nil, s.Outline)
		require.NoError(t, err, name)
		assert.InDelta(t, 12, plan.Area.SquareMetres(), 1e-9, name)
	}
}

func TestNotesAreProved(t *testing.T) {
	s, err := survey.ReadNotes(nil, "smooth points\n2 m, 0\n0, 2 m\n-2 m, 0\n0, -2 m\ncheck 0-2, 4 m\ncheck 1-3, 13 ft 7 in")
	require.NoError(t, err)
	require.Len(t, s.Findings, 2)
	assert.Equal(t, "SURVEY_DOES_NOT_PROVE", s.Findings[1].Code)
	assert.Contains(t, s.Findings[1].Sentence, "tape says 4.140 m and the survey 4.000 m")
}

// Each refusal says the line of the notes.
func TestReadNotesRefuses(t *testing.T) {
	tests := []struct{ text, saying string }{
		{"", "do not say how the survey was made"},
		{"paced, 4 m", `line 1: "paced" is no way`},
		{"two pegs", "line 1: there should be 1 lengths, and there are 0"},
		{"two pegs, 4", "line 1: \"4\" may be 4 m, 4 ft"},
		{"two pegs, 4 m\n# gate\n1 m, 2 m\n5 m, 3 m\n3 m, 5 m", "line 3: tapes of 1 m and 2 m do not reach"},
		{"two pegs, 4 m\n5 m, 3 m, behind\n", "line 2: there should be 2 lengths, and there are 3"},
		{"string line\n0, 1 m, 1 m\n2 m, 1 m, 1 m\n1 m, 1 m, 1 m", "line 4: offset 2 at 1 m does not come after"},
		{"running ties, 4 m\nfirst, 5 m, 3 m", `line 2: "first" is no pair`},
		{"points\n0, 0\n4 m, 3 m\n4 m, 0\n0, 3 m", "line 4: the outline crosses"},
		{"points\nin cubits", `line 2: "cubits" is no unit`},
		{"points\n0, 0\n4 m, 0\n4 m, 3 m\ncheck 0-7, 3 m", "line 5: 3 m from point 0 to point 7"},
		{"points\n0, 0\n4 m, 0\n4 m, 3 m\ncheck 0-1", "line 5: there should be 1"},
	}
	for _, test := range tests {
		_, err := survey.ReadNotes(nil, test.text)
		var errs input.Errors
		require.ErrorAs(t, err, &errs, test.text)
		assert.Contains(t, errs.Error(), test.saying)
	}
	_, err := survey.ReadNotes(nil, "points\n4, 3\n5, 6 parsecs\n")
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Len(t, errs, 4, "everything at once")
}

// A crossing names the measurement that it comes from.
func TestACrossingNamesTheMeasurement(t *testing.T) {
	shot := func(a, b float64) survey.Shot { return survey.Shot{FromA: m(a), FromB: m(b)} }
	_, err := survey.TwoPegs(nil, m(4), []survey.Shot{shot(3, 5), shot(5.1, 5), shot(5, 3), shot(5, 5.1)})
	var errs input.Errors
	require.ErrorAs(t, err, &errs)
	assert.Equal(t, "shots[2]", errs[0].Field)
	_, _, err = survey.StringLine(nil, []survey.Offset{
		{Along: 0, Left: m(1)}, {Along: m(1), Left: m(5), Right: m(-4.99999995)}, {Along: m(2), Left: m(1)}, {Along: m(3), Left: m(9), Right: m(-0.5)},
	})
	require.ErrorAs(t, err, &errs)
	assert.Contains(t, errs[0].Field, "offsets[")
}

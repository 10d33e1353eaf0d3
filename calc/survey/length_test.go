package survey_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"example.com/pondwright/calc/survey"
)

// Lengths in millimetres by the inch of 25.4 mm (international yard and pound agreement, 1959).
func TestParseLength(t *testing.T) {
	tests := map[string]float64{
		"3.4 m": 3400, "3.4m": 3400, " 45 cm ": 450, "450 mm": 450, "0": 0, "0 ft": 0, "-0.4 m": -400, "- 6 in": -152.4,
		"12 ft 3 in": 3733.8, "12' 3\"": 3733.8, "12'3''": 3733.8, "12′ 3″": 3733.8, "12ft. 3in.": 3733.8, "2 yd 1 ft 6 in": 2286,
		"3½ in": 88.9, "5 3/4 in": 146.05, "3/4\"": 19.05, "12' 3½\"": 3746.5, "12 ft 3 1/2 in": 3746.5, "3 m 40 cm": 3400,
		"1 metre": 1000, "2 feet 6 inches": 762, "½ m": 500, "6.5 ft": 1981.2, ".5 m": 500,
	}
	for text, want := range tests {
		got, err := survey.ParseLength(text)
		require.NoError(t, err, text)
		assert.InDelta(t, want, got.Millimetres(), 1e-9, text)
	}
}

func TestParseLengthRefuses(t *testing.T) {
	tests := map[string]string{
		"":                 "is no length",
		"12":               "may be 12 m, 12 ft or another unit",
		"3 m 40":           "ends in 40 without a unit",
		"3,4 m":            "has a comma",
		"1,200 mm":         "has a comma",
		"12 ft 13 in":      "has 13 in after a number of ft",
		"3 m 140 cm":       "has 140 cm after",
		"3 in 12 ft":       "has 12 ft after a number of in",
		"3 m 2 ft":         "has 2 ft after a number of m",
		"3 m 2 m":          "after a number of m",
		"12 gallons":       `no unit of length in "gallons"`,
		"three metres":     "no number before",
		"m":                "no number before",
		"3..4 m":           "no number",
		"1e3 m":            "no unit of length",
		"4/3 in":           "no proper fraction in 4/3",
		"1/0 in":           "no proper fraction",
		"3.5½ in":          "no unit of length",
		"99999999999 m":    "no number",
		"NaN m":            "no number before",
		"3 m*":             "no number before",
		"--3 m":            "no number before",
		"1.5 3/4 in":       "",
		"\"":               "no number before",
		"12 ft\n3 furlong": `no unit of length in "furlong"`,
	}
	for text, saying := range tests {
		_, err := survey.ParseLength(text)
		require.Error(t, err, text)
		assert.Contains(t, err.Error(), saying, text)
		assert.Contains(t, err.Error(), "write", "every refusal says what to write instead")
	}
}

// What is written in one unit is read as in another.
func TestParseLengthOfWhatIsWritten(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		feet, inches := rapid.IntRange(0, 300).Draw(t, "feet"), rapid.IntRange(0, 11).Draw(t, "inches")
		got, err := survey.ParseLength(feetAndInches(feet, inches))
		require.NoError(t, err)
		assert.InDelta(t, float64(12*feet+inches)*0.0254, got.Metres(), 1e-12)
	})
}

func FuzzParseLength(f *testing.F) {
	for _, seed := range []string{"12 ft 3 1/2 in", "3.4 m", "-0.4m", "½", "12'3''", "1/2/3 in", "5 3/ in"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		l, err := survey.ParseLength(text)
		if err != nil {
			return
		}
		assert.False(t, math.IsNaN(l.Metres()))
		assert.LessOrEqual(t, math.Abs(l.Metres()), 2e7)
		_, err = survey.ReadNotes(nil, "points\n"+text)
		require.Error(t, err, "one length is no survey")
	})
}

package kill_test

import (
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/calc/internal/reftest"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/uv/kill"
)

// The rows that carry the verdicts, as printed in the abstracts.
func TestKeyResponses(t *testing.T) {
	stop, ok := kill.Find("microcystis-growth-stop")
	require.True(t, ok)
	assert.InDelta(t, 37, stop.Low.MillijoulesPerSquareCentimetre(), 1e-12)
	assert.Equal(t, kill.GrowthHeld, stop.Outcome)
	assert.Equal(t, source.BinAlam2001, stop.Source)

	green, ok := kill.Find("green-not-suppressed")
	require.True(t, ok)
	assert.Equal(t, kill.GreenAlgae, green.Group)
	assert.Equal(t, kill.NoEffect, green.Outcome)
	assert.InDelta(t, 20, green.Low.MillijoulesPerSquareCentimetre(), 1e-12)
	assert.InDelta(t, 200, green.High.MillijoulesPerSquareCentimetre(), 1e-12)

	_, ok = kill.Find("no-such-row")
	assert.False(t, ok)
}

// Every algae and germ row with one number in the reference tables stands in the registry with that dose and reduction.
func TestResponsesHoldTheReferenceRows(t *testing.T) {
	type effect struct{ dose, log10 string }
	have := map[effect]bool{}
	for _, r := range kill.Responses() {
		for _, d := range []float64{r.Low.MillijoulesPerSquareCentimetre(), r.High.MillijoulesPerSquareCentimetre()} {
			have[effect{format(d), format(r.Log10.Float())}] = true
		}
	}
	rows := append(reftest.Table(t, "uv/algae_doses.csv"), reftest.Table(t, "uv/microbe_doses.csv")...)
	checked := 0
	for _, row := range rows {
		text := row.Text("dose_mJ_per_cm2")
		if skipped(row) {
			continue
		}
		log10 := "0"
		if s := row.Text("log10_reduction"); s != "" {
			log10 = format(row.Float("log10_reduction"))
		}
		for _, d := range strings.Split(text, "-") {
			checked++
			assert.True(t, have[effect{normal(t, d), log10}], "%s at %s", row.Text("organism"), d)
		}
	}
	require.Greater(t, checked, 40)
}

// skipped leaves out what is no response: standards and habits, ratios, a dose with a result nobody read, a study that
// gives only an upper bound, and the old lists without a source.
func skipped(row reftest.Row) bool {
	switch row.Text("group") {
	case "standard", "guide", "practice", "ratio":
		return true
	}
	return row.Text("dose_mJ_per_cm2") == "" || strings.HasPrefix(row.Text("dose_mJ_per_cm2"), "up to") ||
		strings.Contains(row.Text("effect"), "result not in the part read") || strings.Contains(row.Text("effect"), "do not use")
}

func normal(t *testing.T, s string) string {
	v, err := strconv.ParseFloat(s, 64)
	require.NoError(t, err)
	return format(v)
}

func format(v float64) string { return strconv.FormatFloat(v, 'g', 6, 64) }

func TestResponsesAreWellFormed(t *testing.T) {
	seen := map[string]bool{}
	for _, r := range kill.Responses() {
		assert.False(t, seen[r.Key], "key %s twice", r.Key)
		seen[r.Key] = true
		assert.NotEmpty(t, r.Organism, r.Key)
		assert.NotEmpty(t, r.Group.String(), r.Key)
		assert.NotZero(t, r.Outcome, r.Key)
		assert.Positive(t, float64(r.Low), r.Key)
		assert.LessOrEqual(t, float64(r.Low), float64(r.High), r.Key)
		assert.NotEmpty(t, r.Source.Citation, r.Key)
	}
}

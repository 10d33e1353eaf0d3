package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// work runs the program with the engine inside it.
func work(t *testing.T, args ...string) outcome {
	t.Helper()
	var out, errs bytes.Buffer
	code := run(t.Context(), args, env{Out: &out, Err: &errs, Width: 80, Embed: embed})
	return outcome{code, out.String(), errs.String()}
}

const koiBrief, patioBrief = "../../testdata/briefs/koi.yaml", "../../testdata/briefs/patio.yaml"

func TestAFileIsNotWrittenOver(t *testing.T) {
	file := filepath.Join(t.TempDir(), "job.csv")
	require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
	got := work(t, "--quantities", file, koiBrief)
	assert.Equal(t, exitInput, got.code)
	assert.Contains(t, got.err, "job.csv exists; give another name, or --replace to write over it")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, "mine", string(text))
	got = work(t, "--replace", "--quantities", file, koiBrief)
	assert.Equal(t, exitFeasible, got.code, got.err)
	text, err = os.ReadFile(file)
	require.NoError(t, err)
	assert.Contains(t, string(text), "what,quantity,unit,note\r\n")
	assert.Equal(t, "Written: "+file+", "+strconv.Itoa(len(text))+" bytes.\n", got.err, "and no bar where nobody watches")
}

func TestOptionsThatDoNotGoTogether(t *testing.T) {
	for says, args := range map[string][]string{
		"are asked one at a time":          {"--beside", patioBrief, "--visit", "v.yaml", koiBrief},
		"--again takes no brief":           {"--again", "job.json", koiBrief},
		"are of one plan":                  {"--beside", patioBrief, "--plan", "job.json", koiBrief},
		"is named twice":                   {"--plan", "job.x", "--page", "job.x", koiBrief},
		"is no plan that was kept":         {"--again", koiBrief},
		"the plan cannot be read":          {"--again", "no/such.json"},
		"open no/such.yaml":                {"--visit", "no/such.yaml", koiBrief},
		"the brief cannot be read: open x": {"--beside", "x", koiBrief},
	} {
		got := work(t, args...)
		assert.Equal(t, exitInput, got.code, says)
		assert.Contains(t, got.err, says)
		assert.Empty(t, got.out)
	}
}

// A plan that was kept and is asked again under the same engine and catalogues is the same to the last bit; one that was changed by
// hand is found out.
func TestAKeptPlanIsAskedAgain(t *testing.T) {
	file := filepath.Join(t.TempDir(), "job.json")
	require.Equal(t, exitFeasible, work(t, "--plan", file, patioBrief).code)
	got := work(t, "--again", file)
	assert.Equal(t, exitFeasible, got.code, got.err)
	assert.Contains(t, got.out, "The same to the last bit.")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	changed := bytes.Replace(text, []byte(`"length_m": 2.4,`), []byte(`"length_m": 2.5,`), 1)
	require.NotEqual(t, text, changed)
	require.NoError(t, os.WriteFile(file, changed, 0o600))
	got = work(t, "--again", file)
	assert.Contains(t, got.out, "Another question.")
	assert.Contains(t, got.out, "Volume")
}

func TestTwoBriefsSideBySide(t *testing.T) {
	file := filepath.Join(t.TempDir(), "two.html")
	got := work(t, "--beside", patioBrief, "--page", file, koiBrief)
	require.Equal(t, exitFeasible, got.code, got.err)
	assert.Contains(t, got.out, "28,800 L") // 6 by 3 by 1.6 m
	assert.Contains(t, got.out, "1,758 L")  // as the brief of the patio says
	page, err := os.ReadFile(file)
	require.NoError(t, err)
	valid(t, page)
	same := work(t, "--beside", koiBrief, koiBrief)
	assert.Contains(t, same.out, "figures are the same.")
	assert.NotContains(t, same.out, "%")
}

// 12 L in 6.2 s are 6,968 L/h, and the level falls 5 mm more with the fall than without: that is what is told.
func TestAVisitIsHeldAgainstTheDesign(t *testing.T) {
	folder := t.TempDir()
	visit, file := filepath.Join(folder, "visit.yaml"), filepath.Join(folder, "visit.html")
	require.NoError(t, os.WriteFile(visit, []byte("flow: {bucket: {volume_l: 12, time_s: 6.2}}\nlevel: {running_mm_per_day: 9, stopped_mm_per_day: 4}\n"), 0o600))
	got := work(t, "--visit", visit, "--page", file, "../../testdata/briefs/cascade.yaml")
	require.Equal(t, exitFeasible, got.code, got.err)
	assert.Contains(t, got.out, "of the 7,9") // as the clean circuit is calculated
	assert.Contains(t, got.out, "5 mm a day")
	page, err := os.ReadFile(file)
	require.NoError(t, err)
	valid(t, page)
	require.NoError(t, os.WriteFile(visit, []byte("flow: {bucket: {volume_gal: 12, time_s: 6.2}}\n"), 0o600))
	got = work(t, "--visit", visit, koiBrief)
	assert.Equal(t, exitInput, got.code)
	assert.Contains(t, got.err, "visit.yaml:1:")
}

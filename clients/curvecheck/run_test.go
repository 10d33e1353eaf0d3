package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"net"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/builtin"
	"example.com/pondwright/server/engine"
)

// The catalogue plugin of the engine inside is this test binary again.
func TestMain(m *testing.M) {
	if builtin.RunIfAsked(os.Args) {
		return
	}
	os.Exit(m.Run())
}

func check(t *testing.T, args ...string) (code int, out, err string) {
	t.Helper()
	var o, e bytes.Buffer
	code = run(t.Context(), args, env{In: strings.NewReader(""), Out: &o, Err: &e, Embed: embed})
	return code, o.String(), e.String()
}

// Invented pumps, good ones and one of each of some faults.
const (
	sound = "K-1500,20,0,1.6,300,1.51,600,1.29,900,0.96,1200,0.53,1500,0\n" +
		"K-3000,45,0,2.2,600,2.08,1200,1.78,1800,1.32,2400,0.73,3000,0\n" +
		"K-8000,130,0,3.8,1600,3.59,3200,3.07,4800,2.28,6400,1.26,8000,0\n"
	head    = "item,watts,q1,h1,q2,h2,q3,h3,q4,h4,q5,h5,q6,h6\n"
	swapped = "B01,45,2.9,0,2.75,600,2.35,1200,1.74,1800,0.96,2400,0,3100\n"
	digits  = "B08,75,0,3,1000,2.83,2000,4.22,3000,1.8,4000,0.99,5000,0\n"
)

func file(t *testing.T, text string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "curves.csv")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
	return path
}

func TestASoundCataloguePassesInSilence(t *testing.T) {
	code, out, said := check(t, file(t, head+sound))
	assert.Equal(t, exitSound, code, out)
	assert.Contains(t, out, "3 curves, 3 sound")
	assert.Contains(t, said, `column "watts" is power_w`, "the mapping is never silent")
	code, out, _ = check(t, "--held", "*")
	assert.Equal(t, exitSound, code, out)
	assert.Contains(t, out, "sound; 0 with a stop, 0 with a caution, 0 with a note")
}

func TestFaultsAreToldAndEndWithOne(t *testing.T) {
	path := file(t, head+sound+swapped+digits)
	code, out, _ := check(t, path)
	assert.Equal(t, exitFaults, code)
	assert.Contains(t, out, "AXES_SWAPPED")
	assert.Contains(t, out, "4.22 m to 2.42 m, two digits having changed places")
	assert.NotContains(t, out, "K-1500")

	code, out, _ = check(t, "--findings", "csv", path)
	assert.Equal(t, exitFaults, code)
	rows, err := csv.NewReader(strings.NewReader(out)).ReadAll()
	require.NoError(t, err)
	assert.Equal(t, []string{"file", "row", "place", "item_number", "severity", "code", "confidence", "sentence", "change", "repair"}, rows[0])
	assert.Equal(t, []string{"5", "3", "B01", "stop", "AXES_SWAPPED"}, rows[1][1:6])

	code, out, _ = check(t, "--findings", "jsonl", path)
	assert.Equal(t, exitFaults, code)
	lines := strings.Split(strings.TrimSpace(out), "\n")
	for _, l := range lines {
		assert.True(t, json.Valid([]byte(l)), l)
	}
	assert.Contains(t, lines[len(lines)-1], `"review":`)
}

func TestTheExitCodeGoesByTheGravestFinding(t *testing.T) {
	path := file(t, head+strings.Replace(sound, ",1500,0\n", "\n", 1)) // free flow is missing: a note
	for from, want := range map[string]int{"note": exitFaults, "caution": exitSound, "stop": exitSound} {
		code, out, _ := check(t, "--fail-from", from, path)
		assert.Equal(t, want, code, "%s: %s", from, out)
		assert.Contains(t, out, "FREE_FLOW_MISSING")
	}
}

func TestWrongInputEndsWithTwoAndNoEngineWithThree(t *testing.T) {
	for name, args := range map[string][]string{
		"no file":          {"/nowhere/curves.csv"},
		"nothing named":    {},
		"no curves":        {file(t, "colour\nred\n")},
		"empty":            {file(t, "")},
		"unknown grade":    {"--grade", "9Z", file(t, head+sound)},
		"no catalogue":     {"--held", "elsewhere"},
		"bad address":      {"--engine", "here", file(t, head+sound)},
		"repair of stdin":  {"--repair", "-"},
		"a cut off record": {file(t, head+"\"K,1")},
	} {
		code, out, said := check(t, args...)
		assert.Equal(t, exitInput, code, "%s: %s %s", name, out, said)
		assert.NotEmpty(t, said, name)
	}
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	address := l.Addr().String()
	require.NoError(t, l.Close())
	code, _, said := check(t, "--engine", address, file(t, head+sound))
	assert.Equal(t, exitEngine, code, said)
	code, out, _ := check(t, "--help")
	assert.Equal(t, exitSound, code)
	assert.Contains(t, out, "ends with 0")
}

func TestTheCorrectedCopyIsSoundAndNothingIsWrittenOver(t *testing.T) {
	path := file(t, head+sound+swapped+digits)
	code, _, said := check(t, "--repair", path)
	assert.Equal(t, exitFaults, code)
	assert.Contains(t, said, "2 curves corrected")
	corrected := strings.TrimSuffix(path, ".csv") + ".corrected.csv"
	changes, err := os.ReadFile(corrected + ".changes.csv")
	require.NoError(t, err)
	assert.Contains(t, string(changes), "columns of flow and head swapped")
	assert.Equal(t, 3, strings.Count(string(changes), "\n"))
	code, out, _ := check(t, corrected)
	assert.Equal(t, exitSound, code, out)
	code, _, said = check(t, "--repair", path)
	assert.Equal(t, exitInput, code)
	assert.Contains(t, said, "nothing is written over")
	original, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, head+sound+swapped+digits, string(original))
}

func TestThePageShowsEveryFaultyCurve(t *testing.T) {
	dir := t.TempDir()
	page := filepath.Join(dir, "faults.html")
	path := file(t, head+sound+swapped+digits+"<script>,45,0,2,1000,oops,2000,1,3000,0.5,4000,0.2,5000,0\n")
	code, _, _ := check(t, "--report", page, path)
	assert.Equal(t, exitFaults, code)
	text, err := os.ReadFile(page)
	require.NoError(t, err)
	html := string(text)
	assert.Equal(t, 3, strings.Count(html, `<section class="curve"`))
	assert.GreaterOrEqual(t, strings.Count(html, "<svg"), 4)
	assert.NotContains(t, html, "<script>")
	assert.NotContains(t, html, "http://www.w3.org/1999/xlink")
	assert.Contains(t, html, `lang="en"`)
	left, err := os.ReadDir(dir)
	require.NoError(t, err)
	assert.Len(t, left, 1, "nothing but the page is left")
}

// manyCurves is a file of sound curves with every fiftieth swapped.
func manyCurves(t *testing.T, n int) string {
	var b strings.Builder
	b.WriteString("item,flow,head,power\n")
	for i := range n {
		size := 1 + 0.37*float64(i%37) + 0.001*float64(i%1009)
		for k := range 8 {
			x := float64(k) / 7
			uneven := 0.007 * math.Sin(float64(i*7+k*13))
			if k == 0 || k == 7 {
				uneven = 0
			}
			q, h := math.Round(3000*size*x), math.Round(100*(2+0.05*size)*(1-math.Pow(x, 1.5+float64(i%7)/10)+uneven))/100
			if i%50 == 9 {
				q, h = h, q
			}
			fmt.Fprintf(&b, "P%06d,%g,%g,%g\n", i, q, h, math.Round(10*45*size*(0.7+0.3*x))/10)
		}
	}
	return file(t, b.String())
}

// Two engines and an address where none is give what one engine gives, in the same order, but for copies in other blocks.
func TestSeveralEnginesShareTheWork(t *testing.T) {
	path := manyCurves(t, 12000)
	var addresses []string
	for range 2 {
		e, err := engine.New(t.Context(), engine.Config{})
		require.NoError(t, err)
		l, err := net.Listen("tcp", "127.0.0.1:0")
		require.NoError(t, err)
		served := make(chan error, 1)
		go func() { served <- e.Serve(l) }()
		t.Cleanup(func() {
			ctx, cancel := context.WithTimeout(context.Background(), 5*time.Second)
			defer cancel()
			assert.NoError(t, e.Stop(ctx))
			assert.NoError(t, <-served)
		})
		addresses = append(addresses, l.Addr().String())
	}
	dead, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	addresses = append(addresses, dead.Addr().String())
	require.NoError(t, dead.Close())
	swappedOnly := func(out string) (kept []string) {
		for _, l := range strings.Split(out, "\n") {
			if strings.Contains(l, "AXES_SWAPPED") {
				kept = append(kept, strings.Split(l, ",")[3])
			}
		}
		return kept
	}
	_, one, _ := check(t, "--findings", "csv", "--engine", addresses[0], path)
	code, shared, said := check(t, "--findings", "csv", "--engine", strings.Join(addresses, ","), path)
	assert.Equal(t, exitFaults, code, said)
	assert.Len(t, swappedOnly(shared), 240)
	assert.Equal(t, swappedOnly(one), swappedOnly(shared))
	_, text, _ := check(t, "--engine", strings.Join(addresses, ","), path)
	assert.Contains(t, text, "12,000 curves")
}

package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden files anew")

var goldenCases = []struct {
	name, answer string
	args         []string
	code         int
}{
	{"works", "works.json", nil, exitFeasible},
	{"workings", "works.json", []string{"--workings"}, exitFeasible},
	{"misses", "misses.json", nil, exitInfeasible},
}

func TestSheetIsLaidOutAsBefore(t *testing.T) {
	for _, c := range goldenCases {
		for _, width := range []int{40, 60, 80, 120} {
			name := fmt.Sprintf("%s-%d.txt", c.name, width)
			t.Run(name, func(t *testing.T) {
				got := start(t, answering(t, c.answer), func(e *env) { e.Width = width }, c.args...)
				assert.Equal(t, c.code, got.code)
				path := filepath.Join("testdata", name)
				if *update {
					require.NoError(t, os.WriteFile(path, []byte(got.out), 0o644))
				}
				want, err := os.ReadFile(path)
				require.NoError(t, err)
				assert.Equal(t, string(want), got.out)
			})
		}
	}
}

func TestSheetStaysWithinItsWidth(t *testing.T) {
	for _, c := range goldenCases {
		for width := 40; width <= 140; width++ {
			got := start(t, answering(t, c.answer), func(e *env) { e.Width = width }, c.args...)
			for line := range strings.Lines(got.out) {
				line = strings.TrimSuffix(line, "\n")
				require.LessOrEqual(t, ansi.StringWidth(line), width, "%s at %d: %q", c.name, width, line)
				require.Equal(t, strings.TrimRight(line, " "), line)
			}
		}
	}
}

// A page of another width says the same: every word of the answer, whatever the layout.
func TestNoWordIsLostByTheLayout(t *testing.T) {
	for _, c := range goldenCases {
		f := answering(t, c.answer)
		for _, width := range []int{40, 60, 99, 100, 120, 132} {
			out := squeeze(start(t, f, func(e *env) { e.Width = width }, c.args...).out)
			for _, finding := range f.answer.GetFindings() {
				assert.Contains(t, out, squeeze(finding.GetChange()), "at %d", width)
			}
			kits := append(f.answer.GetKits(), f.answer.GetNearestMiss())
			for _, k := range kits {
				assert.Contains(t, out, squeeze(k.GetPump().GetItem().GetItemNumber()), "at %d", width)
				for _, finding := range k.GetFindings() {
					assert.Contains(t, out, squeeze(finding.GetSentence()), "at %d", width)
				}
			}
		}
	}
}

// squeeze leaves out what a layout may put between words, and the capitals it may begin them with.
func squeeze(text string) string { return strings.ToLower(strings.Join(strings.Fields(text), "")) }

func TestColourIsOnlyOnATerminalThatWantsIt(t *testing.T) {
	f := answering(t, "works.json")
	plain := start(t, f, nil)
	assert.NotContains(t, plain.out, "\x1b")

	for _, c := range []struct{ isTerminal, color bool }{{true, false}, {false, true}} {
		got := start(t, f, func(e *env) { e.IsTerminal, e.Color = c.isTerminal, c.color })
		assert.Equal(t, plain.out, got.out)
	}

	coloured := start(t, f, func(e *env) { e.IsTerminal, e.Color = true, true })
	assert.Contains(t, coloured.out, "\x1b[")
	assert.Equal(t, plain.out, trimLines(ansi.Strip(coloured.out)), "colour changes nothing but colour")
}

func trimLines(text string) string {
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = strings.TrimRight(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

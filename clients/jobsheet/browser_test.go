//go:build !race

// Not under the race detector: nothing of what a browser does with a page runs at once with the program.

package main

import (
	"bytes"
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/clients/internal/headless"
)

// Reference: WCAG 2.2, as far as axe-core can tell; success criterion 1.4.10 asks that nothing is cut off in a narrow window.
func TestSheetsAreAccessible(t *testing.T) {
	for _, name := range []string{"cascade", "estate", "koi", "patio", "school", "wildlife"} {
		s := sheetOf(t, "../../testdata/briefs/"+name+".yaml")
		widths := []int{1200}
		if name == "cascade" { // which has every part, so that the others need no narrow window
			assert.LessOrEqual(t, headless.Reflow(t, s.page, 320), 320, name)
			widths = append(widths, 500)
		}
		for _, width := range widths {
			v := headless.Axe(t, s.page, width)
			assert.Empty(t, v.Found, "%s in %d", name, width)
			assert.Greater(t, v.Passed, 15, "axe has looked")
			assert.LessOrEqual(t, v.Wide, v.Window)
		}
	}
}

// On paper: no page is wider than its paper, and none is empty. pdftotext and pdfinfo are of the Debian package poppler-utils.
func TestSheetsPrintOnA4AndLetter(t *testing.T) {
	s := sheetOf(t, "../../testdata/briefs/school.yaml")
	for size, points := range map[string]string{"A4": `59[45]`, "letter": "612"} {
		page := bytes.Replace(s.page, []byte("@page {"), []byte("@page { size: "+size+";"), 1)
		pdf := headless.Print(t, page)
		info, err := exec.Command(headless.Program(t, "pdfinfo"), pdf).Output()
		require.NoError(t, err)
		assert.Regexp(t, `Page size: +`+points, string(info))
		text, err := exec.Command(headless.Program(t, "pdftotext"), "-layout", pdf, "-").Output()
		require.NoError(t, err)
		sheets := strings.Split(strings.TrimSuffix(string(text), "\f"), "\f")
		assert.Greater(t, len(sheets), 8)
		assert.Less(t, len(sheets), 60)
		for i, sheet := range sheets {
			assert.Greater(t, len(strings.Fields(sheet)), 8, "%s: page %d is as good as empty", size, i+1)
		}
	}
}

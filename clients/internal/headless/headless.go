// Package headless shows pages to tests in Chromium: what axe-core finds wrong with them, and how they print. A test that needs a
// program that is not installed is skipped, but fails where PONDWRIGHT_CROSSCHECK is "required".
package headless

import (
	"bytes"
	"encoding/json"
	"fmt"
	"html"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// Missing ends a test for want of a program.
func Missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("PONDWRIGHT_CROSSCHECK") == "required" {
		t.Fatal(what)
	}
	t.Skip(what)
}

// Program finds a program, or ends the test.
func Program(t testing.TB, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		Missing(t, name+" is not installed: apt-get install "+name)
	}
	return path
}

// run starts Chromium with a profile of its own and gives what it prints.
func run(t testing.TB, args ...string) []byte {
	t.Helper()
	common := []string{"--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage", "--user-data-dir=" + t.TempDir()}
	cmd := exec.Command(Program(t, "chromium"), append(common, args...)...)
	var out, errs bytes.Buffer
	cmd.Stdout, cmd.Stderr = &out, &errs
	require.NoError(t, cmd.Run(), errs.String())
	return out.Bytes()
}

// axeFile is installed by npm ci --prefix .tools/axe.
func axeFile() string {
	_, here, _, _ := runtime.Caller(0)
	return filepath.Join(filepath.Dir(here), "../../../.tools/axe/node_modules/axe-core/axe.min.js")
}

var (
	policy = regexp.MustCompile(`<meta http-equiv="Content-Security-Policy"[^>]*>`)
	found  = regexp.MustCompile(`data-axe="([^"]*)"`)
)

// A Verdict is what axe-core says of a page.
type Verdict struct {
	Passed int
	Found  []string
	// Wide is how many CSS pixels the page takes in a window of Window.
	Wide, Window int
}

// Axe holds a page to WCAG 2.0 to 2.2, levels A and AA, and to good practice, as far as a program can, in a window of so many CSS pixels.
// The page's policy, which would keep the check out too, is taken off for it.
// Reference: axe-core, version as in .tools/axe/package-lock.json.
func Axe(t testing.TB, page []byte, width int) Verdict {
	t.Helper()
	script, err := os.ReadFile(axeFile())
	if err != nil {
		Missing(t, "axe-core is not installed: npm ci --prefix .tools/axe")
	}
	text := policy.ReplaceAllString(string(page), "")
	text += "<script>" + string(script) + `</script><script>axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]})
		.then(r => document.documentElement.setAttribute("data-axe", JSON.stringify({Passed: r.passes.length, Wide: document.documentElement.scrollWidth, Window: innerWidth,
		Found: r.violations.map(v => v.id + ": " + v.help + ": " + v.nodes.slice(0, 3).map(n => n.html).join("; "))})))</script>`
	file := filepath.Join(t.TempDir(), "page.html")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	dumped := run(t, "--virtual-time-budget=60000", fmt.Sprintf("--window-size=%d,1200", width), "--dump-dom", "file://"+file)
	match := found.FindSubmatch(dumped)
	require.NotNil(t, match, "axe did not come to an end")
	var v Verdict
	require.NoError(t, json.Unmarshal([]byte(html.UnescapeString(string(match[1]))), &v))
	return v
}

var wide = regexp.MustCompile(`data-wide="(\d+)"`)

// Reflow is how many CSS pixels a page takes in a frame of so many: Chromium has no window narrower than 500.
func Reflow(t testing.TB, page []byte, width int) int {
	t.Helper()
	text := fmt.Sprintf(`<!DOCTYPE html><html lang="en"><title>frame</title><iframe id="f" width="%d" height="900" style="border:0" srcdoc="%s"></iframe><script>
		window.onload = () => document.documentElement.setAttribute("data-wide", document.getElementById("f").contentDocument.documentElement.scrollWidth)</script></html>`,
		width, html.EscapeString(policy.ReplaceAllString(string(page), "")))
	file := filepath.Join(t.TempDir(), "frame.html")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
	match := wide.FindSubmatch(run(t, "--virtual-time-budget=20000", "--dump-dom", "file://"+file))
	require.NotNil(t, match, "the frame was not measured")
	n, err := strconv.Atoi(string(match[1]))
	require.NoError(t, err)
	return n
}

// Print makes a PDF of a page. Paper is what its @page says, or else Letter: put a size into the page for another.
func Print(t testing.TB, page []byte) string {
	t.Helper()
	folder := t.TempDir()
	file, pdf := filepath.Join(folder, "page.html"), filepath.Join(folder, "page.pdf")
	require.NoError(t, os.WriteFile(file, page, 0o600))
	run(t, "--no-pdf-header-footer", "--print-to-pdf="+pdf, "file://"+file)
	return pdf
}

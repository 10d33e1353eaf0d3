package main

import (
	"encoding/json"
	"os"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/clients/internal/headless"
)

// axe is installed by npm ci --prefix .tools/axe.
const axe = "../../.tools/axe/node_modules/axe-core/axe.min.js"

// accessible holds the page, in light and in dark, to WCAG 2.2 AA as far as a program can, and to reflow at 320 CSS pixels, which
// is its success criterion 1.4.10.
// Reference: axe-core, version as in .tools/axe/package-lock.json, its rules of WCAG 2.0 to 2.2, A and AA, and of good practice.
func (w *window) accessible(name string) {
	w.t.Helper()
	script, err := os.ReadFile(axe)
	if err != nil {
		headless.Missing(w.t, "axe-core is not installed: npm ci --prefix .tools/axe")
	}
	for _, scheme := range []string{"light", "dark"} {
		tell(w, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		inPage[int](w, string(script)+"; 0")
		found := get(w, chromedp.Evaluate[string](`axe.run(document, {runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]})
			.then(r => JSON.stringify({rules: r.passes.length, found: r.violations.map(v => v.id + ": " + v.help + " " + v.nodes.map(n => n.html + " " + n.failureSummary).join("; "))}))`,
			chromedp.EvalAwaitPromise))
		var result struct {
			Rules int
			Found []string
		}
		require.NoError(w.t, json.Unmarshal([]byte(found), &result))
		assert.Empty(w.t, result.Found, "%s in %s", name, scheme)
		assert.Greater(w.t, result.Rules, 15, "axe has looked")
	}
	w.keep(name + "-dark")
	tell(w, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{})
	w.reflows(name)
}

// reflows narrows the page to 320 CSS pixels: nothing may stick out to the side.
func (w *window) reflows(name string) {
	w.t.Helper()
	was, high := inPage[int64](w, "innerWidth"), inPage[int64](w, "innerHeight")
	w.size(320, high)
	width := inPage[int64](w, "document.documentElement.scrollWidth")
	w.size(was, high)
	assert.LessOrEqual(w.t, width, int64(320), "%s at 320 pixels", name)
}

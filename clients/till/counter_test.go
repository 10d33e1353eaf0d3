package main

import (
	"bytes"
	"encoding/csv"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/clients/internal/headless"
)

// patio is what a customer says of a small raised pond with goldfish.
var patio = []string{"length", "2.4", "width", "1.5", "depth", "0.55", "fish", "goldfish", "count", "12", "fall", "0.45", "sill", "20", "hose", "3"}

func TestTheCounterFromQuestionToSlipAndBack(t *testing.T) {
	till := startTill(t, startEngine(t))
	for name, width := range map[string]int64{"phone": phoneWidth, "counter": counterWidth} {
		t.Run(name, func(t *testing.T) {
			w := openWindow(t, width, 900)
			w.visit(till)
			w.keep(name + "-form")
			w.accessible(name + "-form")
			w.fill(patio...)
			w.press(".go .button")

			assert.Contains(t, w.text(".said"), "The best kit costs GBP ")
			first := w.text("article.kit")
			for _, says := range []string{"GBP", "Running cost", "Flow, filter clean or due for cleaning", "L/h", "Why it does"} {
				assert.Contains(t, first, says)
			}
			assert.Equal(t, "0.28", w.value("energy"), "the price of electricity was filled in")
			assert.NotZero(t, w.count("article.kit svg.picture"))
			assert.Equal(t, w.count("svg.picture"), w.count("svg.picture[role=img] > title"))
			assert.Contains(t, w.text("section.assumed"), "Taken for granted")
			assert.Contains(t, w.text("main"), "What stops the sets that do not work")
			w.keep(name + "-kits")
			w.accessible(name + "-kits")

			price := regexp.MustCompile(`GBP [\d,.]+`).FindString(first)
			w.press("article.kit .doors a")
			slip := w.text(".slip")
			for _, says := range []string{price, "25 November 2026", "Three cautions", "Mains near water can kill", "drown a child", "Taken for granted", "Depth"} {
				assert.Contains(t, slip, says)
			}
			assert.Equal(t, 3, w.count(".cautions li"))
			code := w.text(".letters")
			w.keep(name + "-slip")
			w.accessible(name + "-slip")

			w.visit(till)
			w.fill("code", strings.ToLower(code))
			w.press(".recall button")
			assert.Equal(t, slip, w.text(".slip"), "the code brings the same design back")

			w.visit(till)
			w.fill("code", "1234-5678")
			w.press(".recall button")
			assert.Contains(t, w.text("#fault-code"), "not a whole code")
			w.accessible(name + "-code")
		})
	}
}

// Behind a pressure filter the water slows as it clogs: both flows are told, and the picture has a point for each.
func TestFlowIsToldCleanAndDue(t *testing.T) {
	w := openWindow(t, counterWidth, 900)
	w.visit(startTill(t, startEngine(t)) + "/check?volume=8000&fish=goldfish&count=12&fall=1.2&sill=30&hose=8&energy=0.28" +
		"&set-pump=demo/PU-1230&set-hose=demo/HO-4050&set-filter=demo/FI-2050&set-lamp=demo/LA-3050")
	kit := w.text("article.kit")
	assert.Contains(t, kit, "Flow, filter clean")
	assert.Contains(t, kit, "Flow, filter due for cleaning")
	assert.Contains(t, kit, "A filter clean: ")
	assert.Contains(t, kit, "B filter due for cleaning: ")
	assert.Contains(t, w.text("article.kit figure:last-of-type"), "filter")
	w.keep("counter-due")
}

// What is wrong stands beside its field, and nothing that was typed is lost.
func TestBadInputIsKeptAndExplained(t *testing.T) {
	w := openWindow(t, phoneWidth, 900)
	w.visit(startTill(t, startEngine(t)))
	w.fill(patio...)
	w.fill("depth", "55", "count", "a dozen", "hose", "3,5")
	w.press(".go .button")
	assert.Contains(t, w.text("#fault-depth"), "from 0.05 to 10 m")
	assert.Contains(t, w.text("#fault-count"), "digits")
	assert.Contains(t, w.text("#fault-hose"), "1.5, not 1,5")
	for name, typed := range map[string]string{"depth": "55", "count": "a dozen", "hose": "3,5", "length": "2.4", "fish": "goldfish"} {
		assert.Equal(t, typed, w.value(name))
	}
	assert.Equal(t, "faults", inPage[string](w, "document.activeElement.id"), "whoever hears the page hears first what is wrong")
	assert.Equal(t, "alert", inPage[string](w, "document.activeElement.getAttribute('role')"))
	assert.Contains(t, inPage[string](w, "document.getElementById(document.querySelector('#depth').getAttribute('aria-describedby').split(' ')[0]).textContent"),
		"from 0.05 to 10")
	w.keep("bad")
	w.accessible("bad")

	w.fill("depth", "0.55", "count", "12", "hose", "3.5")
	w.press(".go .button")
	assert.NotZero(t, w.count("article.kit"))
}

// Where the engine goes away the page says so, keeps what was typed, and goes on when it is back.
func TestTheEngineGoesAndComesBack(t *testing.T) {
	e := startEngine(t)
	w := openWindow(t, phoneWidth, 900)
	w.visit(startTill(t, e))
	w.fill(patio...)
	e.stop()
	w.press(".go .button")
	assert.Contains(t, w.text(".message"), "The engine does not answer")
	assert.Equal(t, "2.4", w.value("length"))
	w.keep("down")
	w.accessible("down")
	w.press(".message .button")
	assert.Contains(t, w.text(".message"), "The engine does not answer", "it is still away")
	e.start()
	for try := 0; w.count("article.kit") == 0; try++ {
		require.Less(t, try, 60, "the engine is back and is not found")
		w.press(".message .button")
	}
	assert.Zero(t, w.count(".message"))
}

// 2.4 m are 7.874 ft, 20 cm are 7.874 in (by the definitions); a price stays what it is.
func TestUnitsAreSwitched(t *testing.T) {
	w := openWindow(t, counterWidth, 900)
	w.visit(startTill(t, startEngine(t)))
	w.fill(patio...)
	w.press("button[name=to][value=uk]")
	assert.Equal(t, "7.874", w.value("length"))
	assert.Equal(t, "7.874", w.value("sill"))
	assert.Equal(t, "0.28", w.value("energy"))
	assert.Equal(t, "12", w.value("count"))
	w.press(".go .button")
	first := w.text("article.kit")
	assert.Contains(t, first, "UK gal/h")
	assert.Contains(t, w.text(".pond"), "UK gal")
	w.keep("counter-gallons")
	w.accessible("counter-gallons")
	flow := regexp.MustCompile(`([\d,]+) UK gal/h`).FindStringSubmatch(first)[1]
	w.press("button[name=to][value=metric]")
	assert.Equal(t, "2.4", w.value("length"))
	metric := regexp.MustCompile(`([\d,]+) L/h`).FindStringSubmatch(w.text("article.kit"))[1]
	assert.InEpsilon(t, 4.54609, digits(t, metric)/digits(t, flow), 0.01, "both are shown to three digits")
}

// shelf is the demo catalogue with one item out of stock, and enough of all others.
func shelf(t *testing.T, number string) string {
	t.Helper()
	folder := t.TempDir()
	require.NoError(t, os.CopyFS(folder, os.DirFS("../../testdata/catalogues/demo")))
	for _, name := range []string{"pumps.csv", "hoses.csv", "filters.csv", "lamp_units.csv"} {
		path := filepath.Join(folder, name)
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		require.NoError(t, err)
		column := slices.Index(rows[0], "in_stock")
		require.NotEqual(t, -1, column)
		for _, row := range rows[1:] {
			row[column] = "5000"
			if row[0] == number {
				row[column] = "0"
			}
		}
		var out bytes.Buffer
		require.NoError(t, csv.NewWriter(&out).WriteAll(rows))
		require.NoError(t, os.WriteFile(path, out.Bytes(), 0o644))
	}
	return folder
}

func TestWhatIsOutOfStockIsSaidAndReplaced(t *testing.T) {
	w := openWindow(t, counterWidth, 900)
	w.visit(startTill(t, startEngine(t)))
	w.fill(patio...)
	w.press(".go .button")
	number := w.text("article.kit .items li:first-child b")

	w.visit(startTill(t, startEngine(t, "--catalogue", "demo="+shelf(t, number))))
	w.fill(patio...)
	w.press(".go .button")
	assert.Contains(t, w.text("article.kit .items li:first-child"), "out of stock")
	w.keep("counter-out")
	w.accessible("counter-out")
	w.press("article.kit .items li:first-child .swap")
	assert.Contains(t, w.text(".said"), "In place of the pump "+number)
	assert.Contains(t, w.text("table.changes"), "Price")
	assert.NotContains(t, w.text("article.kit .items li:first-child"), number)
	w.keep("counter-swap")
	w.accessible("counter-swap")
	w.press("article.kit .doors a")
	assert.NotEmpty(t, w.text(".letters"))

	w.visit(startTill(t, startEngine(t, "--catalogue", "demo="+shelf(t, number))))
	w.fill(patio...)
	w.fill("stock", "shelf")
	w.press(".go .button")
	assert.NotContains(t, w.text("article.kit .items"), number, "only what is in stock was asked for")
}

// A kit that the customer names is judged, and the smallest change that mends it is said.
func TestAKitIsCheckedAndMended(t *testing.T) {
	till := startTill(t, startEngine(t))
	w := openWindow(t, counterWidth, 900)
	w.visit(till + "/check")
	w.press(".go .button")
	assert.Contains(t, w.text("#fault-set-pump"), "Say which pump")
	w.accessible("check-empty")
	w.fill(patio...)
	w.fill("set-pump", "demo/PU-1010", "set-hose", "demo/HO-4010", "set-filter", "demo/FI-2020", "set-lamp", "demo/LA-3020")
	w.do(chromedp.Click(chromedp.CSS("#own-lamp")))
	w.press(".go .button")
	assert.Contains(t, w.text(".said"), "does not work")
	assert.Contains(t, w.text("#mend"), "smallest change")
	w.keep("counter-check")
	w.accessible("counter-check")
	w.press(".why .button")
	assert.Contains(t, w.text(".slip"), "there already")
	assert.NotContains(t, w.text(".slip"), "PU-1010")
}

// What the customer has already stays in every kit and costs nothing, also after the units were switched.
func TestKitIsFoundAroundWhatIsThere(t *testing.T) {
	w := openWindow(t, phoneWidth, 900)
	w.visit(startTill(t, startEngine(t)) + "/check")
	w.fill(patio...)
	w.fill("set-filter", "demo/FI-2130")
	w.do(chromedp.Click(chromedp.CSS("#own-filter")))
	w.press("button[formaction='/kits']")
	for i := range w.count("article.kit") {
		items := w.text("article.kit:nth-of-type(" + strconv.Itoa(i+1) + ") .items")
		assert.Contains(t, items, "FI-2130")
		assert.Contains(t, items, "there already")
	}
	require.NotZero(t, w.count("article.kit"))
	w.keep("phone-around")
	w.accessible("phone-around")
	w.press("button[name=to][value=us]")
	assert.Contains(t, w.text("article.kit .items"), "there already")
	w.do(chromedp.Click(chromedp.CSS("#own-filter")))
	w.press(".go .button")
	assert.NotContains(t, w.text("article.kit .items"), "there already")
}

// Everything is done by keys alone: the form, the search, the slip.
func TestTheKeyboardIsEnough(t *testing.T) {
	w := openWindow(t, counterWidth, 900)
	w.visit(startTill(t, startEngine(t)))
	reach := func(selector string) {
		t.Helper()
		for range 80 {
			w.do(chromedp.KeyEvent(kb.Tab))
			if inPage[bool](w, "document.activeElement.matches('"+selector+"')") {
				assert.NotEqual(t, "none", inPage[string](w, "getComputedStyle(document.activeElement).outlineStyle"), "where the keys are is seen at %s", selector)
				return
			}
		}
		t.Fatalf("no key leads to %s", selector)
	}
	for i := 0; i < len(patio); i += 2 {
		reach("#" + patio[i])
		w.do(chromedp.KeyEvent(patio[i+1]))
	}
	w.leave(chromedp.KeyEvent(kb.Enter))
	require.NotZero(t, w.count("article.kit"), "Enter in a box asks for kit and does not change the units")
	assert.Equal(t, "goldfish", w.value("fish"), "letters choose from a list")
	reach(".doors a")
	w.leave(chromedp.KeyEvent(kb.Enter))
	assert.NotEmpty(t, w.text(".letters"))
}

// Scripts are switched off, and everything but the button that prints is there.
func TestThePageWorksWithoutScripts(t *testing.T) {
	w := openWindow(t, phoneWidth, 900)
	till := startTill(t, startEngine(t))
	tell(w, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	w.visit(till + "/kits?length=2.4&width=1.5&depth=0.55&fish=goldfish&count=12&fall=0.45&sill=20&hose=3")
	w.press("article.kit .doors a")
	assert.NotEmpty(t, w.text(".letters"))
}

// The first load stays under 150 kB, and nothing is asked of anybody else.
func TestTheFirstLoadIsSmallAndStaysAtHome(t *testing.T) {
	w := openWindow(t, phoneWidth, 900)
	till := startTill(t, startEngine(t))
	w.visit(till)
	get(w, chromedp.Poll[bool]("document.readyState === 'complete'"))
	first := w.transferred()
	assert.Positive(t, first)
	assert.Less(t, first, int64(150_000))
	w.fill(patio...)
	w.press(".go .button")
	assert.Less(t, w.transferred()-first, int64(150_000), "and so does the answer")
	t.Logf("first load %d bytes, answer %d bytes", first, w.transferred()-first)
	w.mu.Lock()
	defer w.mu.Unlock()
	for _, address := range w.asked {
		assert.True(t, strings.HasPrefix(address, till), address)
	}
}

func (w *window) transferred() int64 {
	w.mu.Lock()
	defer w.mu.Unlock()
	return w.bytes
}

// On paper the slip has what belongs on it and nothing to press.
func TestTheSlipOnPaper(t *testing.T) {
	w := openWindow(t, counterWidth, 900)
	w.visit(startTill(t, startEngine(t)) + "/kits?length=2.4&width=1.5&depth=0.55&fish=goldfish&count=12&fall=0.45&sill=20&hose=3&energy=0.28")
	w.press("article.kit .doors a")
	code := w.text(".letters")
	pdf := get(w, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize()))
	path := filepath.Join(t.TempDir(), "slip.pdf")
	require.NoError(t, os.WriteFile(path, pdf, 0o644))
	if folder := os.Getenv("PONDWRIGHT_PICTURES"); folder != "" {
		require.NoError(t, os.WriteFile(filepath.Join(folder, "slip.pdf"), pdf, 0o644))
	}
	if _, err := exec.LookPath("pdftotext"); err != nil {
		headless.Missing(t, "pdftotext is not installed: apt-get install poppler-utils")
	}
	out, err := exec.Command("pdftotext", "-layout", path, "-").Output()
	require.NoError(t, err)
	paper := string(out)
	for _, says := range []string{code, "Three cautions", "Running cost", "Taken for granted", "PU-"} {
		assert.Contains(t, paper, says)
	}
	for _, says := range []string{"Find kit", "Back to the kits", "New customer"} {
		assert.NotContains(t, paper, says)
	}
	assert.Equal(t, 1, strings.Count(paper, "\f"), "one sheet of A4")
}

func digits(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(strings.ReplaceAll(text, ",", ""), 64)
	require.NoError(t, err)
	return x
}

package page

import (
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

func TestCleanSpellsOutWhatATerminalWouldObey(t *testing.T) {
	for in, want := range map[string]string{
		"plain text, ü, ³, 🐟":   "plain text, ü, ³, 🐟",
		"one\ntwo\tthree\rfour": "one two three four",
		"\x1b[31mred":           "<U+001B>[31mred",
		"\u009b31m":             "<U+009B>31m",
		"a\x00\x07\x7fb":        "a<U+0000><U+0007><U+007F>b",
		"\u202eback\u2066":      "<U+202E>back<U+2066>",
		"\u200bzero\ufeff":      "<U+200B>zero<U+FEFF>",
		"\ue000private":         "<U+E000>private",
		"bad\xff\xfe":           "bad\ufffd",
		"5\u00a0m":              "5\u00a0m",
	} {
		assert.Equal(t, want, Clean(in), "%q", in)
	}
}

func TestARowHangsBesideItsLabel(t *testing.T) {
	p := New(40, false)
	p.Row("Pump", Plain("A-1, submersible pump with a long description"))
	p.Under(Plain("and more"))
	assert.Equal(t, strings.Join([]string{
		"  Pump            A-1, submersible pump",
		"                  with a long",
		"                  description",
		"                  and more",
		"",
	}, "\n"), p.String())
}

func TestNumbersAndItemNumbersAreNotBroken(t *testing.T) {
	p := New(40, false)
	p.Text(0, Plain("thirty-four letters and then some AA-1234-B comes"))
	p.Text(0, Plain("the water that comes to the fall 7,000\u00a0L/h"))
	assert.Equal(t, "thirty-four letters and then some\nAA-1234-B comes\nthe water that comes to the fall\n7,000 L/h\n", p.String())
}

func TestColumnsStandSideBySide(t *testing.T) {
	p := New(60, false)
	p.Columns([][]Span{{Plain(""), Plain("Now"), Plain("Grown")}, {Plain("Mass"), Plain("5 kg"), Plain("20 kg")}})
	assert.Equal(t, "                  Now    Grown\n  Mass            5 kg   20 kg\n", p.String())
}

func TestAPageHasAWidthThatCanBeLaidOut(t *testing.T) {
	assert.Equal(t, Narrowest, New(0, false).Width())
	assert.Equal(t, Narrowest, New(-5, false).Width())
	assert.Equal(t, Widest, New(100_000, false).Width())
}

// Whatever the text, no line is too wide, nothing but the letters is left after colour is taken away, and no letter is lost.
func TestLayoutKeepsLettersAndWidth(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		width := rapid.IntRange(Narrowest, Widest).Draw(rt, "width")
		text := rapid.StringOf(rapid.RuneFrom([]rune("abc de-f, ü³ 中文 \x1b\u00a0"))).Draw(rt, "text")
		var pages []string
		for _, colour := range []bool{false, true} {
			p := New(width, colour)
			p.Text(4, Bad(text), Plain(text), Faint(text))
			p.Row(text, Strong(text), Warn(text))
			pages = append(pages, ansi.Strip(p.String()))
			for line := range strings.Lines(ansi.Strip(p.String())) {
				if w := ansi.StringWidth(strings.TrimSuffix(line, "\n")); w > width {
					rt.Fatalf("%q is %d wide, not %d", line, w, width)
				}
			}
		}
		for _, page := range pages {
			if got, want := letters(page), letters(strings.Repeat(Clean(text), 3)); !strings.HasPrefix(got, want) {
				rt.Fatalf("%q lost letters of %q", got, want)
			}
		}
	})
}

func letters(text string) string { return strings.Join(strings.Fields(text), "") }

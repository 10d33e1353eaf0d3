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

func TestWhatIsTooLongForALineIsBrokenAtAJoint(t *testing.T) {
	p := New(40, false)
	p.Text(0, Plain("it gives r20\u00a0=\u00a00.000\u00a0000\u00a0002\u00a0299\u00a0kg/(m²\u00a0s)\u00a0(0.1987\u00a0g/(m²\u00a0day)) here"))
	assert.Equal(t, "it gives\nr20 = 0.000 000 002 299 kg/(m² s)\n(0.1987 g/(m² day)) here\n", p.String())
}

func TestColumnsStandSideBySide(t *testing.T) {
	p := New(60, false)
	p.Columns([][]Span{{Plain(""), Plain("Now"), Plain("Grown")}, {Plain("Mass"), Plain("5 kg"), Plain("20 kg")}})
	assert.Equal(t, "                  Now    Grown\n  Mass            5 kg   20 kg\n", p.String())
}

func TestColumnsTooNarrowForAWordStandBelowEachOther(t *testing.T) {
	p := New(40, false)
	p.Columns([][]Span{{Plain(""), Plain("Now"), Plain("Grown")}, {Plain("Feed"), Plain("53.1\u00a0g\u00a0a\u00a0day"), Plain("167\u00a0g\u00a0a\u00a0day")}})
	assert.Equal(t, "  Feed\n    Now: 53.1 g a day\n    Grown: 167 g a day\n", p.String())
}

func TestAValueTooWideForItsColumnStandsBelowItsLabel(t *testing.T) {
	p := New(40, false)
	p.Row("Digest", Plain(strings.Repeat("9", 36)))
	p.Row(strings.Repeat("b", 15), Plain("a bay"))
	p.Row("Digest", Plain(strings.Repeat("9", 37)))
	assert.Equal(t, strings.Join([]string{
		"  Digest",
		"    " + strings.Repeat("9", 36),
		"  " + strings.Repeat("b", 15),
		"    a bay",
		"  Digest          " + strings.Repeat("9", 22), // which no line of this page holds
		"                  " + strings.Repeat("9", 15),
		"",
	}, "\n"), p.String())
}

// No word is broken that a line has room for.
func TestWordsThatFitTheLineAreNotBroken(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		width := rapid.IntRange(Narrowest, Widest).Draw(rt, "width")
		word := rapid.StringOfN(rapid.RuneFrom([]rune("ab-ü\u00a0中")), 1, width-stackIndent, width-stackIndent).Filter(func(w string) bool {
			return strings.Trim(w, "\u00a0") == w
		})
		label, words := word.Draw(rt, "label"), rapid.SliceOfN(word, 1, 6).Draw(rt, "words")
		p := New(width, false)
		p.Row(label, Plain(strings.Join(words, " ")))
		p.Columns([][]Span{{Plain(""), Plain("a"), Plain("b")}, {Plain(label), Plain(words[0]), Plain(strings.Join(words, " "))}})
		for _, w := range append(words, label) {
			if !strings.Contains(p.String(), strings.ReplaceAll(w, "\u00a0", " ")) {
				rt.Fatalf("%q is broken in\n%s", w, p)
			}
		}
	})
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

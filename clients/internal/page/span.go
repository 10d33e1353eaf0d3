package page

import (
	"fmt"
	"strings"
	"unicode"

	"charm.land/lipgloss/v2"
)

// A Span is a piece of text in one tone. It holds nothing that a terminal would obey: every way to make one cleans it.
type Span struct {
	text string
	tone tone
}

// tone is how a span is coloured where there is colour. It never carries meaning that the words do not.
type tone int

const (
	plain tone = iota
	strong
	faint
	good
	warn
	bad
)

var tones = map[tone]lipgloss.Style{
	strong: lipgloss.NewStyle().Bold(true),
	faint:  lipgloss.NewStyle().Faint(true),
	good:   lipgloss.NewStyle().Foreground(lipgloss.Green),
	warn:   lipgloss.NewStyle().Bold(true).Foreground(lipgloss.Yellow),
	bad:    lipgloss.NewStyle().Bold(true).Foreground(lipgloss.Red),
}

// Plain is text as it comes.
func Plain(text string) Span { return Span{Clean(text), plain} }

// Plainf is formatted text as it comes.
func Plainf(format string, args ...any) Span { return Plain(fmt.Sprintf(format, args...)) }

// Strong is text that the eye should find first.
func Strong(text string) Span { return Span{Clean(text), strong} }

// Faint is text for those who want to know more, such as a source.
func Faint(text string) Span { return Span{Clean(text), faint} }

// Good is a word for what is well.
func Good(text string) Span { return Span{Clean(text), good} }

// Warn is a word for what asks for care.
func Warn(text string) Span { return Span{Clean(text), warn} }

// Bad is a word for what must not be.
func Bad(text string) Span { return Span{Clean(text), bad} }

// Clean makes text safe to show on a terminal: one line, in which controls, direction marks and whatever else is not
// printed are spelt out, "<U+001B>".
func Clean(text string) string {
	if strings.IndexFunc(text, unprinted) < 0 {
		return strings.ToValidUTF8(text, "\ufffd")
	}
	var b strings.Builder
	for _, c := range text {
		switch {
		case c == '\n' || c == '\t' || c == '\r':
			b.WriteByte(' ')
		case unprinted(c):
			fmt.Fprintf(&b, "<%U>", c)
		default:
			b.WriteRune(c)
		}
	}
	return b.String()
}

// unprinted holds for controls, marks that have no width or change the direction, and what is assigned to nothing.
func unprinted(c rune) bool { return !unicode.IsPrint(c) && string(c) != nbsp }

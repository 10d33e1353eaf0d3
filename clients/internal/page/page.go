// Package page lays out text for a terminal: wrapped to its width, with labels beside or columns side by side where there
// is room, in colour only where it is wanted.
package page

import "strings"

// The widths a page can have: below the least nothing can be laid out, above the greatest no eye follows a line.
const (
	Narrowest = 40
	Widest    = 132
)

// nbsp keeps a number and its unit in one line.
const nbsp = "\u00a0"

// A Page is text being laid out from top to bottom.
type Page struct {
	out    strings.Builder
	width  int
	colour bool
}

// New begins a page of the width, as near as a page can have it.
func New(width int, colour bool) *Page {
	return &Page{width: min(max(width, Narrowest), Widest), colour: colour}
}

// Width is how many characters a line holds.
func (p *Page) Width() int { return p.width }

// String is the page so far.
func (p *Page) String() string { return p.out.String() }

// Blank leaves a line empty.
func (p *Page) Blank() { p.out.WriteByte('\n') }

// Title is the head of the page, with a double line below it.
func (p *Page) Title(text string) {
	p.put(0, p.wrapped(p.width, Strong(text))...)
	p.put(0, strings.Repeat("═", p.width))
}

// Heading begins a part of the page.
func (p *Page) Heading(text string) {
	p.Blank()
	p.put(0, p.wrapped(p.width, Strong(strings.ToUpper(text)))...)
	p.put(0, p.wrapped(p.width, Faint(strings.Repeat("─", p.width)))...)
}

// Subheading begins a part of a part.
func (p *Page) Subheading(text string) {
	p.Blank()
	p.Text(2, Strong(text))
}

// Text is a paragraph, indented.
func (p *Page) Text(indent int, spans ...Span) { p.put(indent, p.wrapped(p.width-indent, spans...)...) }

// put writes lines, indented, without blanks at their ends.
func (p *Page) put(indent int, lines ...string) {
	for _, line := range lines {
		line = strings.Repeat(" ", indent) + strings.ReplaceAll(line, nbsp, " ")
		p.out.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

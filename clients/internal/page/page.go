// Package page lays out text for a terminal: wrapped to its width, with labels beside or columns side by side where there
// is room, in colour only where it is wanted.
package page

import (
	"strings"

	"charm.land/lipgloss/v2"
)

// The widths a page can have: below the least nothing can be laid out, above the greatest no eye follows a line.
const (
	Narrowest = 40
	Widest    = 132
)

// nbsp keeps a number and its unit in one line.
const nbsp = '\u00a0'

// nbHyphen keeps an item number in one line: at an ordinary hyphen the wrapping breaks.
const nbHyphen = '\u2011'

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
	p.put(0, p.wrapped(0, Strong(text)))
	p.put(0, strings.Repeat("═", p.width))
}

// Heading begins a part of the page.
func (p *Page) Heading(text string) {
	p.Blank()
	p.put(0, p.wrapped(0, Strong(strings.ToUpper(text))))
	p.put(0, p.styled(Faint(strings.Repeat("─", p.width))))
}

// Subheading begins a part of a part.
func (p *Page) Subheading(text string) {
	p.Blank()
	p.put(2, p.wrapped(2, Strong(text)))
}

// Text is a paragraph, indented.
func (p *Page) Text(indent int, spans ...Span) { p.put(indent, p.wrapped(indent, spans...)) }

// Row is a paragraph with a label in a column before it.
func (p *Page) Row(label string, spans ...Span) { p.Hang(p.labelWidth(), Plain(label), spans...) }

// Under is a paragraph below the last row's.
func (p *Page) Under(spans ...Span) { p.Hang(p.labelWidth(), Span{}, spans...) }

// Hang is a paragraph with a mark in a column of the width before it.
func (p *Page) Hang(width int, mark Span, spans ...Span) {
	left := lipgloss.NewStyle().Width(width).PaddingRight(2).Render(p.styled(mark))
	p.put(2, lipgloss.JoinHorizontal(lipgloss.Top, left, p.wrapped(2+width, spans...)))
}

func (p *Page) labelWidth() int {
	if p.width < 72 {
		return 16
	}
	return 21
}

// Columns is a table: a column for labels, and others of one width beside it.
func (p *Page) Columns(rows [][]Span) {
	widest := 0
	for _, row := range rows {
		for _, cell := range row[1:] {
			widest = max(widest, lipgloss.Width(cell.text))
		}
	}
	label := p.labelWidth()
	room := (p.width - 2 - label) / (len(rows[0]) - 1)
	column := lipgloss.NewStyle().Width(min(widest+2, room)).PaddingRight(2)
	for _, row := range rows {
		cells := []string{lipgloss.NewStyle().Width(label).PaddingRight(2).Render(p.styled(row[0]))}
		for _, cell := range row[1:] {
			cells = append(cells, column.Render(p.styled(cell)))
		}
		p.put(2, lipgloss.JoinHorizontal(lipgloss.Top, cells...))
	}
}

// wrapped joins the spans and breaks them into lines that fit behind the indent.
func (p *Page) wrapped(indent int, spans ...Span) string {
	var line strings.Builder
	for _, s := range spans {
		line.WriteString(p.styled(s))
	}
	return lipgloss.Wrap(line.String(), p.width-indent, "")
}

// styled is the span's text in its tone.
func (p *Page) styled(s Span) string {
	text := strings.ReplaceAll(s.text, "-", string(nbHyphen))
	if !p.colour || text == "" {
		return text
	}
	return tones[s.tone].Render(text)
}

var plainMarks = strings.NewReplacer(string(nbHyphen), "-", string(nbsp), " ")

// put writes lines, indented, without blanks at their ends.
func (p *Page) put(indent int, text string) {
	for line := range strings.Lines(text + "\n") {
		line = strings.Repeat(" ", indent) + plainMarks.Replace(strings.TrimSuffix(line, "\n"))
		p.out.WriteString(strings.TrimRight(line, " ") + "\n")
	}
}

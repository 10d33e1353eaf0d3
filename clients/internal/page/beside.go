package page

import (
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// gap is what stands between a column and the next.
const gap = 2

// stackIndent is how far text is indented that stands below its label, for want of room beside it.
const stackIndent = 4

// Row is a paragraph with a label in a column before it.
func (p *Page) Row(label string, spans ...Span) { p.Hang(p.labelWidth(), Plain(label), spans...) }

// Under is a paragraph below the last row's.
func (p *Page) Under(spans ...Span) { p.Hang(p.labelWidth(), Span{}, spans...) }

// Hang is a paragraph with a mark in a column of the width before it, or above it where a word would not fit beside.
func (p *Page) Hang(width int, mark Span, spans ...Span) {
	if p.breaks(width-gap, mark) || p.breaks(p.width-2-width, spans...) {
		p.label(mark)
		p.Text(stackIndent, spans...)
		return
	}
	p.put(2, beside([]int{width, 0}, p.wrapped(width-gap, mark), p.wrapped(p.width-2-width, spans...))...)
}

func (p *Page) label(mark Span) {
	if mark.text != "" {
		p.Text(2, mark)
	}
}

func (p *Page) labelWidth() int {
	if p.width < 72 {
		return 16
	}
	return 21
}

// Columns is a table: a column for labels, and others of one width beside it. Where a word would not fit its column, the
// cells of each row stand below each other, each behind the head of its column.
func (p *Page) Columns(rows [][]Span) {
	widest := 0
	for _, row := range rows {
		for _, cell := range row[1:] {
			widest = max(widest, ansi.StringWidth(cell.text))
		}
	}
	label := p.labelWidth()
	width := min(widest+gap, (p.width-2-label)/(len(rows[0])-1))
	if p.columnsBreak(label-gap, width-gap, rows) {
		p.stack(rows)
		return
	}
	for _, row := range rows {
		widths, cells := []int{label}, [][]string{p.wrapped(label-gap, row[0])}
		for _, cell := range row[1:] {
			widths, cells = append(widths, width), append(cells, p.wrapped(width-gap, cell))
		}
		p.put(2, beside(widths, cells...)...)
	}
}

func (p *Page) columnsBreak(label, width int, rows [][]Span) bool {
	for _, row := range rows {
		if p.breaks(label, row[0]) {
			return true
		}
		for _, cell := range row[1:] {
			if p.breaks(width, cell) {
				return true
			}
		}
	}
	return false
}

func (p *Page) stack(rows [][]Span) {
	for _, row := range rows[1:] {
		p.label(row[0])
		for i, cell := range row[1:] {
			p.Text(stackIndent, rows[0][i+1], Plain(": "), cell)
		}
	}
}

// breaks says whether a column of the width breaks a word that a line of its own does not.
func (p *Page) breaks(width int, spans ...Span) bool {
	longest := longestWord(spans)
	return longest > width && longest <= p.width-stackIndent
}

// longestWord is the width of the longest piece of the text that has no place to break at.
func longestWord(spans []Span) int {
	var text strings.Builder
	for _, s := range spans {
		text.WriteString(s.text)
	}
	longest := 0
	for word := range strings.SplitSeq(text.String(), " ") {
		longest = max(longest, ansi.StringWidth(word))
	}
	return longest
}

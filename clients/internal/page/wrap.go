package page

import (
	"cmp"
	"strings"

	"github.com/charmbracelet/x/ansi"
)

// A glyph is what stands in one place of a line: a letter with the marks on it.
type glyph struct {
	text  string
	width int
	tone  tone
}

func (g glyph) blank() bool { return g.text == " " }

func glyphs(spans []Span) []glyph {
	var all []glyph
	for _, s := range spans {
		for rest := s.text; rest != ""; {
			text, width := ansi.FirstGraphemeCluster(rest, ansi.GraphemeWidth)
			all, rest = append(all, glyph{text, width, s.tone}), rest[len(text):]
		}
	}
	return all
}

// wrapped breaks text into lines of at most the width, between words wherever a word fits a line.
func (p *Page) wrapped(width int, spans ...Span) []string {
	var lines []string
	for rest := trimmed(glyphs(spans)); len(rest) > 0; {
		n := fit(rest, width)
		lines, rest = append(lines, p.styled(rest[:n])), trimmed(rest[n:])
	}
	return lines
}

// trimmed is the text without blanks at its ends.
func trimmed(all []glyph) []glyph {
	for len(all) > 0 && all[0].blank() {
		all = all[1:]
	}
	for len(all) > 0 && all[len(all)-1].blank() {
		all = all[:len(all)-1]
	}
	return all
}

// fit is how many glyphs of a trimmed text go into one line: those before the last blanks that can end it, or else, where
// one word is too long for a line, those up to its last joint, or as many as there is room for.
func fit(all []glyph, width int) int {
	used, end, joint := 0, 0, 0
	for i, g := range all {
		switch {
		case g.blank() && !all[i-1].blank():
			end = i
		case !g.blank() && used+g.width > width:
			return cmp.Or(end, joint, i, 1)
		case g.text == nbsp:
			joint = i + 1
		}
		used += g.width
	}
	return len(all)
}

// styled is a line in its tones.
func (p *Page) styled(line []glyph) string {
	var out, run strings.Builder
	for i, g := range line {
		run.WriteString(g.text)
		if i+1 < len(line) && line[i+1].tone == g.tone {
			continue
		}
		if p.colour {
			out.WriteString(tones[g.tone].Render(run.String()))
		} else {
			out.WriteString(run.String())
		}
		run.Reset()
	}
	return out.String()
}

// beside sets columns of lines next to each other, each padded to its width.
func beside(widths []int, columns ...[]string) []string {
	rows := 0
	for _, column := range columns {
		rows = max(rows, len(column))
	}
	lines := make([]string, rows)
	for i := range lines {
		for j, column := range columns {
			cell := ""
			if i < len(column) {
				cell = column[i]
			}
			lines[i] += cell + strings.Repeat(" ", max(widths[j]-ansi.StringWidth(cell), 0))
		}
	}
	return lines
}

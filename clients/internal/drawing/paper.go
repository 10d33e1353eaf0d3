package drawing

import (
	"fmt"
	"html/template"
	"strconv"
	"strings"

	"example.com/pondwright/clients/internal/figure"
)

// Sizes on paper, in millimetres. The letters are 9 points high, which is read at arm's length on site.
const (
	letter   = 3.2
	line     = 4.4 // from one line of text to the next
	thick    = 0.7 // what is built
	medium   = 0.35
	fine     = 0.18 // dimensions and edges under water
	tick     = 1.4  // half the stroke at the end of a dimension
	roomWide = 172  // of an A4 and a Letter page within their margins
	roomHigh = 170
)

// Colours. Each differs from its neighbours in lightness, so that they hold in greyscale.
const (
	ink   = "#1a2326"
	grey  = "#5d676a"
	faint = "#c4c9c6"
	earth = "#e9e3d6"
)

// A paper is a drawing in the making, in millimetres from its upper left corner.
type paper struct{ b strings.Builder }

// mm writes a length to a hundredth of a millimetre, which is half a millimetre of pond at 1:50.
func mm(x float64) string {
	text := strconv.FormatFloat(x, 'f', 2, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}

func (p *paper) put(format string, values ...any) { fmt.Fprintf(&p.b, format, values...) }

// line draws a straight stroke.
func (p *paper) line(class string, x1, y1, x2, y2, width float64, colour, dashes string) {
	p.put(`<line class="%s" x1="%s" y1="%s" x2="%s" y2="%s" stroke="%s" stroke-width="%s"`, class, mm(x1), mm(y1), mm(x2), mm(y2), colour, mm(width))
	if dashes != "" {
		p.put(` stroke-dasharray="%s"`, dashes)
	}
	p.put("/>\n")
}

// path is a chain of straight sides as the data of a path.
func path(points []Point, closed bool) string {
	var b strings.Builder
	for i, q := range points {
		b.WriteString(map[bool]string{true: "M", false: "L"}[i == 0] + mm(q.X) + " " + mm(q.Y))
	}
	if closed {
		b.WriteString("Z")
	}
	return b.String()
}

// shape draws a chain of sides with the attributes given.
func (p *paper) shape(class string, points []Point, closed bool, attributes string) {
	p.put(`<path class="%s" d="%s" %s/>`+"\n", class, path(points, closed), attributes)
}

// text writes a word; anchor is "start", "middle" or "end", and turned writes it upwards.
func (p *paper) text(x, y float64, anchor, words string, turned bool) {
	p.put(`<text x="%s" y="%s" text-anchor="%s" fill="%s"`, mm(x), mm(y), anchor, ink)
	if turned {
		p.put(` transform="rotate(-90 %s %s)"`, mm(x), mm(y))
	}
	p.put(`>%s</text>`+"\n", template.HTMLEscapeString(words))
}

// halo writes a word that is read on top of a drawing.
func (p *paper) halo(x, y float64, anchor, words string) {
	p.put(`<text x="%s" y="%s" text-anchor="%s" fill="%s" stroke="#ffffff" stroke-width="0.8" stroke-linejoin="round" paint-order="stroke">%s</text>`+"\n",
		mm(x), mm(y), anchor, ink, template.HTMLEscapeString(words))
}

// across draws a dimension along x, with its figure above the line.
func (p *paper) across(class string, x1, x2, y float64, words string) {
	p.line(class, x1, y, x2, y, fine, ink, "")
	p.end(x1, y)
	p.end(x2, y)
	p.text((x1+x2)/2, y-0.9, "middle", words, false)
}

// upright draws a dimension along y, with its figure to the left of the line.
func (p *paper) upright(class string, x, y1, y2 float64, words string) {
	p.line(class, x, y1, x, y2, fine, ink, "")
	p.end(x, y1)
	p.end(x, y2)
	p.text(x-0.9, (y1+y2)/2, "middle", words, true)
}

// end is the slanting stroke at an end of a dimension.
func (p *paper) end(x, y float64) { p.line("end", x-tick, y+tick, x+tick, y-tick, medium, ink, "") }

// bar draws a bar of metres, in steps that alternate, and says the scale beside it.
func (p *paper) bar(x, y, scale float64, note string) {
	step := niceBelow(18 * scale / 1000)
	for i := range 3 {
		fill := map[bool]string{true: ink, false: "#ffffff"}[i%2 == 0]
		p.put(`<rect class="bar" x="%s" y="%s" width="%s" height="1.6" fill="%s" stroke="%s" stroke-width="%s"/>`+"\n",
			mm(x+float64(i)*step*1000/scale), mm(y), mm(step*1000/scale), fill, ink, mm(fine))
	}
	for i := range 4 {
		words := figure.Number(float64(i) * step)
		if i == 3 {
			words += figure.Space + "m"
		}
		p.text(x+float64(i)*step*1000/scale, y+5, "middle", words, false)
	}
	p.text(x+3*step*1000/scale+9, y+1.8, "start", note, false)
}

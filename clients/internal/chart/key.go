package chart

import (
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// An entry of the key shows what stands for what.
type entry struct {
	name  string
	pen   *draw.LineStyle
	glyph *draw.GlyphStyle
	dot   bool
	wash  bool
	fill  *filling
}

// A key stands below the drawing, as many entries to a line as there is room for.
type key struct {
	entries []entry
	width   float64
}

const sample = 30.0 // width of what is shown before the name

// places are where the entries begin, from the top left.
func (k key) places() (at []vg.Point, lines int) {
	x, y := 0.0, 0.0
	for _, e := range k.entries {
		width := sample + 6 + words(text.XLeft, text.YCenter).Width(e.name).Points() + 14
		if x > 0 && x+width > k.width {
			x, y = 0, y+line+2
		}
		at = append(at, vg.Point{X: vg.Points(x), Y: vg.Points(y)})
		x += width
	}
	if len(at) == 0 {
		return nil, 0
	}
	return at, int(y/(line+2)) + 1
}

func (k key) height() float64 {
	_, lines := k.places()
	if lines == 0 {
		return 0
	}
	return float64(lines)*(line+2) + 8
}

func (k key) draw(c draw.Canvas) {
	places, _ := k.places()
	for i, e := range k.entries {
		at := vg.Point{X: c.Min.X + places[i].X, Y: c.Max.Y - 8 - places[i].Y - line/2}
		end := at.X + sample
		if e.wash {
			c.FillPolygon(wash, []vg.Point{{X: at.X, Y: at.Y - 5}, {X: end, Y: at.Y - 5}, {X: end, Y: at.Y + 5}, {X: at.X, Y: at.Y + 5}})
		}
		if e.pen != nil {
			c.StrokeLine2(*e.pen, at.X, at.Y, end, at.Y)
		}
		middle := vg.Point{X: at.X + sample/2, Y: at.Y}
		if e.dot {
			c.DrawGlyphNoClip(draw.GlyphStyle{Color: ink, Radius: 2, Shape: draw.CircleGlyph{}}, middle)
		}
		if e.glyph != nil {
			c.DrawGlyphNoClip(*e.glyph, middle)
		}
		if e.fill != nil {
			e.fill.rectangle(c, vg.Rectangle{Min: vg.Point{X: at.X, Y: at.Y - 5}, Max: vg.Point{X: end, Y: at.Y + 5}})
		}
		c.FillText(words(text.XLeft, text.YCenter), vg.Point{X: end + 6, Y: at.Y}, e.name)
	}
}

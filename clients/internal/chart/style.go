package chart

import (
	"image/color"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// ink is the colour of the text around the picture; faint and wash are the same, thinned.
var (
	ink   = color.NRGBA{A: 255}
	faint = color.NRGBA{A: 110}
	wash  = color.NRGBA{A: 38}
)

const (
	letter = 11.0 // height of all letters
	line   = 15.0 // from one line of text to the next
)

func words(x text.XAlignment, y text.YAlignment) text.Style {
	face := font.From(plot.DefaultFont, vg.Points(letter))
	face.Variant = "Sans"
	return text.Style{Color: ink, Font: face, XAlign: x, YAlign: y, Handler: plot.DefaultTextHandler}
}

// pens are how lines look, in the order they are given. Each differs from every other without colour.
func pen(i int) draw.LineStyle {
	dashes := [][]vg.Length{
		nil, {7, 4}, {2, 3}, {10, 3, 2, 3}, {14, 4}, {6, 2, 2, 2, 2, 2},
	}
	widths := []vg.Length{2.4, 1.7, 1.9, 1.7, 1.2, 1.7}
	return draw.LineStyle{Color: ink, Width: widths[i%len(widths)], Dashes: dashes[i%len(dashes)]}
}

// thin is the pen of what is looked along, not at.
func thin() draw.LineStyle {
	return draw.LineStyle{Color: faint, Width: 0.7, Dashes: []vg.Length{1, 3}}
}

// markers are how points look, in the order they are given.
func marker(i int) draw.GlyphStyle {
	shapes := []draw.GlyphDrawer{
		draw.CircleGlyph{}, draw.BoxGlyph{}, draw.PyramidGlyph{}, draw.RingGlyph{}, draw.SquareGlyph{}, draw.TriangleGlyph{}, draw.CrossGlyph{},
	}
	return draw.GlyphStyle{Color: ink, Radius: 4.2, Shape: shapes[i%len(shapes)]}
}

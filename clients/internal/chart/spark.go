package chart

import (
	"fmt"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
)

// A Spark is a curve as small as a word, to stand in a row of a table among many of its kind: it shows a shape, without figures.
// What is wrong with it is ringed.
type Spark struct {
	Title string
	// Sentence says what there is to see. It must not be empty: so small a picture says nothing by itself.
	Sentence string
	X, Y     Axis // for the table
	// Points in the order they were given, which a faulty curve need not have from left to right.
	Points []Point
	Faulty []Point
	// Width and Height in units of which a letter is 11 high. Left out, 120 and 48.
	Width, Height float64
}

// Draw makes the picture.
func (s Spark) Draw() (Picture, error) {
	if len(s.Points) == 0 || s.Sentence == "" {
		return Picture{}, fmt.Errorf("picture %q: %w", s.Title, ErrNothing)
	}
	for _, p := range append(s.Points[:len(s.Points):len(s.Points)], s.Faulty...) {
		if err := finite(s.Title, p.X, p.Y); err != nil {
			return Picture{}, err
		}
	}
	if s.Width == 0 {
		s.Width = 120
	}
	if s.Height == 0 {
		s.Height = 48
	}
	p := plot.New()
	p.BackgroundColor = nil
	p.HideAxes()
	drawnLine, err := plotter.NewLine(xys(s.Points))
	if err != nil {
		return Picture{}, fmt.Errorf("picture %q: %w", s.Title, err)
	}
	drawnLine.LineStyle = draw.LineStyle{Color: ink, Width: 1.3}
	p.Add(drawnLine, &plotter.Scatter{XYs: xys(s.Points), GlyphStyle: draw.GlyphStyle{Color: ink, Radius: 1.5, Shape: draw.CircleGlyph{}}})
	if len(s.Faulty) > 0 {
		p.Add(&plotter.Scatter{XYs: xys(s.Faulty), GlyphStyle: draw.GlyphStyle{Color: ink, Radius: 5, Shape: draw.RingGlyph{}}})
	}
	widen(&p.X)
	widen(&p.Y)
	body, err := drawn(s.Width, s.Height, func(c draw.Canvas) {
		edge := draw.LineStyle{Color: faint, Width: 0.7}
		c.StrokeLines(edge, []vg.Point{{X: 1, Y: c.Max.Y - 1}, {X: 1, Y: 1}, {X: c.Max.X - 1, Y: 1}})
		p.Draw(draw.Crop(c, 6, -6, 6, -6))
	})
	if err != nil {
		return Picture{}, fmt.Errorf("picture %q: %w", s.Title, err)
	}
	l := Lines{X: s.X, Y: s.Y, Lines: []Line{{Points: s.Points}}}
	return Picture{Title: s.Title, Sentence: s.Sentence, Table: l.table(), width: s.Width, height: s.Height, body: body}, nil
}

// widen gives an axis some length where all points are at one place of it.
func widen(a *plot.Axis) {
	if a.Max <= a.Min {
		a.Min, a.Max = a.Min-1, a.Max+1
	}
}

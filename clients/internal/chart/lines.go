package chart

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"example.com/pondwright/clients/internal/figure"
)

// Lines is a picture of one or more quantities along an axis, such as time or flow.
type Lines struct {
	Title string
	// Sentence says what there is to see. Left empty, it tells where each line begins and ends and how high it goes.
	Sentence string
	X, Y     Axis
	Lines    []Line
	Marks    []Mark
	Limits   []Limit
	Spans    []Span
	// Width and Height in units of which a letter is 11 high, without the key below. Left out, 400 and 250.
	Width, Height float64
	// Table in place of the one made from the lines.
	Table *Table
}

// An Axis names a quantity, with its unit: "head", "m".
type Axis struct {
	Name, Unit string
	// Min and Max of what is shown. Left out, all that is drawn, and from 0 on where nothing is below.
	Min, Max *float64
	// Ticks in place of round numbers, such as the months of a year.
	Ticks []Tick
}

// A Tick is a named place on an axis.
type Tick struct {
	At   float64
	Name string
}

// A Point in the units of the axes.
type Point struct{ X, Y float64 }

// A Line is drawn through its points from left to right. With Low and High, its width is shaded.
type Line struct {
	Name      string
	Points    []Point
	Low, High []Point
	// Measured marks each point.
	Measured bool
}

// A Mark is a point that the reader is to find: it has a letter, and its name stands in the key.
type Mark struct {
	Name string
	At   Point
}

// A Limit is a level that a line is held against.
type Limit struct {
	Name string
	Y    float64
}

// A Span of the axis along is shaded over the whole height: the flow wanted, or the months without feed. To is 0 where nothing
// ends it.
type Span struct {
	Name     string
	From, To float64
}

// Draw makes the picture.
func (l Lines) Draw() (Picture, error) {
	if err := l.check(); err != nil {
		return Picture{}, err
	}
	if l.Width == 0 {
		l.Width = DefaultWidth
	}
	if l.Height == 0 {
		l.Height = 250
	}
	p, entries, err := l.plot()
	if err != nil {
		return Picture{}, fmt.Errorf("picture %q: %w", l.Title, err)
	}
	k := key{entries: entries, width: l.Width}
	height := l.Height + k.height()
	body, err := drawn(l.Width, height, func(c draw.Canvas) {
		c.FillText(words(text.XLeft, text.YTop), vg.Point{X: 0, Y: c.Max.Y - 1}, l.Y.label())
		c.FillText(words(text.XRight, text.YBottom), vg.Point{X: c.Max.X - 2, Y: vg.Points(k.height() + 2)}, l.X.label())
		p.Draw(draw.Crop(c, 2, -6, vg.Points(k.height()+line), vg.Points(-line-4)))
		k.draw(draw.Crop(c, 0, 0, 0, vg.Points(-l.Height)))
	})
	if err != nil {
		return Picture{}, fmt.Errorf("picture %q: %w", l.Title, err)
	}
	made := Picture{Title: l.Title, Sentence: l.Sentence, width: l.Width, height: height, body: body}
	if made.Sentence == "" {
		made.Sentence = l.sentence()
	}
	if l.Table != nil {
		made.Table = *l.Table
	} else {
		made.Table = l.table()
	}
	return made, nil
}

func (a Axis) label() string {
	if a.Unit == "" {
		return a.Name
	}
	return a.Name + ", " + a.Unit
}

func (a Axis) with(x float64) string {
	if i := slices.IndexFunc(a.Ticks, func(t Tick) bool { return t.At == x }); i >= 0 {
		return a.Ticks[i].Name
	}
	if a.Unit == "" {
		return figure.Number(x)
	}
	return figure.With(x, a.Unit)
}

func (l Lines) check() error {
	n := 0
	for _, one := range l.Lines {
		n += len(one.Points)
		for _, points := range [][]Point{one.Points, one.Low, one.High} {
			for i, p := range points {
				if err := finite(l.Title, p.X, p.Y); err != nil {
					return err
				}
				if i > 0 && p.X < points[i-1].X {
					return fmt.Errorf("picture %q: the points of %q do not go from left to right", l.Title, one.Name)
				}
			}
		}
	}
	for _, m := range l.Marks {
		if err := finite(l.Title, m.At.X, m.At.Y); err != nil {
			return err
		}
	}
	for _, s := range l.Spans {
		if err := finite(l.Title, s.From, s.To); err != nil {
			return err
		}
	}
	for _, limit := range l.Limits {
		if err := finite(l.Title, limit.Y); err != nil {
			return err
		}
	}
	if n == 0 {
		return fmt.Errorf("picture %q: %w", l.Title, ErrNothing)
	}
	return nil
}

// plot sets axes and lines, and lists what the key has to explain.
func (l Lines) plot() (*plot.Plot, []entry, error) {
	p := plot.New()
	p.BackgroundColor = nil
	l.axes(p)
	var entries []entry
	for i, s := range l.Spans {
		p.Add(span(s))
		if s.Name != "" && i == 0 || s.Name != l.Spans[max(i-1, 0)].Name {
			entries = append(entries, entry{name: s.Name, wash: true})
		}
	}
	for i, one := range l.Lines {
		if len(one.Low) > 0 && len(one.High) > 0 {
			band, err := plotter.NewPolygon(xys(append(slices.Clone(one.Low), backwards(one.High)...)))
			if err != nil {
				return nil, nil, err
			}
			band.Color, band.Width = wash, 0
			p.Add(band)
		}
		if len(one.Points) == 0 {
			continue
		}
		drawn, err := plotter.NewLine(xys(one.Points))
		if err != nil {
			return nil, nil, err
		}
		drawn.LineStyle = pen(i)
		p.Add(drawn)
		e := entry{name: one.Name, pen: new(pen(i)), wash: len(one.Low) > 0}
		if one.Measured {
			p.Add(&plotter.Scatter{XYs: xys(one.Points), GlyphStyle: draw.GlyphStyle{Color: ink, Radius: 2, Shape: draw.CircleGlyph{}}})
			e.dot = true
		}
		if one.Name != "" {
			entries = append(entries, e)
		}
	}
	for _, limit := range l.Limits {
		p.Add(level(limit))
	}
	for i, m := range l.Marks {
		p.Add(lettered{letter: letterOf(i), at: m.At, glyph: marker(i)})
		entries = append(entries, entry{name: letterOf(i) + "  " + m.Name, glyph: new(marker(i))})
	}
	return p, entries, nil
}

func letterOf(i int) string { return string(rune('A' + i%26)) }

// axes sets what is shown: from 0 on where nothing is below it, so that no rise looks steeper than it is.
func (l Lines) axes(p *plot.Plot) {
	x0, x1, y0, y1 := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	see := func(q Point) { x0, x1, y0, y1 = min(x0, q.X), max(x1, q.X), min(y0, q.Y), max(y1, q.Y) }
	for _, one := range l.Lines {
		for _, points := range [][]Point{one.Points, one.Low, one.High} {
			for _, q := range points {
				see(q)
			}
		}
	}
	for _, m := range l.Marks {
		see(m.At)
	}
	for _, limit := range l.Limits {
		y0, y1 = min(y0, limit.Y), max(y1, limit.Y)
	}
	y1 += 0.06 * (y1 - min(y0, 0))
	set(&p.X, l.X, x0, x1)
	set(&p.Y, l.Y, y0, y1)
}

func set(axis *plot.Axis, a Axis, least, most float64) {
	if least > 0 && least < most*0.7 {
		least = 0
	}
	if a.Min != nil {
		least = *a.Min
	}
	if a.Max != nil {
		most = *a.Max
	}
	if most <= least {
		most = least + 1
	}
	axis.Min, axis.Max = least, most
	axis.Padding, axis.LineStyle.Color, axis.Width = 0, ink, 0.8
	axis.Tick.Label, axis.Tick.Length, axis.Tick.Color = words(axis.Tick.Label.XAlign, axis.Tick.Label.YAlign), 4, ink
	axis.Tick.Marker = ticks(a.Ticks)
}

type ticks []Tick

// Ticks gives the named places, or round numbers with commas between thousands.
func (t ticks) Ticks(least, most float64) []plot.Tick {
	if len(t) > 0 {
		var marks []plot.Tick
		for _, named := range t {
			marks = append(marks, plot.Tick{Value: named.At, Label: named.Name})
		}
		return marks
	}
	marks := plot.DefaultTicks{}.Ticks(least, most)
	for i, m := range marks {
		if !m.IsMinor() {
			marks[i].Label = figure.Digits(m.Value, 6)
		}
	}
	return marks
}

func xys(points []Point) plotter.XYs {
	made := make(plotter.XYs, len(points))
	for i, p := range points {
		made[i] = plotter.XY{X: p.X, Y: p.Y}
	}
	return made
}

func backwards(points []Point) []Point {
	turned := slices.Clone(points)
	slices.Reverse(turned)
	return turned
}

// A level is drawn from side to side, with its name on it.
type level Limit

// Plot draws it.
func (l level) Plot(c draw.Canvas, p *plot.Plot) {
	_, y := p.Transforms(&c)
	at := y(l.Y)
	c.StrokeLine2(draw.LineStyle{Color: ink, Width: 0.9, Dashes: []vg.Length{3, 2}}, c.Min.X, at, c.Max.X, at)
	c.FillText(words(text.XRight, text.YBottom), vg.Point{X: c.Max.X - 2, Y: at + 2}, l.Name)
}

// A span is a wash behind everything, with an edge at each end that is in sight.
type span Span

// Plot draws it.
func (s span) Plot(c draw.Canvas, p *plot.Plot) {
	x, _ := p.Transforms(&c)
	from, to := max(x(s.From), c.Min.X), c.Max.X
	if s.To != 0 {
		to = min(x(s.To), c.Max.X)
	}
	if to <= from {
		return
	}
	c.FillPolygon(wash, []vg.Point{{X: from, Y: c.Min.Y}, {X: to, Y: c.Min.Y}, {X: to, Y: c.Max.Y}, {X: from, Y: c.Max.Y}})
	edge := draw.LineStyle{Color: faint, Width: 0.7}
	c.StrokeLine2(edge, from, c.Min.Y, from, c.Max.Y)
	if to < c.Max.X {
		c.StrokeLine2(edge, to, c.Min.Y, to, c.Max.Y)
	}
}

// A lettered mark has lines down and across to the axes.
type lettered struct {
	letter string
	at     Point
	glyph  draw.GlyphStyle
}

// Plot draws it.
func (m lettered) Plot(c draw.Canvas, p *plot.Plot) {
	x, y := p.Transforms(&c)
	at := vg.Point{X: x(m.at.X), Y: y(m.at.Y)}
	c.StrokeLine2(thin(), at.X, c.Min.Y, at.X, at.Y)
	c.StrokeLine2(thin(), c.Min.X, at.Y, at.X, at.Y)
	c.DrawGlyph(m.glyph, at)
	c.FillText(words(text.XLeft, text.YBottom), vg.Point{X: at.X + 5, Y: at.Y + 4}, m.letter)
}

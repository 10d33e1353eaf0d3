package chart

import (
	"fmt"
	"strings"

	"gonum.org/v1/plot/text"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"example.com/pondwright/clients/internal/figure"
)

// Bars is a picture of amounts beside their names: where the head goes, or what stops the sets that lose. Every bar has its
// figure at its end.
type Bars struct {
	Title string
	// Sentence says what there is to see. Left empty, it tells every bar.
	Sentence string
	Unit     string // "m", "sets"
	// Of what each row has a bar: "clean", "due for cleaning". One, which may have no name, for single bars.
	Series []string
	Rows   []Row
	// Width in units of which a letter is 11 high. Left out, 400.
	Width float64
	// Figure writes a value; left out, to three digits.
	Figure func(float64) string
}

// A Row is a name and an amount of each of the series, none below 0.
type Row struct {
	Name   string
	Values []float64
}

const (
	thick = 14.0 // of a bar
	apart = 10.0 // between rows
)

// Draw makes the picture.
func (b Bars) Draw() (Picture, error) {
	most, err := b.check()
	if err != nil {
		return Picture{}, err
	}
	if b.Width == 0 {
		b.Width = DefaultWidth
	}
	if b.Figure == nil {
		b.Figure = figure.Number
	}
	var entries []entry
	if len(b.Series) > 1 {
		for i, name := range b.Series {
			entries = append(entries, entry{name: name, fill: &filling{i}})
		}
	}
	k := key{entries: entries, width: b.Width}
	row := line + thick*float64(len(b.Series)) + apart
	height := row*float64(len(b.Rows)) + k.height()
	body, err := drawn(b.Width, height, func(c draw.Canvas) {
		for i, r := range b.Rows {
			b.row(draw.Crop(c, 0, 0, vg.Points(height-row*float64(i+1)), vg.Points(-row*float64(i))), r, most)
		}
		k.draw(draw.Crop(c, 0, 0, 0, vg.Points(k.height()-height)))
	})
	if err != nil {
		return Picture{}, fmt.Errorf("picture %q: %w", b.Title, err)
	}
	made := Picture{Title: b.Title, Sentence: b.Sentence, Table: b.table(), width: b.Width, height: height, body: body}
	if made.Sentence == "" {
		made.Sentence = b.sentence()
	}
	return made, nil
}

func (b Bars) check() (most float64, err error) {
	if len(b.Rows) == 0 || len(b.Series) == 0 {
		return 0, fmt.Errorf("picture %q: %w", b.Title, ErrNothing)
	}
	for _, r := range b.Rows {
		if len(r.Values) != len(b.Series) {
			return 0, fmt.Errorf("picture %q: %q has %d amounts for %d series", b.Title, r.Name, len(r.Values), len(b.Series))
		}
		if err := finite(b.Title, r.Values...); err != nil {
			return 0, err
		}
		for _, v := range r.Values {
			if v < 0 {
				return 0, fmt.Errorf("picture %q: a bar of %q is below 0", b.Title, r.Name)
			}
			most = max(most, v)
		}
	}
	return max(most, 1e-300), nil
}

// row draws a name and its bars below it, so that long names and narrow screens go together.
func (b Bars) row(c draw.Canvas, r Row, most float64) {
	c.FillText(words(text.XLeft, text.YTop), vg.Point{X: c.Min.X, Y: c.Max.Y}, r.Name)
	room := vg.Points(b.Width) - words(text.XLeft, text.YCenter).Width(b.with(most)) - 14
	for i, v := range r.Values {
		top := c.Max.Y - line - vg.Points(thick)*vg.Length(i)
		end := c.Min.X + 1 + room*vg.Length(v/most)
		bar := vg.Rectangle{Min: vg.Point{X: c.Min.X + 1, Y: top - thick + 3}, Max: vg.Point{X: end, Y: top}}
		b.filling(i).rectangle(c, bar)
		c.FillText(words(text.XLeft, text.YCenter), vg.Point{X: end + 6, Y: (bar.Min.Y + bar.Max.Y) / 2}, b.with(v))
	}
}

// filling of a single series is hatched: hollow looks like nothing, and full like more than it is.
func (b Bars) filling(i int) filling {
	if len(b.Series) == 1 {
		return filling{2}
	}
	return filling{i}
}

func (b Bars) with(v float64) string {
	if b.Unit == "" {
		return b.Figure(v)
	}
	return b.Figure(v) + figure.Space + b.Unit
}

func (b Bars) sentence() string {
	var said []string
	for i, series := range b.Series {
		var parts []string
		for _, r := range b.Rows {
			parts = append(parts, strings.ReplaceAll(r.Name, ",", "")+" "+b.with(r.Values[i]))
		}
		text := strings.Join(parts, ", ") + "."
		if series != "" {
			text = series + ": " + text
		}
		said = append(said, capital(text))
	}
	return strings.Join(said, " ")
}

func (b Bars) table() Table {
	t := Table{Head: []string{"What"}}
	for _, series := range b.Series {
		switch {
		case series == "":
			t.Head = append(t.Head, b.Unit)
		case b.Unit == "":
			t.Head = append(t.Head, series)
		default:
			t.Head = append(t.Head, series+", "+b.Unit)
		}
	}
	for _, r := range b.Rows {
		row := []string{r.Name}
		for _, v := range r.Values {
			row = append(row, b.Figure(v))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// A filling tells the bars of one series from those of another: hollow, full, hatched, barred, and so on from the first.
type filling struct{ i int }

func (f filling) rectangle(c draw.Canvas, r vg.Rectangle) {
	corners := []vg.Point{r.Min, {X: r.Max.X, Y: r.Min.Y}, r.Max, {X: r.Min.X, Y: r.Max.Y}, r.Min}
	if r.Max.X-r.Min.X < 0.5 {
		corners[1].X, corners[2].X = r.Min.X+0.5, r.Min.X+0.5
	}
	outline := draw.LineStyle{Color: ink, Width: 1}
	switch f.i % 4 {
	case 1:
		c.FillPolygon(ink, corners)
	case 2:
		hatch(c, r, 4, true)
	case 3:
		hatch(c, r, 3, false)
	}
	c.StrokeLines(outline, corners)
}

// hatch draws strokes inside a rectangle, leaning or upright.
func hatch(c draw.Canvas, r vg.Rectangle, step vg.Length, leaning bool) {
	thread := draw.LineStyle{Color: ink, Width: 0.8}
	high := r.Max.Y - r.Min.Y
	if !leaning {
		for x := r.Min.X + step; x < r.Max.X; x += step {
			c.StrokeLine2(thread, x, r.Min.Y, x, r.Max.Y)
		}
		return
	}
	for x := r.Min.X - high + step; x < r.Max.X; x += step {
		from, to := max(x, r.Min.X), min(x+high, r.Max.X)
		c.StrokeLine2(thread, from, r.Min.Y+from-x, to, r.Min.Y+to-x)
	}
}

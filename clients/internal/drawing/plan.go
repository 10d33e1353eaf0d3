package drawing

import (
	"fmt"
	"math"
	"strings"

	"example.com/pondwright/clients/internal/figure"
)

// Plan is a bay seen from above.
type Plan struct {
	Title string
	// Outline at the water line, corner by corner.
	Outline []Point
	// Bank from the water line inwards and down, the same all round: the edges of shelves and the foot of the sides. Left out, only
	// Contours and Soundings are drawn inside.
	Bank []BankPoint
	// Depth at the deepest.
	Depth     float64
	Contours  []Contour
	Soundings []Sounding
	Places    []Place
	// North is the bearing of the drawing's upward direction in degrees from north, clockwise. Left out, no arrow is drawn: nobody
	// knows where north is.
	North *float64
}

// A BankPoint is so far inwards from the water line and so far down, in metres.
type BankPoint struct{ Run, Depth float64 }

// A Contour is the line of one depth.
type Contour struct {
	Depth float64
	Line  []Point
}

// A Sounding is a depth at a place.
type Sounding struct {
	At    Point
	Depth float64
}

// A Place is where something stands.
type Place struct {
	Name string
	At   Point
}

// mostCorners is how many corners are numbered. An outline with more stands for a curve.
const mostCorners = 40

// Draw makes the drawing.
func (l Plan) Draw() (Drawing, error) {
	if len(l.Outline) < 3 {
		return Drawing{}, fmt.Errorf("drawing %q: %w", l.Title, ErrNothing)
	}
	for _, q := range l.Outline {
		if err := finite(l.Title, q.X, q.Y, l.Depth); err != nil {
			return Drawing{}, err
		}
	}
	for _, b := range l.Bank {
		if err := finite(l.Title, b.Run, b.Depth); err != nil {
			return Drawing{}, err
		}
	}
	v := l.view()
	p := &paper{}
	v.grid(p)
	l.water(p, v)
	l.inside(p, v)
	l.corners(p, v)
	v.dimensions(p)
	bottom := l.key(p, v)
	note := fmt.Sprintf("Scale 1 : %s on paper, printed at 100%s%%. Grid of %s.", figure.Number(v.scale), figure.Space, figure.With(v.step, "m"))
	p.bar(marginLeft, bottom+2, v.scale, note)
	return Drawing{
		Title: l.Title, Sentence: l.sentence(v), Table: l.table(v), Scale: v.scale,
		width: roomWide + 4, height: bottom + 9, body: p.b.String(),
	}, nil
}

const (
	marginLeft = 13.0
	marginTop  = 7.0
)

// A view turns metres of a plan into millimetres of paper.
type view struct {
	low, high   Point // corners of the box around the outline, m
	scale, step float64
	left, top   float64 // where the box begins on paper
}

func (l Plan) view() view {
	v := view{low: l.Outline[0], high: l.Outline[0], left: marginLeft, top: marginTop}
	for _, q := range l.Outline {
		v.low = Point{min(v.low.X, q.X), min(v.low.Y, q.Y)}
		v.high = Point{max(v.high.X, q.X), max(v.high.Y, q.Y)}
	}
	v.scale = scaleFor(v.high.X-v.low.X, v.high.Y-v.low.Y, roomWide-marginLeft-6, roomHigh-50)
	v.step = niceBelow(20 * v.scale / 1000)
	return v
}

// at is a place on paper.
func (v view) at(q Point) Point {
	return Point{v.left + (q.X-v.low.X)*1000/v.scale, v.top + (v.high.Y-q.Y)*1000/v.scale}
}

func (v view) all(points []Point) []Point {
	made := make([]Point, len(points))
	for i, q := range points {
		made[i] = v.at(q)
	}
	return made
}

// grid draws lines of round metres from the origin of the survey.
func (v view) grid(p *paper) {
	for x := math.Ceil(v.low.X/v.step-1e-9) * v.step; x <= v.high.X+1e-9; x += v.step {
		at := v.at(Point{x, 0}).X
		p.line("grid", at, v.at(v.high).Y-3, at, v.at(v.low).Y+3, fine, faint, "")
	}
	for y := math.Ceil(v.low.Y/v.step-1e-9) * v.step; y <= v.high.Y+1e-9; y += v.step {
		at := v.at(Point{0, y}).Y
		p.line("grid", v.at(v.low).X-3, at, v.at(v.high).X+3, at, fine, faint, "")
	}
}

// water draws the bands of the bank. A stroke along the edge that is cut off at the edge reaches just as far inwards as half its
// width, which is the parallel line that the volume was worked out by, corners mitred and all.
func (l Plan) water(p *paper, v view) {
	edge := v.all(l.Outline)
	p.put(`<clipPath id="%s-water"><path d="%s"/></clipPath>`+"\n", ownID, path(edge, true))
	p.put(`<g clip-path="url(#%s-water)" stroke-linejoin="miter" stroke-miterlimit="50">`+"\n", ownID)
	floor := l.Depth
	if len(l.Bank) < 2 && len(l.Contours)+len(l.Soundings) > 0 {
		floor = 0 // the lines of depth or the soundings say what there is
	}
	p.shape("floor", edge, true, fmt.Sprintf(`fill="%s"`, tint(floor, l.Depth)))
	for i := len(l.Bank) - 1; i > 0; i-- {
		b := l.Bank[i]
		if b.Run <= l.Bank[i-1].Run { // upright: no band, seen from above
			continue
		}
		wide := 2 * b.Run * 1000 / v.scale
		p.shape("line", edge, true, fmt.Sprintf(`stroke="%s" stroke-width="%s"`, grey, mm(wide+2*fine)))
		p.shape("band", edge, true, fmt.Sprintf(`stroke="%s" stroke-width="%s"`, tint((b.Depth+l.Bank[i-1].Depth)/2, l.Depth), mm(wide)))
	}
	p.put("</g>\n")
	p.shape("edge", edge, true, fmt.Sprintf(`stroke="%s" stroke-width="%s" stroke-linejoin="round"`, ink, mm(thick)))
}

// inside draws lines of depth, soundings and what stands in the water.
func (l Plan) inside(p *paper, v view) {
	for _, c := range l.Contours {
		if len(c.Line) < 3 {
			continue
		}
		line := v.all(c.Line)
		p.shape("contour", line, true, fmt.Sprintf(`fill="%s" stroke="%s" stroke-width="%s"`, tint(c.Depth, l.Depth), grey, mm(medium)))
		p.halo(line[0].X, line[0].Y, "middle", figure.Number(c.Depth))
	}
	for _, s := range l.Soundings {
		at := v.at(s.At)
		p.put(`<circle class="sounding" cx="%s" cy="%s" r="0.5" fill="%s"/>`+"\n", mm(at.X), mm(at.Y), ink)
		p.halo(at.X+1, at.Y-0.8, "start", figure.Number(s.Depth))
	}
	for i, place := range l.Places {
		at := v.at(place.At)
		p.put(`<rect class="place" x="%s" y="%s" width="3" height="3" fill="#ffffff" stroke="%s" stroke-width="%s"/>`+"\n",
			mm(at.X-1.5), mm(at.Y-1.5), ink, mm(medium))
		p.halo(at.X+2.4, at.Y+1.2, "start", placeLetter(i))
	}
	if l.North != nil {
		l.arrow(p, v)
	}
}

func placeLetter(i int) string { return string(rune('A' + i%26)) }

// arrow points north, in the upper right corner.
func (l Plan) arrow(p *paper, v view) {
	x, y := v.at(v.high).X+4, v.top+4
	p.put(`<g class="north" transform="rotate(%s %s %s)"><path d="M%s %sl2 8l-2 -1.6l-2 1.6Z" fill="%s"/></g>`+"\n", mm(-*l.North), mm(x), mm(y), mm(x), mm(y-4), ink)
	p.text(x, y+9, "middle", "N", false)
}

// corners numbers what is set out with a tape.
func (l Plan) corners(p *paper, v view) {
	if len(l.Outline) > mostCorners {
		return
	}
	middle := v.at(Point{(v.low.X + v.high.X) / 2, (v.low.Y + v.high.Y) / 2})
	for i, q := range l.Outline {
		at := v.at(q)
		away := math.Hypot(at.X-middle.X, at.Y-middle.Y)
		p.put(`<circle class="corner" cx="%s" cy="%s" r="0.8" fill="%s"/>`+"\n", mm(at.X), mm(at.Y), ink)
		p.halo(at.X+2.8*(at.X-middle.X)/away, at.Y+2.8*(at.Y-middle.Y)/away+1.1, "middle", fmt.Sprint(i+1))
	}
}

// dimensions are those of the box around the outline, along the axes it was measured in.
func (v view) dimensions(p *paper) {
	low, high := v.at(v.low), v.at(v.high)
	p.across("dimension x", low.X, high.X, low.Y+10, figure.Fixed(v.high.X-v.low.X, 2)+figure.Space+"m")
	p.upright("dimension y", marginLeft-7, low.Y, high.Y, figure.Fixed(v.high.Y-v.low.Y, 2)+figure.Space+"m")
	for _, x := range []float64{low.X, high.X} {
		p.line("witness", x, low.Y+4, x, low.Y+11.5, fine, grey, "")
	}
	for _, y := range []float64{low.Y, high.Y} {
		p.line("witness", marginLeft-8.5, y, marginLeft-3.5, y, fine, grey, "")
	}
}

// key explains the shades, below the drawing, and gives where it ends.
func (l Plan) key(p *paper, v view) float64 {
	y := v.at(v.low).Y + 15
	for i, words := range l.bands() {
		p.put(`<rect x="%s" y="%s" width="6" height="3" fill="%s" stroke="%s" stroke-width="%s"/>`+"\n", mm(marginLeft), mm(y), words.fill, grey, mm(fine))
		p.text(marginLeft+8, y+2.6, "start", words.said, false)
		if i >= 0 {
			y += line
		}
	}
	for i, place := range l.Places {
		p.text(marginLeft, y+2.6, "start", placeLetter(i)+"  "+place.Name, false)
		y += line
	}
	return y
}

type band struct{ fill, said string }

// bands are the parts of the bay as they are seen from above, from the edge inwards.
func (l Plan) bands() []band {
	var made []band
	for i := 1; i < len(l.Bank); i++ {
		before, b := l.Bank[i-1], l.Bank[i]
		width := b.Run - before.Run
		if width <= 0 {
			continue
		}
		one := band{fill: tint((b.Depth+before.Depth)/2, l.Depth)}
		if b.Depth == before.Depth {
			one.said = fmt.Sprintf("shelf, %s down, %s wide", figure.With(b.Depth, "m"), figure.With(width, "m"))
		} else {
			one.said = fmt.Sprintf("side from %s to %s down, %s wide seen from above", figure.Number(before.Depth), figure.With(b.Depth, "m"), figure.With(width, "m"))
		}
		made = append(made, one)
	}
	for _, c := range l.Contours {
		if len(c.Line) > 2 {
			made = append(made, band{tint(c.Depth, l.Depth), fmt.Sprintf("deeper than %s", figure.With(c.Depth, "m"))})
		}
	}
	if len(l.Bank) > 1 || len(l.Contours)+len(l.Soundings) == 0 {
		made = append(made, band{tint(l.Depth, l.Depth), fmt.Sprintf("floor, %s down", figure.With(l.Depth, "m"))})
	}
	return made
}

// tint is darker the deeper.
func tint(depth, deepest float64) string {
	share := 0.0
	if deepest > 0 {
		share = min(max(depth/deepest, 0), 1)
	}
	mix := func(from, to float64) int { return int(math.Round(from + (to-from)*share)) }
	return fmt.Sprintf("#%02x%02x%02x", mix(236, 128), mix(243, 170), mix(244, 178))
}

func (l Plan) sentence(v view) string {
	said := fmt.Sprintf("Seen from above, at 1 to %s: %s by %s along the axes it was measured in.", figure.Number(v.scale),
		figure.With(v.high.X-v.low.X, "m"), figure.With(v.high.Y-v.low.Y, "m"))
	var parts []string
	for _, b := range l.bands() {
		parts = append(parts, b.said)
	}
	if len(parts) > 0 {
		said += " From the edge inwards: " + strings.Join(parts, "; ") + "."
	}
	if l.North == nil {
		said += " Which way north lies was not given."
	}
	return said
}

// table is for setting out: each corner from the origin of the survey, and how far it is from the corner before.
func (l Plan) table(v view) Table {
	if len(l.Outline) > mostCorners {
		return Table{}
	}
	t := Table{
		Caption: fmt.Sprintf("Corners at the water line, from the origin of the survey; grid lines every %s", figure.With(v.step, "m")),
		Head:    []string{"Corner", "x, m", "y, m", "from the corner before, m"},
	}
	for i, q := range l.Outline {
		before := l.Outline[(i+len(l.Outline)-1)%len(l.Outline)]
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), figure.Fixed(q.X, 2), figure.Fixed(q.Y, 2), figure.Fixed(math.Hypot(q.X-before.X, q.Y-before.Y), 2)})
	}
	return t
}

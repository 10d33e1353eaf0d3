package chart

import (
	"fmt"
	"strings"

	"example.com/pondwright/clients/internal/figure"
)

// PumpAndCircuit is a pump's curve against what its circuit asks for, and the points at which they meet. Flow lies along x and
// head along y, all in the two units named.
type PumpAndCircuit struct {
	Title              string
	FlowUnit, HeadUnit string // "L/h", "m"
	Pump               []Point
	// Measured are the points the curve was drawn through. Left out, none are marked.
	Measured []Point
	// Weak and Strong are the ends of the pump's tolerance.
	Weak, Strong []Point
	Demands      []Line
	Duties       []Mark
	// Wanted flow, from the least to the most. Most is 0 where nothing limits it from above.
	WantedLeast, WantedMost float64
}

// Draw makes the picture.
func (d PumpAndCircuit) Draw() (Picture, error) {
	if len(d.Pump) == 0 {
		return Picture{}, fmt.Errorf("picture %q: %w", d.Title, ErrNothing)
	}
	// A demand curve that climbs out of sight would press the pump's into a corner.
	most := 0.0
	for _, points := range [][]Point{d.Pump, d.Strong} {
		for _, p := range points {
			most = max(most, p.Y)
		}
	}
	most *= 1.12
	l := Lines{
		Title: d.Title, X: Axis{Name: "flow", Unit: d.FlowUnit, Min: new(0.0)}, Y: Axis{Name: "head", Unit: d.HeadUnit, Min: new(0.0), Max: &most},
		Lines: []Line{{Name: "what the pump gives", Points: d.Pump, Low: d.Weak, High: d.Strong}},
		Table: new(d.table()), Sentence: d.sentence(),
	}
	for _, demand := range d.Demands {
		l.Lines = append(l.Lines, Line{Name: "the circuit, " + demand.Name, Points: cut(demand.Points, most)})
	}
	if d.WantedLeast > 0 {
		l.Spans = []Span{{Name: "wanted", From: d.WantedLeast, To: d.WantedMost}}
	}
	for _, m := range d.Duties {
		l.Marks = append(l.Marks, Mark{At: m.At, Name: m.Name + ": " + d.at(m)})
	}
	return l.Draw()
}

// cut ends a rising line where it goes out of sight.
func cut(points []Point, most float64) []Point {
	for i, p := range points {
		if p.Y > most && i > 0 {
			before := points[i-1]
			share := (most - before.Y) / (p.Y - before.Y)
			return append(points[:i:i], Point{X: before.X + share*(p.X-before.X), Y: most})
		}
	}
	return points
}

func (d PumpAndCircuit) at(m Mark) string {
	return figure.With(m.At.X, d.FlowUnit) + " at " + figure.With(m.At.Y, d.HeadUnit)
}

func (d PumpAndCircuit) sentence() string {
	if len(d.Duties) == 0 {
		return "The pump's curve and what the circuit asks for do not meet."
	}
	var meets []string
	for _, m := range d.Duties {
		meets = append(meets, d.at(m)+" ("+m.Name+")")
	}
	said := "Pump and circuit meet at " + strings.Join(meets, ", ") + "."
	switch {
	case d.WantedLeast > 0 && d.WantedMost > 0:
		said += fmt.Sprintf(" Wanted are %s to %s.", figure.Number(d.WantedLeast), figure.With(d.WantedMost, d.FlowUnit))
	case d.WantedLeast > 0:
		said += fmt.Sprintf(" Wanted are at least %s.", figure.With(d.WantedLeast, d.FlowUnit))
	}
	return said
}

func (d PumpAndCircuit) table() Table {
	t := Table{Head: []string{"What", "flow, " + d.FlowUnit, "head, " + d.HeadUnit}}
	add := func(name string, p Point) {
		t.Rows = append(t.Rows, []string{name, figure.Number(p.X), figure.Number(p.Y)})
	}
	for _, m := range d.Duties {
		add(m.Name, m.At)
	}
	points, of := d.Measured, "pump, as measured"
	if len(points) == 0 {
		points, of = d.Pump, "pump"
	}
	for _, i := range shown(len(points)) {
		add(of, points[i])
	}
	for _, demand := range d.Demands {
		for _, i := range shownOf(len(demand.Points), 6) {
			add("circuit, "+demand.Name, demand.Points[i])
		}
	}
	return t
}

// Package mesh divides an outline with points in it into triangles, so that a floor can be drawn through soundings.
//
// The triangles are those of the constrained Delaunay triangulation: no side of the outline is crossed, and otherwise each
// is as compact as the points allow, so that depth is taken from near neighbours. The outline is first cut into triangles by
// clipping ears (Meisters 1975), each point splits the triangle it lies in, and sides are swapped (Lawson 1977)
// until none is worth it. Every state on the way is a valid division of the outline, so the swapping may stop at any time.
//
// # Libraries considered
//
// github.com/fogleman/delaunay knows no sides that must stay and, like github.com/go-spatial/geom, was not to be had from
// the module proxy. The wrappers of the library Triangle are C, which calc does not take.
// github.com/peterstace/simplefeatures leaves such work to GEOS, C again. go-hep.org/x/hep keeps its triangulation internal,
// and gonum has none. The tests hold this one against GEOS.
package mesh

import (
	"gonum.org/v1/gonum/spatial/r2"
)

// A Triangle is three points by number, anticlockwise: first those of the outline, then those inside.
type Triangle [3]int

// A Mesh is a division into triangles.
type Mesh struct {
	Points    []r2.Vec
	Triangles []Triangle

	at map[side]int // the triangle to the left of each of its sides
}

// A side goes from one point to another.
type side [2]int

func (s side) back() side { return side{s[1], s[0]} }

// New divides a simple outline, given anticlockwise, with points inside it. No two points may be the same.
func New(outline, inside []r2.Vec) *Mesh {
	m := &Mesh{at: map[side]int{}}
	m.Points = append(append(m.Points, outline...), inside...)
	for _, t := range clipEars(outline) {
		m.add(t)
	}
	m.swapAll()
	for i := range inside {
		m.insert(len(outline) + i)
	}
	return m
}

func (m *Mesh) add(t Triangle) {
	m.Triangles = append(m.Triangles, t)
	m.register(len(m.Triangles) - 1)
}

func (m *Mesh) register(i int) {
	t := m.Triangles[i]
	for k := range 3 {
		m.at[side{t[k], t[(k+1)%3]}] = i
	}
}

// insert splits the triangle in which the point lies.
func (m *Mesh) insert(p int) {
	i := m.holding(m.Points[p])
	t := m.Triangles[i]
	m.Triangles[i] = Triangle{t[0], t[1], p}
	m.register(i)
	m.add(Triangle{t[1], t[2], p})
	m.add(Triangle{t[2], t[0], p})
	m.swap([]side{{t[0], t[1]}, {t[1], t[2]}, {t[2], t[0]}})
}

// holding is the triangle in which p lies deepest, by its least share of the corners.
func (m *Mesh) holding(p r2.Vec) (best int) {
	most := -1.0
	for i, t := range m.Triangles {
		a, b, c := m.Points[t[0]], m.Points[t[1]], m.Points[t[2]]
		whole := Twice(a, b, c)
		if whole <= 0 {
			continue
		}
		if least := min(Twice(a, b, p), Twice(b, c, p), Twice(c, a, p)) / whole; i == 0 || least > most {
			best, most = i, least
		}
	}
	return best
}

// Twice is twice the area of the triangle, negative for one that is given clockwise.
func Twice(a, b, c r2.Vec) float64 { return r2.Cross(r2.Sub(b, a), r2.Sub(c, a)) }

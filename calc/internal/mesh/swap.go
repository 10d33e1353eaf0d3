package mesh

import (
	"gonum.org/v1/gonum/spatial/r2"
)

// swapAll swaps sides from the start.
func (m *Mesh) swapAll() {
	var sides []side
	for _, t := range m.Triangles {
		for k := range 3 {
			sides = append(sides, side{t[k], t[(k+1)%3]})
		}
	}
	m.swap(sides)
}

// swap looks at sides, and at those around any that it swaps. Lawson's swaps come to an end; the count guards against
// rounding that goes round in a circle.
func (m *Mesh) swap(sides []side) {
	left := 100 * len(m.Points) * (len(sides) + 1)
	for ; len(sides) > 0 && left > 0; left-- {
		s := sides[len(sides)-1]
		sides = sides[:len(sides)-1]
		sides = append(sides, m.swapOne(s)...)
	}
}

// swapOne turns the side between two triangles into the other diagonal where that makes them more compact, and gives the four
// sides around.
func (m *Mesh) swapOne(s side) []side {
	i, ok := m.at[s]
	j, both := m.at[s.back()]
	if !ok || !both { // gone by now, or a side of the outline
		return nil
	}
	a, b := s[0], s[1]
	c, d := m.Triangles[i].opposite(s), m.Triangles[j].opposite(s.back())
	if !m.better(a, b, c, d) {
		return nil
	}
	delete(m.at, s)
	delete(m.at, s.back())
	m.Triangles[i], m.Triangles[j] = Triangle{c, a, d}, Triangle{d, b, c}
	m.register(i)
	m.register(j)
	return []side{{c, a}, {a, d}, {d, b}, {b, c}}
}

// opposite is the corner that is not on the side.
func (t Triangle) opposite(s side) int { return t[0] + t[1] + t[2] - s[0] - s[1] }

// better says whether d lies in the circle through a, b and c by more than rounding, and the diagonal c-d inside the four.
func (m *Mesh) better(a, b, c, d int) bool {
	p := m.Points
	if Twice(p[c], p[a], p[d]) <= 0 || Twice(p[d], p[b], p[c]) <= 0 {
		return false
	}
	const rounding = 1e-12
	u, v, w := r2.Sub(p[a], p[d]), r2.Sub(p[b], p[d]), r2.Sub(p[c], p[d])
	inside := r2.Norm2(u)*r2.Cross(v, w) + r2.Norm2(v)*r2.Cross(w, u) + r2.Norm2(w)*r2.Cross(u, v)
	scale := max(r2.Norm2(u), r2.Norm2(v), r2.Norm2(w))
	return inside > rounding*scale*scale
}

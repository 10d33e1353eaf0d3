package outline

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"example.com/pondwright/calc/internal/mesh"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// volume adds up the water over the triangles.
func (f floor) volume(t *working.Trail) (sum unit.Volume) {
	x := func(p int) unit.Length { return unit.Metres(f.Points[p].X) }
	y := func(p int) unit.Length { return unit.Metres(f.Points[p].Y) }
	z := func(p int) unit.Length { return unit.Metres(f.depth[p]) }
	for _, c := range f.Triangles {
		sum = SoundedPrism.Run(t, PrismInput{
			Above: sum,
			X1:    x(c[0]), Y1: y(c[0]), Z1: z(c[0]),
			X2: x(c[1]), Y2: y(c[1]), Z2: z(c[1]),
			X3: x(c[2]), Y3: y(c[2]), Z3: z(c[2]),
		})
	}
	return sum
}

// layers cuts the water at the depth of each corner. In between, the section of each triangle, and so the whole, is a quadratic
// in depth.
func (f floor) layers() []layer {
	levels := append(slices.Clone(f.depth), 0)
	slices.Sort(levels)
	levels = slices.Compact(levels)
	layers := make([]layer, 0, len(levels))
	for i, bottom := range levels[1:] {
		l := layer{top: levels[i], bottom: bottom}
		for _, c := range f.Triangles {
			l.addTriangle(f.area(c), f.depths(c))
		}
		layers = append(layers, l)
	}
	return layers
}

// addTriangle adds the section of the water over a triangle with corners a, b and c deep, of area T:
//
//	T above a;  T (1 - (z - a)² / ((b - a)(c - a))) to b;  T (c - z)² / ((c - b)(c - a)) to c
func (l *layer) addTriangle(area float64, deep [3]float64) {
	a, b, c := deep[0], deep[1], deep[2]
	var held, from, bend float64 // the section is held + bend (z - from)²
	switch {
	case l.bottom <= a:
		held = area
	case l.bottom <= b:
		held, from, bend = area, a, -area/((b-a)*(c-a))
	case l.bottom <= c:
		from, bend = c, area/((c-b)*(c-a))
	default:
		return
	}
	x := l.top - from
	l.area += held + bend*x*x
	l.slope += 2 * bend * x
	l.bend += bend
}

// depths are those of the corners, from the shallowest.
func (f floor) depths(c mesh.Triangle) [3]float64 {
	d := [3]float64{f.depth[c[0]], f.depth[c[1]], f.depth[c[2]]}
	slices.Sort(d[:])
	return d
}

// area of the triangle in plan.
func (f floor) area(c mesh.Triangle) float64 {
	return math.Abs(mesh.Twice(f.Points[c[0]], f.Points[c[1]], f.Points[c[2]])) / 2
}

// wetted is the floor measured on the slope, and the bank down to its foot.
func (f floor) wetted() unit.Area {
	var sum float64
	for p := range f.edge {
		q := (p + 1) % f.edge
		sum += r2.Norm(r2.Sub(f.Points[p], f.Points[q])) * (f.depth[p] + f.depth[q]) / 2
	}
	for _, c := range f.Triangles {
		u, v := r2.Sub(f.Points[c[1]], f.Points[c[0]]), r2.Sub(f.Points[c[2]], f.Points[c[0]])
		du, dv := f.depth[c[1]]-f.depth[c[0]], f.depth[c[2]]-f.depth[c[0]]
		sum += math.Hypot(r2.Cross(u, v), r2.Norm(r2.Sub(r2.Scale(dv, u), r2.Scale(du, v)))) / 2
	}
	return unit.SquareMetres(sum)
}

// volumeError holds what the triangles miss of the outline or cover twice, and what stands for a curved edge.
func (f floor) volumeError(p Plan, area float64) unit.Ratio {
	var sum float64
	for _, c := range f.Triangles {
		sum += f.area(c)
	}
	off := rounding + math.Abs(sum/area-1)
	if _, curved := p.(Ellipse); curved {
		off += curveMiss
	}
	return unit.Ratio(off)
}

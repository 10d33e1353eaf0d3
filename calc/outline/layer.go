package outline

import (
	"math"

	"example.com/pondwright/calc/unit"
)

// A layer is the water between two depths in which sides neither step nor meet. With x = z - top its section is
// area + slope x + bend x².
type layer struct {
	top, bottom       float64 // m below the surface
	stretch           stretch // of the plan's way inwards that holds here
	inset             float64 // m, at the top of the layer
	batter            float64
	area, slope, bend float64
	girth, taper      float64 // perimeter girth + taper x
}

func newLayer(in inset, top, bottom, d, batter float64) layer {
	s := in.at(d)
	return layer{
		top: top, bottom: bottom, stretch: s, inset: d, batter: batter,
		area: s.areaAt(d), slope: -batter * s.perimeterAt(d), bend: batter * batter * s.corners,
		girth: s.perimeterAt(d), taper: -2 * batter * s.corners,
	}
}

// areaAt is the section at depth z.
func (l layer) areaAt(z float64) float64 {
	x := z - l.top
	return max(0, l.area+x*(l.slope+x*l.bend))
}

// volumeTo is the water of the layer above depth z.
func (l layer) volumeTo(z float64) float64 {
	x := z - l.top
	return x * (l.area + x*(l.slope/2+x*l.bend/3))
}

// wallBelow is the surface of the layer's sides below depth z.
func (l layer) wallBelow(z float64) float64 {
	upTo := func(x float64) float64 { return x * (l.girth + x*l.taper/2) }
	return math.Hypot(1, l.batter) * (upTo(l.bottom-l.top) - upTo(max(0, z-l.top)))
}

// A side is one part of the way from the surface to the floor: so far inwards, so far down. A level shelf has no drop.
type side struct{ run, drop float64 }

// sides are the bay's sides from the surface down.
func (b Bay) sides() []side {
	var out []side
	top, batter := unit.Metres(0), b.Batter.Float()
	down := func(bottom unit.Length) {
		drop := (bottom - top).Metres()
		out = append(out, side{run: batter * drop, drop: drop})
		top = bottom
	}
	for _, step := range b.Steps {
		down(step.Depth)
		out = append(out, side{run: step.Width.Metres()})
		if step.Batter != nil {
			batter = step.Batter.Float()
		}
	}
	down(b.Depth)
	return out
}

// layersOf cuts the water at its shelves and wherever the sides meet on the way down.
func layersOf(in inset, sides []side) []layer {
	var out []layer
	d, top := 0.0, 0.0
	for _, s := range sides {
		if s.drop == 0 {
			d += s.run
			continue
		}
		end, bottom, batter := d+s.run, top+s.drop, s.run/s.drop
		for _, event := range in.between(d, end) {
			z := top + (event-d)/batter
			out = append(out, newLayer(in, top, z, d, batter))
			d, top = event, z
		}
		out = append(out, newLayer(in, top, bottom, d, batter))
		d, top = end, bottom
	}
	return out
}

package outline

import (
	"math"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// hair is a depth within which two depths are the same but for rounding.
const hair = 1e-9 // m

// A Curve is how area and volume of a bay go with the depth of the level below full. It is as exact as the volume.
type Curve struct {
	layers []layer
	upTo   []float64 // m³, volume above the top of each layer
	volume float64   // m³
}

func newCurve(layers []layer) Curve {
	c := Curve{layers: layers}
	for _, l := range layers {
		c.upTo = append(c.upTo, c.volume)
		c.volume += l.volumeTo(l.bottom)
	}
	return c
}

// Depth is the greatest depth.
func (c Curve) Depth() unit.Length {
	if len(c.layers) == 0 {
		return 0
	}
	return unit.Metres(c.layers[len(c.layers)-1].bottom)
}

// Volume is what the full bay holds.
func (c Curve) Volume() unit.Volume { return unit.CubicMetres(c.volume) }

// AreaAt is the water's surface when the level has fallen to that depth below full. Level with a shelf it is the surface
// over the shelf. Above full it is that of the full bay and below the floor it is none.
func (c Curve) AreaAt(fallen unit.Length) unit.Area {
	z := max(0, fallen.Metres())
	for _, l := range c.layers {
		if z <= l.bottom+hair {
			return unit.SquareMetres(l.areaAt(z))
		}
	}
	return 0
}

// VolumeLost is what has gone when the level has fallen that far below full: litres for a drop.
func (c Curve) VolumeLost(fallen unit.Length) unit.Volume { return c.lost(nil, fallen) }

func (c Curve) lost(t *working.Trail, fallen unit.Length) unit.Volume {
	z := max(0, fallen.Metres())
	for i, l := range c.layers {
		if z <= l.bottom+hair {
			return LayerPart.Run(t, PartInput{
				Above: unit.CubicMetres(c.upTo[i]), Area: unit.SquareMetres(l.area), Slope: unit.Metres(l.slope), Bend: l.bend,
				Down: unit.Metres(z - l.top),
			})
		}
	}
	return c.Volume()
}

// VolumeBelow is the water deeper than that below full, and so what is left when the level has fallen so far.
func (c Curve) VolumeBelow(depth unit.Length) unit.Volume {
	return max(0, c.Volume()-c.VolumeLost(depth))
}

// ShareBelow is the part of the full bay's water that lies deeper than that, such as the winter refuge below 0.6 m.
func (c Curve) ShareBelow(depth unit.Length) unit.Ratio {
	if c.volume == 0 {
		return 0
	}
	return unit.Ratio(c.VolumeBelow(depth) / c.Volume())
}

// DropFor is how far the level falls when that much water goes from the full bay: drop for litres. More than the bay
// holds empties it, and it says so with false.
func (c Curve) DropFor(lost unit.Volume) (unit.Length, bool) {
	v := lost.CubicMetres()
	if !(v <= c.volume) {
		return c.Depth(), false
	}
	for i, l := range c.layers {
		if v <= c.upTo[i]+l.volumeTo(l.bottom) {
			return unit.Metres(l.depthFor(max(0, v-c.upTo[i]))), true
		}
	}
	return c.Depth(), true
}

// wettedBelow is the surface of floor, shelves and sides below depth z, measured on the slope.
func (c Curve) wettedBelow(z float64) float64 {
	var sum float64
	for i, l := range c.layers {
		if z > l.bottom+hair {
			continue
		}
		sum += l.wallBelow(z) + l.areaAt(l.bottom)
		if i+1 < len(c.layers) {
			sum -= c.layers[i+1].area
		}
	}
	return sum
}

// depthFor is the depth above which the layer holds v.
func (l layer) depthFor(v float64) float64 {
	return halve(l.top, l.bottom, func(z float64) float64 { return l.volumeTo(z) - v })
}

// halve finds where a function that never falls crosses zero, to the last bit.
func halve(low, high float64, f func(float64) float64) float64 {
	for {
		middle := low + (high-low)/2
		if middle <= low || middle >= high {
			break
		}
		if f(middle) < 0 {
			low = middle
		} else {
			high = middle
		}
	}
	if math.Abs(f(low)) < math.Abs(f(high)) {
		return low
	}
	return high
}

package season

import (
	"sort"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
)

// A Shape is how area and level go with the water that is missing from a full pond.
type Shape struct {
	full  unit.Volume
	lines []line // from full down
}

type line struct{ fallen, area, lost float64 }

// Upright is a pond whose sides go straight down.
func Upright(full unit.Volume, surface unit.Area) Shape {
	return Shape{full: full, lines: []line{{0, surface.SquareMetres(), 0}, {full.CubicMetres() / surface.SquareMetres(), surface.SquareMetres(), full.CubicMetres()}}}
}

// fine is into how many steps the space between two levels of a table is cut: area is a straight line there.
const fine = 20

// AtLevel is a surface below full.
type AtLevel struct {
	Fallen  unit.Length
	Surface unit.Area
}

// FromTable is a pond whose surface was told at some levels, in order from the top. Problems are in err, an input.Errors with
// fields from levels on.
func FromTable(full unit.Volume, surface unit.Area, levels []AtLevel) (Shape, error) {
	if len(levels) == 0 {
		return Upright(full, surface), nil
	}
	var problems input.Errors
	s := Shape{full: full, lines: []line{{0, surface.SquareMetres(), 0}}}
	for i, l := range levels {
		above := s.lines[len(s.lines)-1]
		if !(l.Fallen.Metres() > above.fallen) || !(l.Surface.SquareMetres() <= above.area) || l.Surface < 0 {
			problems.Add("levels", "give levels from the top down, each deeper than the last and with no more surface", "level %d does not lie below the one before, or its surface is larger", i+1)
			return Shape{}, problems.Err()
		}
		for k := 1; k <= fine; k++ {
			part, last := float64(k)/fine, s.lines[len(s.lines)-1]
			next := line{fallen: above.fallen + part*(l.Fallen.Metres()-above.fallen), area: above.area + part*(l.Surface.SquareMetres()-above.area)}
			next.lost = last.lost + (next.fallen-last.fallen)*(next.area+last.area)/2
			s.lines = append(s.lines, next)
		}
	}
	if lost := s.lines[len(s.lines)-1].lost; lost > full.CubicMetres()*1.001 {
		problems.Add("levels", "look for a wrong depth or a wrong volume", "down to the lowest level there are %.0f L, and the pond holds %.0f L", 1000*lost, full.Litres())
	}
	return s, problems.Err()
}

// FromDrawing is a pond that was drawn, less what stands in the water: it holds full in all.
func FromDrawing(full unit.Volume, water outline.Joined) Shape {
	const steps = 200
	s := Shape{full: full}
	for k := range steps + 1 {
		// Levels lie close together near the top, where the water stands.
		part := float64(k) / steps
		fallen := unit.Length(part*part) * water.Depth()
		s.lines = append(s.lines, line{fallen: fallen.Metres(), area: water.AreaAt(fallen).SquareMetres(), lost: water.VolumeLost(fallen).CubicMetres()})
	}
	return s
}

// Surface is that of the full pond.
func (s Shape) Surface() unit.Area { return unit.SquareMetres(s.lines[0].area) }

// Full is what the pond holds.
func (s Shape) Full() unit.Volume { return s.full }

// at gives area and fallen level where so much is missing; a pond above full has upright sides.
func (s Shape) at(lost float64) (area, fallen float64) {
	if lost <= 0 {
		return s.lines[0].area, lost / s.lines[0].area
	}
	i := sort.Search(len(s.lines), func(i int) bool { return s.lines[i].lost >= lost })
	if i == len(s.lines) {
		last := s.lines[i-1]
		return last.area, last.fallen
	}
	low, high := s.lines[i-1], s.lines[i]
	part := 0.0
	if high.lost > low.lost {
		part = (lost - low.lost) / (high.lost - low.lost)
	}
	return low.area + part*(high.area-low.area), low.fallen + part*(high.fallen-low.fallen)
}

// lostAt is what is missing where the level has fallen so far.
func (s Shape) lostAt(fallen float64) float64 {
	if fallen <= 0 {
		return fallen * s.lines[0].area
	}
	i := sort.Search(len(s.lines), func(i int) bool { return s.lines[i].fallen >= fallen })
	if i == len(s.lines) {
		return s.lines[i-1].lost
	}
	low, high := s.lines[i-1], s.lines[i]
	return low.lost + (fallen-low.fallen)/(high.fallen-low.fallen)*(high.lost-low.lost)
}

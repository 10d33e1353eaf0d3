package survey

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// An Offset is where both banks lie at one place along a string line: their distances from the string, square to it,
// left and right seen along it. A bank beyond the string, on the other side, has a negative distance.
type Offset struct {
	Along       unit.Length
	Left, Right unit.Length
}

// width is the water across the string.
func (o Offset) width() unit.Length { return o.Left + o.Right }

// OffsetAreas are the two areas offsets give: with banks straight from offset to offset, and, where the offsets are
// evenly spaced and odd in number, with banks that bend through them.
type OffsetAreas struct {
	Straight unit.Area
	Bent     unit.Area
	HasBent  bool
}

// StringLine finds the outline from offsets, in order along the string, which is x, with left along y. At an end the banks may meet in one point, which
// has Left = -Right. Errors are input.Errors with paths as "offsets[2].along_m".
func StringLine(t *working.Trail, offsets []Offset) (Surveyed, OffsetAreas, error) {
	if err := checkOffsets(offsets).Err(); err != nil {
		return Surveyed{}, OffsetAreas{}, err
	}
	var s Surveyed
	var from []int // the offset of each point
	point := func(i int, y unit.Length) {
		s.Outline.Points = append(s.Outline.Points, outline.Point{X: offsets[i].Along, Y: y})
		from = append(from, i)
	}
	for i, o := range offsets {
		point(i, -o.Right)
	}
	for i := len(offsets) - 1; i >= 0; i-- {
		if o := offsets[i]; o.width() > 0 {
			point(i, o.Left)
		}
	}
	s, err := finish(s, nil, nil, func(point int) string {
		if point < 0 {
			return "offsets"
		}
		return inList("offsets", 0)(from[point])
	})
	if err != nil {
		return Surveyed{}, OffsetAreas{}, err
	}
	return s, areas(t, offsets), nil
}

func areas(t *working.Trail, offsets []Offset) OffsetAreas {
	var a OffsetAreas
	for i, o := range offsets[1:] {
		before := offsets[i]
		a.Straight += TrapezoidStrip.Run(t, StripInput{First: before.width(), Second: o.width(), Spacing: o.Along - before.Along})
	}
	if len(offsets)%2 == 0 || !even(offsets) {
		return a
	}
	a.HasBent = true
	for i := 0; i+2 < len(offsets); i += 2 {
		a.Bent += SimpsonPair.Run(t, PairInput{
			First: offsets[i].width(), Second: offsets[i+1].width(), Third: offsets[i+2].width(),
			Spacing: (offsets[i+2].Along - offsets[i].Along) / 2,
		})
	}
	return a
}

// even says whether the offsets are evenly spaced, to a millimetre.
func even(offsets []Offset) bool {
	spacing := offsets[1].Along - offsets[0].Along
	for i, o := range offsets[1:] {
		if math.Abs((o.Along - offsets[i].Along - spacing).Millimetres()) > 1 {
			return false
		}
	}
	return true
}

func checkOffsets(offsets []Offset) input.Errors {
	var errs input.Errors
	if len(offsets) < 2 || len(offsets) > 150 {
		errs.Add("offsets", "give 2 to 150 in order along the string", "there are %d offsets", len(offsets))
		return errs
	}
	reach := func(l unit.Length) bool { return math.Abs(l.Metres()) <= 1e3 }
	for i, o := range offsets {
		field := fmt.Sprintf("offsets[%d]", i)
		if !reach(o.Along) || !reach(o.Left) || !reach(o.Right) {
			errs.Add(field, "give distances up to 1 km", "offset %d is not a distance on a string", i)
			continue
		}
		if i > 0 && o.Along <= offsets[i-1].Along {
			errs.Add(field+".along_m", "give the offsets in order along the string, each place once",
				"offset %d at %g m does not come after the one before it at %g m", i, o.Along.Metres(), offsets[i-1].Along.Metres())
		}
		atEnd := i == 0 || i == len(offsets)-1
		switch w := o.width(); {
		case w < 0:
			errs.Add(field, "a bank beyond the string has a negative distance; look for a wrong sign",
				"at %g m the left bank lies %.3g m to the right of the right bank", o.Along.Metres(), -w.Metres())
		case w == 0 && !atEnd:
			errs.Add(field, "survey the two parts as two ponds", "at %g m the banks meet and part the water", o.Along.Metres())
		}
	}
	return errs
}

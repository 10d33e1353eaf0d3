package outline

import "example.com/pondwright/calc/unit"

// A BankPoint is a corner of the section of a side: so far inwards from the water line, so far down.
type BankPoint struct{ Run, Depth unit.Length }

// Bank is the section of a side, from the water line over every shelf to the floor. A bay by contours or soundings has none.
func (b Bay) Bank() []BankPoint {
	if len(b.Contours) > 0 || b.Soundings != nil {
		return nil
	}
	points := []BankPoint{{}}
	for _, s := range b.sides() {
		last := points[len(points)-1]
		points = append(points, BankPoint{Run: last.Run + unit.Metres(s.run), Depth: last.Depth + unit.Metres(s.drop)})
	}
	return points
}

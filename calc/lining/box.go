package lining

import (
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Box is a lining welded to the shape of a formal pond, without folds.
type Box struct {
	Length, Width, Depth unit.Length // inside, from the rim down
	Material             unit.Area   // floor, walls and what goes over the rim
}

// Boxed finds the lining of a rectangular bay with upright sides and no shelves. The error is an input.Errors: that of
// outline.Measure, or one that says why the bay is no box.
func Boxed(t *working.Trail, b outline.Bay, e Edge) (Box, error) {
	var errs input.Errors
	if _, err := outline.Measure(nil, b); err != nil {
		return Box{}, err
	}
	const change = "ask for a flat sheet, or have this shape measured by whoever welds it"
	r, isRectangle := b.Plan.(outline.Rectangle)
	if !isRectangle {
		errs.Add("", change, "a boxed lining is for a rectangle, and this outline is none")
	}
	if len(b.Steps) > 0 || !hasSides(b) {
		errs.Add("", change, "a boxed lining is for one level floor")
	}
	if b.Batter > 0 {
		errs.Add("batter", change, "a boxed lining is for upright sides")
	}
	errs = append(errs, e.check()...)
	if len(errs) > 0 {
		return Box{}, errs
	}
	box := Box{Length: max(r.Length, r.Width), Width: min(r.Length, r.Width), Depth: b.Depth + e.Freeboard}
	box.Material = BoxSheet.Run(t, BoxInput{Length: box.Length, Width: box.Width, Depth: box.Depth, Edge: e.beyond()})
	return box, nil
}

package outline

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// A Bay is a body of water by its edge in plan and by how deep it is: a floor with sides and shelves, or contours, or
// soundings, of which only one may be given.
type Bay struct {
	Plan   Plan
	Depth  unit.Length // greatest, from the water's surface; 0 where contours or soundings say it
	Steps  []Step      // from the surface down
	Batter unit.Ratio  // how far the sides go inwards for each metre down; 0 is vertical

	Contours  []Contour // below the surface, down to the deepest
	Soundings *Soundings
}

// A Step is a level shelf all round the bay.
type Step struct {
	Depth, Width unit.Length
	Batter       *unit.Ratio // of the side below the shelf, where it leans otherwise than the one above
}

// check finds everything that is wrong with the bay, but for shelves too wide for the plan.
func (b Bay) check() input.Errors {
	var errs input.Errors
	checkPlan(&errs, b.Plan)
	checkBatter(&errs, "batter", b.Batter)
	if len(b.Contours) > 0 || b.Soundings != nil {
		b.checkOneWay(&errs)
		return errs
	}
	checkLength(&errs, "depth_m", "depth", b.Depth)
	b.checkSteps(&errs)
	return errs
}

// checkOneWay refuses shelves that are told twice, and a greatest depth that is not that of the deepest contour or sounding.
func (b Bay) checkOneWay(errs *input.Errors) {
	const change = "say where the shelves are in one way: by depth and width, by contours, or by soundings"
	if len(b.Steps) > 0 {
		errs.Add("steps", change, "contours or soundings say where the shelves are already")
	}
	if len(b.Contours) > 0 && b.Soundings != nil {
		errs.Add("soundings", change, "contours say how deep the bay is already")
	}
	const tape = unit.Length(0.001)
	if deepest := b.deepest(); b.Depth != 0 && !(math.Abs(float64(b.Depth-deepest)) <= float64(tape)) {
		errs.Add("depth_m", "measure the deepest place again, and give it a contour or a sounding",
			"the greatest depth of %g m is not that of the deepest contour or sounding, %g m", b.Depth.Metres(), deepest.Metres())
	}
}

// deepest is the depth of the deepest contour or sounding.
func (b Bay) deepest() (deepest unit.Length) {
	for _, c := range b.Contours {
		deepest = max(deepest, c.Depth)
	}
	if b.Soundings != nil {
		deepest = max(deepest, b.Soundings.EdgeDepth)
		for _, s := range b.Soundings.Taken {
			deepest = max(deepest, s.Depth)
		}
	}
	return deepest
}

func checkBatter(errs *input.Errors, field string, batter unit.Ratio) {
	const flattest = 100
	if !(batter >= 0 && batter <= flattest) {
		errs.Add(field, "give metres inwards for each metre down, between 0 and 100", "the batter cannot be %g", batter.Float())
	}
}

func (b Bay) checkSteps(errs *input.Errors) {
	if len(b.Steps) > mostSteps {
		errs.Add("steps", fmt.Sprintf("give at most %d", mostSteps), "there are %d shelves", len(b.Steps))
		return
	}
	above := unit.Metres(0)
	for i, step := range b.Steps {
		depth := fmt.Sprintf("steps[%d].depth_m", i)
		checkLength(errs, fmt.Sprintf("steps[%d].width_m", i), "width of the shelf", step.Width)
		if step.Batter != nil {
			checkBatter(errs, fmt.Sprintf("steps[%d].batter_below", i), *step.Batter)
		}
		if !checkLength(errs, depth, "depth of the shelf", step.Depth) {
			continue
		}
		switch {
		case step.Depth <= above:
			errs.Add(depth, "give the shelves from the surface down, each once",
				"shelf %d at %g m is not below the one before it at %g m", i, step.Depth.Metres(), above.Metres())
		case step.Depth >= b.Depth && b.Depth > 0:
			errs.Add(depth, "give a shelf above the floor, or a deeper pond",
				"shelf %d at %g m is not above the floor at %g m", i, step.Depth.Metres(), b.Depth.Metres())
		}
		above = step.Depth
	}
}

// reach is how far the sides come inwards down to the floor.
func (b Bay) reach() float64 {
	var d float64
	for _, s := range b.sides() {
		d += s.run
	}
	return d
}

// Section is one side from the surface to the floor: how far it comes inwards, and how long it is on the ground, down
// slopes and over shelves. It is known of a bay with sides and shelves alone.
func (b Bay) Section() (run, slope unit.Length) {
	for _, s := range b.sides() {
		run += unit.Metres(s.run)
		slope += unit.Metres(math.Hypot(s.run, s.drop))
	}
	return run, slope
}

// checkRoom says where the sides meet, if they do before the floor. Sides that meet just at the floor are allowed.
func (b Bay) checkRoom(in inset) error {
	var errs input.Errors
	const rounding = 1e-9
	room := in.end * (1 + rounding)
	from, top, shelves := 0.0, 0.0, 0
	for _, s := range b.sides() {
		gone, foot := from+s.run, top+s.drop
		switch {
		case s.drop > 0 && gone > room:
			errs.Add(b.leaning(shelves), "make the sides steeper, the shelves narrower or the pond shallower",
				"nothing is left of the pond below %.3g m: the sides meet %.3g m in from the edge",
				top+(in.end-from)*s.drop/s.run, in.end)
			return errs
		case s.drop == 0 && gone >= in.end:
			errs.Add(fmt.Sprintf("steps[%d].width_m", shelves), "make the shelves narrower or the sides steeper",
				"nothing is left of the pond below %.3g m: the shelf ends %.3g m in from the edge and the sides meet at %.3g m",
				top, gone, in.end)
			return errs
		case s.drop == 0:
			shelves++
		}
		from, top = gone, foot
	}
	return nil
}

// leaning is the field that says how the side below so many shelves leans.
func (b Bay) leaning(shelves int) string {
	for i := shelves - 1; i >= 0; i-- {
		if b.Steps[i].Batter != nil {
			return fmt.Sprintf("steps[%d].batter_below", i)
		}
	}
	return "batter"
}

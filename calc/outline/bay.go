package outline

import (
	"fmt"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// A Bay is a body of water with one floor: its edge in plan, and how the sides go down to the floor.
type Bay struct {
	Plan   Plan
	Depth  unit.Length // greatest, from the water's surface
	Steps  []Step      // from the surface down
	Batter unit.Ratio  // how far the sides go inwards for each metre down; 0 is vertical
}

// A Step is a level shelf all round the bay.
type Step struct{ Depth, Width unit.Length }

// check finds everything that is wrong with the bay, but for shelves too wide for the plan.
func (b Bay) check() input.Errors {
	var errs input.Errors
	checkPlan(&errs, b.Plan)
	checkLength(&errs, "depth_m", "depth", b.Depth)
	const flattest = 100
	if batter := b.Batter.Float(); !(batter >= 0 && batter <= flattest) {
		errs.Add("batter", "give metres inwards for each metre down, between 0 and 100", "the batter cannot be %g", batter)
	}
	b.checkSteps(&errs)
	return errs
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
	d := b.Batter.Float() * b.Depth.Metres()
	for _, step := range b.Steps {
		d += step.Width.Metres()
	}
	return d
}

// checkRoom says where the sides meet, if they do before the floor. Sides that meet just at the floor are allowed.
func (b Bay) checkRoom(in inset) error {
	var errs input.Errors
	const rounding = 1e-9
	room := in.end * (1 + rounding)
	from, top := 0.0, 0.0
	for i := 0; ; i++ {
		foot := b.Depth.Metres()
		if i < len(b.Steps) {
			foot = b.Steps[i].Depth.Metres()
		}
		if gone := from + b.Batter.Float()*(foot-top); gone > room {
			errs.Add("batter", "make the sides steeper, the shelves narrower or the pond shallower",
				"nothing is left of the pond below %.3g m: the sides meet %.3g m in from the edge",
				top+(in.end-from)/b.Batter.Float(), in.end)
			return errs
		}
		if i == len(b.Steps) {
			return nil
		}
		from += b.Batter.Float()*(foot-top) + b.Steps[i].Width.Metres()
		top = foot
		if from >= in.end {
			errs.Add(fmt.Sprintf("steps[%d].width_m", i), "make the shelves narrower or the sides steeper",
				"nothing is left of the pond below %.3g m: the shelf ends %.3g m in from the edge and the sides meet at %.3g m",
				top, from, in.end)
			return errs
		}
	}
}

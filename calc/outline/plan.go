package outline

import (
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Plan is the shape of the water's edge seen from above: a Rectangle, an Ellipse or a Polygon.
type Plan interface {
	// check adds everything that is wrong with the plan.
	check(*input.Errors)
	// surface measures the plan itself. Like inset it asks for a plan that passed check.
	surface(*working.Trail) surface
	// inset follows the water's edge inwards up to the distance limit.
	inset(surface surface, limit float64) (inset, error)
}

// A Rectangle has square corners. A square is one.
type Rectangle struct{ Length, Width unit.Length }

// An Ellipse has two full axes, not half axes. A circle is one.
type Ellipse struct{ Length, Width unit.Length }

// A Polygon has straight sides from each point to the next and from the last back to the first, either way round.
type Polygon struct{ Points []Point }

// A Point is a place in plan. Any origin will do, also that of a map grid.
type Point struct{ X, Y unit.Length }

// A surface is what can be said of the water's surface before any depth.
type surface struct {
	area, perimeter float64 // m², m
	length, width   float64 // m, of the smallest rectangle around the plan, length the longer
	how             string  // how they were found
}

// Tapes and eyes have limits; these bounds keep every result finite.
const (
	shortest  = 1e-3 // m
	longest   = 1e4  // m
	farthest  = 1e8  // m from the origin of a grid, where coordinates still resolve 15 nm
	mostSides = 300  // of a polygon: the work grows with the cube of it, 0.1 s here
	mostSteps = 50
)

func checkPlan(errs *input.Errors, p Plan) {
	if p == nil {
		errs.Add("", "give a rectangle, an ellipse or a polygon", "there is no outline")
		return
	}
	p.check(errs)
}

// checkLength notes a length that is no number or out of bounds.
func checkLength(errs *input.Errors, field, what string, l unit.Length) bool {
	m := l.Metres()
	if m >= shortest && m <= longest {
		return true
	}
	errs.Add(field, "give a length between 1 mm and 10 km", "the %s cannot be %g m", what, m)
	return false
}

func (r Rectangle) check(errs *input.Errors) {
	checkLength(errs, "rectangle.length_m", "length", r.Length)
	checkLength(errs, "rectangle.width_m", "width", r.Width)
}

func (r Rectangle) surface(t *working.Trail) surface {
	out := RectangleSurface.Run(t, AxesInput(r))
	return surface{
		area: out.Area.SquareMetres(), perimeter: out.Perimeter.Metres(),
		length: max(r.Length, r.Width).Metres(), width: min(r.Length, r.Width).Metres(),
		how: "Length times width",
	}
}

func (r Rectangle) inset(s surface, _ float64) (inset, error) {
	const square = 4 // the four corners, tan 45° each
	return inset{stretches: []stretch{{area: s.area, perimeter: s.perimeter, corners: square, parts: 1}}, end: s.width / 2}, nil
}

// MeasurePlan finds area and perimeter of a plan alone. The error is an input.Errors.
func MeasurePlan(t *working.Trail, p Plan) (SurfaceOutput, error) {
	var errs input.Errors
	if checkPlan(&errs, p); len(errs) > 0 {
		return SurfaceOutput{}, errs
	}
	s := p.surface(t)
	return SurfaceOutput{Area: unit.SquareMetres(s.area), Perimeter: unit.Metres(s.perimeter)}, nil
}

// Sides are those of the smallest rectangle around a plan that MeasurePlan has found nothing wrong with, the longer first.
func Sides(p Plan) (length, width unit.Length) {
	s := p.surface(nil)
	return unit.Metres(s.length), unit.Metres(s.width)
}

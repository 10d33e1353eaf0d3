package pump

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/interp"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// InletInput is the input of NPSHAvailable.
type InletInput struct {
	Air     unit.Pressure `sym:"p"`
	Vapour  unit.Pressure `sym:"pᵥ"`
	Density unit.Density  `sym:"ρ"`
	Inlet   unit.Head     `sym:"H_s"`
	Height  unit.Length   `sym:"z"`
}

// NPSHAvailable gives how far the water at a pump's inlet is from boiling.
//
//	NPSHA = (p − pᵥ)/(ρ g) + H_s − z    p, pᵥ in Pa, ρ in kg/m³, g = 9.80665 m/s², H_s, z and NPSHA in m
//
// H_s is the total head at the inlet, the height of the surface drawn from less what is lost on the way; z is the height
// of the pump's impeller. Both from the same datum.
// Source: definition of net positive suction head.
var NPSHAvailable = working.Formula[InletInput, unit.Head]{
	ID: "pump.npsh-available", Name: "net positive suction head available", Symbol: "NPSHA",
	Equation: "NPSHA = (p − pᵥ)/(ρ g) + H_s − z", Source: source.NPSHDefinition,
	Eval: func(in InletInput) unit.Head {
		weight := in.Density.KilogramsPerCubicMetre() * water.Gravity
		return unit.Head((in.Air-in.Vapour).Pascals()/weight) + in.Inlet - unit.Head(in.Height)
	},
}

// A Suction is how a pump is mounted that does not stand under water.
type Suction struct {
	Height   unit.Length   // of the impeller above the datum, which is the pond's surface
	Air      unit.Pressure // at the place; 0 takes that at sea level
	Required *Requirement  // nil where the maker gives none
}

// A RequiredPoint is one point of the suction head a pump requires.
type RequiredPoint struct {
	Flow unit.Flow
	NPSH unit.Head
}

// A Requirement is the net positive suction head that a pump requires by flow, drawn through its points and never beyond.
type Requirement struct {
	first, last unit.Flow
	curve       interp.FritschButland
}

// NewRequirement draws a requirement. Errors name required[i].flow_l_per_h or required[i].npsh_m.
func NewRequirement(points []RequiredPoint) (*Requirement, error) {
	var errs input.Errors
	if len(points) < 2 {
		errs.Add("required", "give two points at least", "a curve of %d points", len(points))
	}
	q, h := make([]float64, len(points)), make([]float64, len(points))
	for i, p := range points {
		q[i], h[i] = p.Flow.CubicMetresPerSecond(), p.NPSH.Metres()
		field := func(name string) string { return fmt.Sprintf("required[%d].%s", i, name) }
		if !(p.Flow >= 0) || math.IsInf(q[i], 0) || i > 0 && !(p.Flow > points[i-1].Flow) {
			errs.Add(field("flow_l_per_h"), "order the points by flow, each flow once, from 0 or more", "flow is %g L/h", p.Flow.LitresPerHour())
		}
		if !(p.NPSH > 0) || math.IsInf(h[i], 0) {
			errs.Add(field("npsh_m"), "give a head above 0", "head is %g m", h[i])
		}
	}
	if err := errs.Err(); err != nil {
		return nil, err
	}
	r := &Requirement{first: points[0].Flow, last: points[len(points)-1].Flow}
	if err := r.curve.Fit(q, h); err != nil {
		return nil, fmt.Errorf("draw required suction head: %w", err)
	}
	return r, nil
}

// At is the suction head required at a flow inside the range; ok is false outside it.
func (r *Requirement) At(q unit.Flow) (h unit.Head, ok bool) {
	if r == nil || !(q >= r.first && q <= r.last) {
		return 0, false
	}
	return unit.Head(r.curve.Predict(q.CubicMetresPerSecond())), true
}

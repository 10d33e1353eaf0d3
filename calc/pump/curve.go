// Package pump holds pump curves: head and power against flow, as measured and never beyond.
package pump

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/interp"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// A Point is one measured point of a curve.
type Point struct {
	Flow  unit.Flow
	Head  unit.Head
	Power unit.Power // electrical; 0 where not measured
}

// A Curve is a pump by its measured points, with a shape-preserving curve drawn through them: between two points head
// never leaves the range of the two. It is safe for concurrent use.
//
// Source: Fritsch and Butland 1984, piecewise cubic Hermite with weighted harmonic slopes.
type Curve struct {
	points []Point
	top    int // the last point of greatest head; 0 unless the curve droops
	head   interp.FritschButland
	power  func(q float64) float64 // nil where power is not known
}

// NewCurve draws a curve. Flows must rise from point to point and there must be two points at least. Heads must never
// rise, but for a droop at the start; see Droops. constant is the power of a pump whose points do not give it, 0 where
// unknown. Errors name curve[i].flow_l_per_h, curve[i].head_m or curve[i].power_w.
func NewCurve(points []Point, constant unit.Power) (*Curve, error) {
	if err := checkPoints(points); err != nil {
		return nil, err
	}
	c := &Curve{points: append([]Point(nil), points...), top: crest(points)}
	q := make([]float64, len(points))
	h := make([]float64, len(points))
	p := make([]float64, len(points))
	measured := 0
	for i, point := range points {
		q[i], h[i], p[i] = point.Flow.CubicMetresPerSecond(), point.Head.Metres(), point.Power.Watts()
		if point.Power > 0 {
			measured++
		}
	}
	if err := c.head.Fit(q, h); err != nil {
		return nil, fmt.Errorf("draw pump curve: %w", err)
	}
	switch {
	case measured == len(points):
		power := new(interp.FritschButland)
		if err := power.Fit(q, p); err != nil {
			return nil, fmt.Errorf("draw power curve: %w", err)
		}
		c.power = power.Predict
	case constant > 0:
		c.power = func(float64) float64 { return constant.Watts() }
	}
	return c, nil
}

func checkPoints(points []Point) error {
	var errs input.Errors
	if len(points) < 2 {
		errs.Add("curve", "give the points of the pump's curve, from no flow to no head", "a curve of %d points", len(points))
	}
	measured, top := 0, crest(points)
	for i, p := range points {
		field := func(name string) string { return fmt.Sprintf("curve[%d].%s", i, name) }
		if !(p.Flow >= 0) || math.IsInf(float64(p.Flow), 0) {
			errs.Add(field("flow_l_per_h"), "give a flow of 0 or more", "flow is %g L/h", p.Flow.LitresPerHour())
		} else if i > 0 && !(p.Flow > points[i-1].Flow) {
			errs.Add(field("flow_l_per_h"), "order the points by flow, each flow once",
				"flow %g L/h does not lie above the %g L/h before it", p.Flow.LitresPerHour(), points[i-1].Flow.LitresPerHour())
		}
		if !(p.Head >= 0) || math.IsInf(float64(p.Head), 0) {
			errs.Add(field("head_m"), "give a head of 0 or more", "head is %g m", p.Head.Metres())
		} else if i > top && p.Head > points[i-1].Head {
			errs.Add(field("head_m"), "look the two points up again: a digit or a unit may be wrong",
				"head rises from %g to %g m", points[i-1].Head.Metres(), p.Head.Metres())
		}
		if !(p.Power >= 0) || math.IsInf(float64(p.Power), 0) {
			errs.Add(field("power_w"), "give a power above 0, or leave it out", "power is %g W", p.Power.Watts())
		} else if p.Power > 0 {
			measured++
		}
	}
	if measured > 0 && measured < len(points) {
		errs.Add("curve", "give power at every point or at none", "power at %d of %d points", measured, len(points))
	}
	return errs.Err()
}

// Points are the measured points.
func (c *Curve) Points() []Point { return c.points }

// Range is the first and the last flow measured.
func (c *Curve) Range() (first, last unit.Flow) {
	return c.points[0].Flow, c.points[len(c.points)-1].Flow
}

// Head is the head at a flow inside the range; ok is false outside it.
func (c *Curve) Head(q unit.Flow) (h unit.Head, ok bool) {
	if first, last := c.Range(); !(q >= first && q <= last) {
		return 0, false
	}
	return unit.Head(c.head.Predict(q.CubicMetresPerSecond())), true
}

// Power is the electrical power at a flow inside the range; ok is false outside it or where power is not known.
func (c *Curve) Power(q unit.Flow) (p unit.Power, ok bool) {
	if first, last := c.Range(); c.power == nil || !(q >= first && q <= last) {
		return 0, false
	}
	return unit.Power(c.power(q.CubicMetresPerSecond())), true
}

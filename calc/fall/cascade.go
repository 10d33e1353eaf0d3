package fall

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Step is one fall of a cascade.
type Step struct {
	Sill
	Drop unit.Length // from the lip to the water below
	Pool unit.Length // room for the sheet to land in, from under the lip; 0 where not known
}

// A Landing is one fall as it runs.
type Landing struct {
	Head              unit.Length // over the lip, three or four depths upstream; 0 where the formula gives none
	HeadLow, HeadHigh unit.Length // by what the formula may be off
	PerWidth          unit.FlowPerWidth
	Sheet             Sheet // what it looks like; 0 where water clings and splits
	Brink             unit.Length
	Throw             unit.Length
	Thickness         unit.Length // where it lands
}

// Cascade finds how a flow runs over the steps of a cascade, from the top down, each with a sill of its own. Errors name
// flow_l_per_h and steps[i].width_m, steps[i].drop_m and so on.
func Cascade(t *working.Trail, q unit.Flow, steps []Step) ([]Landing, []finding.Finding, error) {
	if err := checkCascade(q, steps); err != nil {
		return nil, nil, err
	}
	landings := make([]Landing, len(steps))
	var found []finding.Finding
	for i, s := range steps {
		landing, outside, err := s.land(t, q)
		if err != nil {
			return nil, nil, err
		}
		landings[i] = landing
		found = append(found, s.remarks(fmt.Sprintf("step %d", i+1), landing, outside)...)
	}
	return landings, found, nil
}

func checkCascade(q unit.Flow, steps []Step) error {
	var errs input.Errors
	if !(q > 0 && q.CubicMetresPerSecond() < math.Inf(1)) {
		errs.Add("flow_l_per_h", "give the flow over the cascade", "%g L/h", q.LitresPerHour())
	}
	if len(steps) == 0 {
		errs.Add("steps", "give at least one step", "no step")
	}
	for i, s := range steps {
		var own input.Errors
		s.check(&own)
		if !(s.Drop >= 0 && s.Drop.Metres() < math.Inf(1)) {
			own.Add("drop_m", "give the height of the fall", "%g m", s.Drop.Metres())
		}
		if !(s.Pool >= 0 && s.Pool.Metres() < math.Inf(1)) {
			own.Add("pool_m", "give the room the sheet has to land in, or leave it out", "%g m", s.Pool.Metres())
		}
		errs.AddUnder(fmt.Sprintf("steps[%d]", i), own.Err())
	}
	return errs.Err()
}

// land is the flow over one step.
func (s Step) land(t *working.Trail, q unit.Flow) (l Landing, outside string, err error) {
	if l.Head, outside, err = s.Head(t, q); err != nil {
		return l, "", err
	}
	l.PerWidth = unit.FlowPerWidth(q.CubicMetresPerSecond() / s.Width.Metres())
	l.Sheet = SheetAt(l.PerWidth)
	off := unit.Length(2.0 / 3 * s.unsure(l.Head)) // head goes with flow^⅔
	l.HeadLow, l.HeadHigh = l.Head*(1-off), l.Head*(1+off)
	l.Brink = BrinkDepth.Run(t, BrinkInput{l.PerWidth})
	v := unit.MetresPerSecond(l.PerWidth.SquareMetresPerSecond() / l.Brink.Metres())
	l.Throw = Throw.Run(t, ThrowInput{v, s.Drop})
	l.Thickness = SheetThickness.Run(t, SheetInput{l.PerWidth, v, s.Drop})
	return l, outside, nil
}

// unsure is how far the flow at a head may be off: 3 % of a thin lip in its range (ISO 1438 states 1 to 3 %, from memory), a
// tenth of a stone in its range; below it some 15 %, and 25 % below 20 mm, where the sheet begins to cling (an assumption).
func (s Sill) unsure(head unit.Length) float64 {
	lowest, within := unit.Millimetres(60), 0.10
	if s.Edge == ThinEdge {
		lowest, within = unit.Millimetres(30), 0.03
	}
	switch {
	case head >= lowest:
		return within
	case head >= unit.Millimetres(20):
		return 0.15
	default:
		return 0.25
	}
}

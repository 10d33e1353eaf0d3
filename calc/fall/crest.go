package fall

import (
	"math"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/root"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Edge is the shape of a sill.
type Edge int

// The edges the engine knows.
const (
	ThinEdge    Edge = iota + 1 // a plate or a sharp lip that the sheet springs clear of
	SquareStone                 // a broad stone with a square upstream edge
	RoundStone                  // a broad stone with a rounded upstream edge
)

// String is the edge in the words of the trade.
func (e Edge) String() string {
	switch e {
	case ThinEdge:
		return "thin lip"
	case SquareStone:
		return "square stone"
	case RoundStone:
		return "rounded stone"
	default:
		return "unknown"
	}
}

// A Sill is what water falls over.
type Sill struct {
	Edge    Edge
	Width   unit.Length // from side to side
	Channel unit.Length // of a thin lip: width of the water behind it; 0 where it is as wide as the sill
	Crest   unit.Length // of a thin lip: height above the bed of the water behind it
	Breadth unit.Length // of a stone: along the flow
}

// check adds what is wrong with the sill to errs.
func (s Sill) check(errs *input.Errors) {
	positive := func(field string, l unit.Length, change string) {
		if !(l > 0) || math.IsInf(l.Metres(), 0) {
			errs.Add(field, change, "%g m is no length", l.Metres())
		}
	}
	positive("width_m", s.Width, "give the length of the lip from side to side")
	switch s.Edge {
	case ThinEdge:
		if s.Width > 0 && s.Width < unit.Millimetres(10) {
			errs.Add("width_m", "give the length of the lip from side to side", "%g mm is no lip", s.Width.Millimetres())
		}
		positive("crest_m", s.Crest, "give the height of the lip above the bed behind it")
		if s.Channel != 0 && !(s.Channel >= s.Width && s.Channel.Metres() < math.Inf(1)) {
			errs.Add("channel_m", "give the width of the water behind the lip, or leave it out where the lip is as wide",
				"%g m behind a lip of %g m", s.Channel.Metres(), s.Width.Metres())
		}
	case SquareStone, RoundStone:
		positive("breadth_m", s.Breadth, "give the length of the stone along the flow")
	default:
		errs.Add("edge", "say thin lip, square stone or rounded stone", "no such edge")
	}
}

// flow is the flow over the sill at a head, with the formula's remark on its range.
func (s Sill) flow(t *working.Trail, head unit.Length) (unit.Flow, string) {
	if s.Edge == ThinEdge {
		in := ThinPlateInput{Head: head, Width: s.Width, Channel: max(s.Channel, s.Width), Crest: s.Crest}
		return ThinPlate.Run(t, in), ThinPlate.Outside(in)
	}
	in := BroadSillInput{Coefficient: SquareEdge, Head: head, Width: s.Width}
	if s.Edge == RoundStone {
		in.Coefficient = RoundedCoefficient.Run(t, BroadInput{Breadth: s.Breadth, Head: head})
	}
	return BroadSill.Run(t, in), BroadSill.Outside(in)
}

// tallest bounds a head: no pond reaches 10 m over its lip, and beyond fifty times the height of a thin lip its formula has
// long lost its meaning.
func (s Sill) tallest() unit.Length {
	if s.Edge == ThinEdge {
		return min(deepest, 50*s.Crest)
	}
	return deepest
}

const deepest = unit.Length(10)

// Flow is the flow over the sill at a head read three or four depths upstream. outside says in which way the head lies
// outside the range of the formula, or nothing inside it.
func (s Sill) Flow(t *working.Trail, head unit.Length) (q unit.Flow, outside string, err error) {
	var errs input.Errors
	s.check(&errs)
	if !(head > 0 && head <= s.tallest()) {
		errs.Add("head_m", "give the height of the water over the lip", "%g m", head.Metres())
	}
	if err := errs.Err(); err != nil {
		return 0, "", err
	}
	q, outside = s.flow(t, head)
	return q, outside, nil
}

// Head is the head at a flow: Flow the other way round, found as a root. It is 0 where the flow is too small for the
// formula to give any head, or a head so great that no pond has it; outside then says so.
func (s Sill) Head(t *working.Trail, q unit.Flow) (head unit.Length, outside string, err error) {
	var errs input.Errors
	s.check(&errs)
	if !(q > 0 && q.CubicMetresPerSecond() < math.Inf(1)) {
		errs.Add("flow_l_per_h", "give the flow over the lip", "%g L/h", q.LitresPerHour())
	}
	if err := errs.Err(); err != nil {
		return 0, "", err
	}
	excess := func(h float64) float64 {
		at, _ := s.flow(nil, unit.Metres(h))
		return float64(at - q)
	}
	const least = 1e-6 // m; a formula needs some head to divide by
	h, ok := root.Find(excess, least, s.tallest().Metres())
	if !ok {
		return 0, "too little or too much water for the formula", nil
	}
	_, outside = s.flow(t, unit.Metres(h))
	return unit.Metres(h), outside, nil
}

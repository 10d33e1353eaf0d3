package defect

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/source"
)

// labelOff is how far a label may lie from the curve: boxes round, to two figures mostly. Common practice, no source.
const labelOff = 0.065

// labels holds what the box prints against the curve. A curve that does not reach free flow, or shut-off, is held only to not
// going beyond the label.
func (s *sheet) labels() {
	if q := s.curve.LabelFlow.LitresPerHour(); q > 0 {
		reaches := s.h[len(s.h)-1] <= nearFree*s.top
		if off := q/s.last - 1; off < -labelOff || off > labelOff && reaches {
			s.add(LabelFlowDisagrees, labelSure(off), source.Practice, "see which of the two is right; the curve is what is calculated with",
				fmt.Sprintf("The label says %s and the curve ends at %s, %+.0f %%.", litres(q), litres(s.last), 100*off),
				of("flow on the label", q, "L/h"), of("greatest flow of the curve", s.last, "L/h"))
		}
	}
	if h := s.curve.LabelHead.Metres(); h > 0 {
		const half = 0.05 // m: labels are printed to the tenth of a metre
		reaches := s.q[0] <= 0.01*s.last
		off := h/s.top - 1
		if math.Abs(h-s.top) > half*1.01 && (off < -labelOff || off > labelOff && reaches) {
			s.add(LabelHeadDisagrees, labelSure(off), source.Practice, "see which of the two is right; the curve is what is calculated with",
				fmt.Sprintf("The label says %s and the curve begins at %s, %+.0f %%.", metres(h), metres(s.top), 100*off),
				of("head on the label", h, "m"), of("greatest head of the curve", s.top, "m"))
		}
	}
}

func labelSure(off float64) float64 { return min(0.99, 0.7+math.Abs(off)) }

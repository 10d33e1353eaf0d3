package calibrate

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// powerTolerance is how far the power of a pump in good order may lie from its curve: grade 3B of ISO 9906, from memory.
const powerTolerance = 0.09

// A verdictOnPower is what a power reading tells.
type verdictOnPower struct {
	read, expected unit.Power // at the flow measured, by the curve
	off            bool       // the pump is not on its curve
	tells          bool       // the curve is steep enough to tell a resisted pump from a worn one
}

// power holds the reading against the curve at the measured flow. A pump that is only resisted works on its curve; one
// that is worn or dirty does not.
func (f *Fit) power(n *tree.Network, q Question) (v verdictOnPower, known bool) {
	if q.Reading == nil {
		return v, false
	}
	asDescribed, _ := n.Solve(q.At)
	surplus, ok := n.At(q.At, q.Branch, q.Measured.Flow)
	if asDescribed == nil || !ok {
		return v, false
	}
	here, ok := n.PowerAt(q.At, surplus.Pump)
	usual, also := n.Power(asDescribed)
	if !ok || !also {
		return v, false
	}
	unsure := math.Hypot(q.Reading.Unsure.Watts(), powerTolerance*here.Watts())
	v.read, v.expected = q.Reading.Power, here
	v.off = math.Abs((v.read - here).Watts()) > unsure
	v.tells = math.Abs((usual - here).Watts()) > unsure
	return v, true
}

func (v verdictOnPower) worn(f *Fit) finding.Finding {
	return finding.Finding{
		Code: "PUMP_WORN", Severity: finding.Caution, Subject: "pump", Source: source.ISO9906,
		Sentence: fmt.Sprintf("The pump takes %.0f W at the %s L/h measured, where its curve has %.0f W: it is off its curve, which resistance in the way does not explain.",
			v.read.Watts(), finding.Whole(f.Measured.Flow.LitresPerHour()), v.expected.Watts()),
		Value: finding.Of(v.read.Watts(), "W"), Limit: finding.Of(v.expected.Watts(), "W"),
		Change: "open the pump, clean impeller and housing, and look for wear and scale",
	}
}

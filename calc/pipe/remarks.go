package pipe

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// N of the velocity that holds the disc of a check valve up, in √(kg/m³) m/s.
//
// Source: Flow of Fluids TP-410. A swing check needs 45 where its seat is slanted and 75 where it is upright; which of the
// two a valve is, its name does not say, so the larger is taken.
const (
	swingOpens  = 75
	liftOpens   = 50
	footOpens   = 45
	poppetOpens = 20
)

// OpeningInput is the input of OpeningVelocity.
type OpeningInput struct {
	Constant float64      `sym:"N"`
	Density  unit.Density `sym:"ρ"`
}

// OpeningVelocity gives the least velocity that holds a check valve fully open.
//
//	v = N/√ρ    v in m/s, ρ in kg/m³; N = 75 for a swing check with an upright seat
//
// Below it the disc hangs part open and flutters, and the valve loses more than its coefficient says.
// Source: Flow of Fluids TP-410.
var OpeningVelocity = working.Formula[OpeningInput, unit.Velocity]{
	ID: "pipe.opening-velocity", Name: "least velocity that holds a check valve open", Symbol: "v", Equation: "v = N/√ρ",
	Source: source.FlowOfFluids,
	Eval: func(in OpeningInput) unit.Velocity {
		return unit.MetresPerSecond(in.Constant / math.Sqrt(in.Density.KilogramsPerCubicMetre()))
	},
}

// Remarks are what to look at in a run that carries a flow.
func (r *Run) Remarks(q unit.Flow, w water.Properties) []finding.Finding {
	if !(q > 0) {
		return nil
	}
	var found []finding.Finding
	v := r.Velocity(q)
	for _, f := range r.spec.Fittings {
		row := rows[f.Kind]
		if row.opens == 0 {
			continue
		}
		if needed := OpeningVelocity.Eval(OpeningInput{row.opens, w.Density}); v < needed {
			found = append(found, partOpen(row.name, v, needed))
		}
	}
	if re := v.MetresPerSecond() * r.bore / w.Viscosity.SquareMetresPerSecond(); re > laminarBelow && re < turbulentAbove {
		found = append(found, finding.Finding{
			Code: "BETWEEN_LAMINAR_AND_TURBULENT", Severity: finding.Note, Subject: "hose",
			Sentence: fmt.Sprintf("The water flows so slowly (Reynolds number %.0f) that the friction may be 30 %% more or less.", re),
			Value:    finding.Of(re, "1"), Change: "nothing: so little head is lost here that it hardly matters", Source: source.Choice,
		})
	}
	return found
}

func partOpen(name string, v, needed unit.Velocity) finding.Finding {
	return finding.Finding{
		Code: "CHECK_VALVE_PART_OPEN", Severity: finding.Caution, Subject: name,
		Sentence: fmt.Sprintf("Water passes the %s at %.1f m/s and it may need up to %.1f m/s to open fully: it loses more head than calculated.",
			name, v.MetresPerSecond(), needed.MetresPerSecond()),
		Value: finding.Of(v.MetresPerSecond(), "m/s"), Limit: finding.Of(needed.MetresPerSecond(), "m/s"),
		Change: "do without the valve, take one that opens easily, or measure the flow with a bucket", Source: source.FlowOfFluids,
	}
}

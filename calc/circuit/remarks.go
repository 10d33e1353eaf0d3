package circuit

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// nearShutOff is the share of its greatest head above which a pump is remarked on.
const nearShutOff = 0.75

// VelocityLimit is the greatest velocity in a hose that is not remarked on.
//
// Source: EN 806-3:2006, 4.4, for rising pipes.
const VelocityLimit = unit.Velocity(2.0)

// missed says why there is no duty.
func missed(p pump.Pump, l *Loop, outcome Outcome) finding.Finding {
	first, last := p.Range()
	f := finding.Finding{Severity: finding.Stop, Subject: "pump", Source: source.Definition}
	switch outcome {
	case CannotLift:
		shutOff := p.Greatest()
		f.Code = "CANNOT_LIFT"
		f.Sentence = fmt.Sprintf("The water has to be lifted %.2f m and the pump's greatest head is %.2f m: nothing flows.",
			l.Lift.Metres(), shutOff.Metres())
		f.Value, f.Limit = finding.Of(l.Lift.Metres(), "m"), finding.Of(shutOff.Metres(), "m")
		f.Change = "choose a pump with more head, or lift the water less"
	case BelowCurve:
		f.Code = "BELOW_CURVE"
		f.Sentence = fmt.Sprintf("Pump and circuit meet below %s L/h, the first point of the pump's curve, where nothing is known of it.",
			finding.Whole(first.LitresPerHour()))
		f.Limit = finding.Of(first.LitresPerHour(), "L/h")
		f.Change = "ask for the curve from no flow on, or choose a stronger pump or a wider hose"
	case BeyondCurve:
		f.Code = "BEYOND_CURVE"
		f.Sentence = fmt.Sprintf("Pump and circuit meet above %s L/h, the last point of the pump's curve, where nothing is known of it.",
			finding.Whole(last.LitresPerHour()))
		f.Limit = finding.Of(last.LitresPerHour(), "L/h")
		f.Change = "ask for the curve down to no head, choose a smaller pump, or throttle it"
	case CannotStart:
		still, _ := p.ShutOff()
		f.Code = "CANNOT_START"
		f.Sentence = fmt.Sprintf("The water has to be lifted %.2f m. The pump's curve droops: it gives %.2f m once it runs, but only %.2f m at no flow, so that it cannot start.",
			l.Lift.Metres(), p.Greatest().Metres(), still.Metres())
		f.Value, f.Limit = finding.Of(l.Lift.Metres(), "m"), finding.Of(still.Metres(), "m")
		f.Change = "choose a pump whose head falls from no flow on, or lift the water less"
	default:
		f.Code = "NOT_CALCULABLE"
		f.Sentence = "A number of this circuit is not one, so that it cannot be solved."
		f.Change = "look at the figures of pump, hose and devices"
	}
	return f
}

// remarks are what to look at in a circuit that runs.
func (d *Duty) remarks(p pump.Pump, l *Loop) []finding.Finding {
	var found []finding.Finding
	if shutOff := p.Greatest(); d.Head.Expected > nearShutOff*shutOff {
		found = append(found, finding.Finding{
			Code: "NEAR_SHUT_OFF", Severity: finding.Caution, Subject: "pump",
			Sentence: fmt.Sprintf("The pump works at %.2f m, close to its greatest head of %.2f m, where a little more head takes much of the flow.",
				d.Head.Expected.Metres(), shutOff.Metres()),
			Value: finding.Of(d.Head.Expected.Metres(), "m"), Limit: finding.Of((nearShutOff * shutOff).Metres(), "m"),
			Change: "choose a pump with more head", Source: source.Practice,
		})
	}
	found = append(found, p.Remarks("pump", d.Flow.Expected, false)...)
	if d.Velocity > VelocityLimit {
		found = append(found, finding.Finding{
			Code: "FAST_IN_HOSE", Severity: finding.Caution, Subject: "hose",
			Sentence: fmt.Sprintf("Water runs at %.1f m/s in the hose, above the %.1f m/s of good practice for rising pipes.",
				d.Velocity.MetresPerSecond(), VelocityLimit.MetresPerSecond()),
			Value: finding.Of(d.Velocity.MetresPerSecond(), "m/s"), Limit: finding.Of(VelocityLimit.MetresPerSecond(), "m/s"),
			Change: "take the next wider hose", Source: source.EN806,
		})
	}
	if slices.ContainsFunc(l.Runs, func(r *pipe.Run) bool { return r.Spec().Wall == pipe.Corrugated }) {
		found = append(found, finding.Finding{
			Code: "CORRUGATED_HOSE_UNSURE", Severity: finding.Caution, Subject: "hose",
			Sentence: fmt.Sprintf("The %.2f m lost in the corrugated hose may be 40 %% more or less: nothing is published for small plastic hose that is ribbed inside.",
				d.share("hose").Metres()),
			Change: "take a smooth hose, or measure the flow with a bucket", Source: pipe.Corrugated.Source(),
		})
	}
	return found
}

func (d *Duty) share(element string) unit.Head {
	for _, s := range d.Shares {
		if s.Element == element {
			return s.Head
		}
	}
	return 0
}

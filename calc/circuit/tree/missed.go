package tree

import (
	"fmt"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

var (
	sourceEnergy   = source.EnergyRoundLoop
	sourcePractice = source.Practice
)

// nearShutOff is the share of its greatest head above which a pump is remarked on.
const nearShutOff = unit.Head(0.75)

// missed says why nothing can be said of the flow. t is nil where no flow was found at all.
func (n *Network) missed(t *settled, c Conditions, outcome circuit.Outcome) []finding.Finding {
	if t != nil {
		for _, e := range n.elements {
			if e.pump != nil && t.fault(e) == outcome {
				return []finding.Finding{pumpMissed(e, outcome)}
			}
		}
	}
	s := n.newSolver(c)
	rest, _ := s.total(0)
	head := -s.rest[n.trunk.index] // of the pumps at no flow
	lift := rest + head
	found := []finding.Finding{{
		Code: "NOT_CALCULABLE", Severity: finding.Stop, Subject: "circuit",
		Sentence: "A number of this circuit is not one, so that it cannot be solved.",
		Change:   "look at the figures of pump, hoses and devices", Source: source.Definition,
	}}
	switch outcome {
	case circuit.CannotLift:
		found[0] = cannotLift(lift, head)
	case circuit.CannotStart:
		found[0] = cannotStart(lift, head-s.shortfall(&n.trunk), head)
	}
	return found
}

func cannotLift(lift, head float64) finding.Finding {
	f := finding.Finding{
		Code: "CANNOT_LIFT", Severity: finding.Stop, Subject: "pump",
		Sentence: fmt.Sprintf("The water has to be lifted %.2f m and the pump's greatest head is %.2f m: nothing flows.", lift, head),
		Value:    finding.Of(lift, "m"), Limit: finding.Of(head, "m"),
		Change: "choose a pump with more head, or lift the water less", Source: sourceEnergy,
	}
	if head == 0 {
		f.Subject = "circuit"
		f.Sentence = fmt.Sprintf("No pump drives the water, and its lowest end is %.2f m higher than where it comes from: nothing flows.", lift)
		if lift == 0 {
			f.Sentence = "No pump drives the water, and its lowest end is as high as where it comes from: nothing flows."
		}
		f.Change = "lower the outlet, or fit a pump"
	}
	return f
}

func cannotStart(lift, still, head float64) finding.Finding {
	return finding.Finding{
		Code: "CANNOT_START", Severity: finding.Stop, Subject: "pump",
		Sentence: fmt.Sprintf("The water has to be lifted %.2f m. The pump's curve droops: it gives %.2f m once it runs, but only %.2f m at no flow, so that it cannot start.",
			lift, head, still),
		Value: finding.Of(lift, "m"), Limit: finding.Of(still, "m"),
		Change: "choose a pump whose head falls from no flow on, or lift the water less", Source: sourceEnergy,
	}
}

// pumpMissed says what keeps one pump from working where its curve is known.
func pumpMissed(e *element, outcome circuit.Outcome) finding.Finding {
	f := finding.Finding{Severity: finding.Stop, Subject: e.name, Source: source.Definition}
	first, last := e.pump.Range()
	switch outcome {
	case circuit.BelowCurve:
		f.Code = "BELOW_CURVE"
		f.Sentence = fmt.Sprintf("Pump and circuit meet below %s L/h, the first point of the pump's curve, where nothing is known of it.", finding.Whole(first.LitresPerHour()))
		f.Limit = finding.Of(first.LitresPerHour(), "L/h")
		f.Change = "ask for the curve from no flow on, or choose a stronger pump or a wider hose"
	case circuit.BeyondCurve:
		f.Code = "BEYOND_CURVE"
		f.Sentence = fmt.Sprintf("Pump and circuit meet above %s L/h, the last point of the pump's curve, where nothing is known of it.", finding.Whole(last.LitresPerHour()))
		f.Limit = finding.Of(last.LitresPerHour(), "L/h")
		f.Change = "ask for the curve down to no head, choose a smaller pump, or throttle it"
	case circuit.PushedBack:
		f.Code = "PUMP_PUSHED_BACK"
		f.Sentence = fmt.Sprintf("Another pump works at more head than the %.2f m of this one and pushes water back through it: nothing is known of the flow.", e.pump.Greatest().Metres())
		f.Limit = finding.Of(e.pump.Greatest().Metres(), "m")
		f.Change = "fit a check valve behind each pump, or take pumps of one kind"
	case circuit.OnRisingCurve:
		f.Code = "ON_RISING_CURVE"
		f.Sentence = fmt.Sprintf("The pump would work below %s L/h, where its head rises with flow: beside other pumps no flow is settled there.", finding.Whole(e.pump.Crest().LitresPerHour()))
		f.Limit = finding.Of(e.pump.Crest().LitresPerHour(), "L/h")
		f.Change = "choose a pump whose head falls from no flow on"
	}
	return f
}

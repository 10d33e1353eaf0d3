package tree

import (
	"fmt"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Assess solves the circuit, records how each loss is found, and says what to look at. The solution is nil where there is
// none, and a finding then says why.
func (n *Network) Assess(t *working.Trail, c Conditions) (*Solution, []finding.Finding) {
	settled, outcome := n.settled(c)
	if outcome != circuit.Meets {
		return nil, n.missed(settled, c, outcome)
	}
	s := settled.solution()
	settled.explain(t)
	found := settled.pumps(t, s)
	found = append(found, settled.ends(s)...)
	found = append(found, boxes(s)...)
	return s, append(found, settled.hoses(s)...)
}

// explain records the loss of every part with water in it.
func (t *settled) explain(trail *working.Trail) {
	if trail == nil {
		return
	}
	for _, e := range t.net.elements {
		q := unit.Flow(max(t.part[e.index], -t.part[e.index]))
		if q == 0 {
			continue
		}
		trail.About(t.subject(e.name))
		switch p := e.part.(type) {
		case Hose:
			p.Run.Explain(trail, q, t.water)
		case Device:
			circuit.DeviceLoss.Run(trail, circuit.DeviceInput{Flow: q, At: p.At, Measured: p.loss(t.fouled)})
		case Valve:
			explainValve(trail, p, q)
		case Check:
			explainValve(trail, Valve{Bore: p.Bore, K: p.K}, q)
		case Pump:
			p.Pump.Explain(trail, q)
		}
	}
}

// subject is what a step is about: the state, where it has a name, and the part.
func (t *settled) subject(part string) string {
	if t.about == "" {
		return part
	}
	return t.about + ": " + part
}

// loss is the head lost in a device at the flow it was measured at.
func (d Device) loss(fouled int) unit.Head {
	if fouled == due {
		return max(d.Clean, d.Due)
	}
	return d.Clean
}

// pumps are what to look at in pumps.
func (t *settled) pumps(trail *working.Trail, s *Solution) []finding.Finding {
	var found []finding.Finding
	for _, e := range t.net.elements {
		if e.pump == nil {
			continue
		}
		p, passed := e.part.(Pump), s.Parts[e.index]
		if passed.Flow == 0 {
			found = append(found, idlePump(p, passed))
			continue
		}
		found = append(found, p.Pump.Remarks(e.name, passed.Flow, p.WetRotor)...)
		if t.rise {
			found = append(found, risingPump(e.name, passed))
		}
		if limit := nearShutOff * p.Pump.Greatest(); -passed.Lost > limit {
			found = append(found, nearItsEnd(e.name, p.Pump, -passed.Lost, limit))
		}
		if p.Suction != nil {
			trail.About(t.subject("suction of " + e.name))
			_, suction := p.Suction.Check(trail, e.name, passed.Flow, passed.Before, t.water)
			found = append(found, suction...)
		}
	}
	return found
}

// Power is what the pumps of the circuit take from the mains in a solution; ok is false where that of one is not known.
// A pump held shut takes what it takes at no flow.
func (n *Network) Power(s *Solution) (power unit.Power, ok bool) {
	for _, e := range n.elements {
		if e.pump == nil {
			continue
		}
		p, known := e.pump.Power(s.Parts[e.index].Flow)
		if !known {
			return 0, false
		}
		power += p
	}
	return power, true
}

// idlePump says that a pump gives nothing because a stronger one holds its check valve shut.
func idlePump(p Pump, passed Passed) finding.Finding {
	return finding.Finding{
		Code: "PUMP_GIVES_NOTHING", Severity: finding.Caution, Subject: p.Name,
		Sentence: fmt.Sprintf("The pump gives nothing: a stronger one beside it works at more head than its %.2f m, and its check valve stays shut.",
			p.Pump.Greatest().Metres()),
		Value: finding.Of(0, "L/h"), Limit: finding.Of(p.Pump.Greatest().Metres(), "m"),
		Change: "take pumps of one kind to work side by side", Source: sourceEnergy,
	}
}

func risingPump(name string, passed Passed) finding.Finding {
	return finding.Finding{
		Code: "ON_RISING_CURVE", Severity: finding.Caution, Subject: name,
		Sentence: fmt.Sprintf("The pump works at %s L/h, on the part of its curve where head rises with flow; it keeps to that only as long as so much resists it.",
			finding.Whole(passed.Flow.LitresPerHour())),
		Value:  finding.Of(passed.Flow.LitresPerHour(), "L/h"),
		Change: "choose a smaller pump, whose head falls with flow here", Source: sourceEnergy,
	}
}

func nearItsEnd(name string, p pump.Pump, head, limit unit.Head) finding.Finding {
	return finding.Finding{
		Code: "NEAR_SHUT_OFF", Severity: finding.Caution, Subject: name,
		Sentence: fmt.Sprintf("The pump works at %.2f m, close to its greatest head of %.2f m, where a little more head takes much of the flow.",
			head.Metres(), p.Greatest().Metres()),
		Value: finding.Of(head.Metres(), "m"), Limit: finding.Of(limit.Metres(), "m"),
		Change: "choose a pump with more head", Source: sourcePractice,
	}
}

package circuit

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// A Duty is a loop as it runs.
type Duty struct {
	Flow       Band[unit.Flow]
	Head       Band[unit.Head]
	Power      unit.Power    // electrical, at the expected flow; 0 where not known
	Efficiency unit.Ratio    // 0 where power is not known
	Velocity   unit.Velocity // the greatest of any run
	Shares     []Share       // where the expected head goes; they add up to it
}

// A Band is a number with its width: from the weakest pump its tolerance lets pass on walls as rough as they may be, to the
// strongest pump on walls as smooth as they may be.
type Band[Q ~float64] struct{ Low, Expected, High Q }

// A Share is the head that one element of the loop takes.
type Share struct {
	Element string
	Head    unit.Head
}

// Assess solves the loop for the pump as its curve says and at both edges of what pump and hose may be, records the expected
// solution, and says what to look at. The duty is nil where pump and loop do not meet, and a finding then says why.
func Assess(t *working.Trail, p pump.Pump, tolerance pump.Tolerance, l *Loop, w water.Properties) (*Duty, []finding.Finding) {
	q, h, outcome := Solve(p, l, w)
	if outcome != Meets {
		return nil, []finding.Finding{missed(p, l, outcome)}
	}
	duty := &Duty{
		Flow:     Band[unit.Flow]{Expected: q},
		Head:     Band[unit.Head]{Expected: h},
		Velocity: l.velocity(q),
		Shares:   l.Shares(q, w),
	}
	l.explain(t, q, w)
	p.Explain(t, q)
	hydraulic := pump.HydraulicPower.Run(t, pump.PowerInput{Density: w.Density, Flow: q, Head: h})
	if power, ok := p.Power(q); ok {
		duty.Power = power
		duty.Efficiency = pump.Efficiency.Run(t, pump.EfficiencyInput{Hydraulic: hydraulic, Electrical: power})
	}
	found := duty.widen(p, tolerance, l, w)
	return duty, append(found, duty.remarks(p, l)...)
}

// widen solves the loop at both edges. A weak pump that does not lift gives no flow; a strong one that
// leaves its curve is held at the curve's end, and said.
func (d *Duty) widen(p pump.Pump, tolerance pump.Tolerance, l *Loop, w water.Properties) []finding.Finding {
	smooth, rough := l.Edges()
	low, lowHead, outcome := Solve(tolerance.Low(p), rough, w)
	var found []finding.Finding
	if outcome != Meets {
		low, lowHead = 0, l.Lift
		found = append(found, finding.Finding{
			Code: "WEAK_PUMP_MAY_NOT_LIFT", Severity: finding.Caution, Subject: "pump",
			Sentence: fmt.Sprintf("A pump at the weak end of its tolerance (%.0f %% less flow at %.0f %% less head) may not run in this circuit.",
				tolerance.Flow.Percent(), tolerance.Head.Percent()),
			Change: "choose a pump with more head, or lift the water less", Source: tolerance.Source,
		})
	}
	high, highHead, outcome := Solve(tolerance.High(p), smooth, w)
	if outcome != Meets {
		_, high = tolerance.High(p).Range()
		highHead = smooth.Demand(high, w)
		found = append(found, finding.Finding{
			Code: "STRONG_PUMP_LEAVES_CURVE", Severity: finding.Note, Subject: "pump",
			Sentence: "A pump at the strong end of its tolerance runs beyond the last point of its curve; the high flow shown is that of the last point.",
			Change:   "ask for the curve down to no head", Source: tolerance.Source,
		})
	}
	d.Flow.Low, d.Flow.High = low, high
	// On one wall the weak pump meets the loop at less flow and so at less head; on a rougher one head may turn out higher.
	d.Head.Low, d.Head.High = min(lowHead, highHead), max(lowHead, highHead)
	return found
}

// Shares are the heads each element takes at a flow: lift, hose, fittings and each device by name.
func (l *Loop) Shares(q unit.Flow, w water.Properties) []Share {
	var hose, fittings unit.Head
	for _, r := range l.Runs {
		wall, bends := r.Losses(q, w)
		hose += wall
		fittings += bends
	}
	shares := make([]Share, 0, 3+len(l.Devices))
	shares = append(shares, Share{"lift", l.Lift}, Share{"hose", hose}, Share{"fittings", fittings})
	for _, d := range l.Devices {
		shares = append(shares, Share{d.Name, deviceLoss(q, d.At, d.Loss)})
	}
	return shares
}

func (l *Loop) velocity(q unit.Flow) unit.Velocity {
	var fastest unit.Velocity
	for _, r := range l.Runs {
		fastest = max(fastest, r.Velocity(q))
	}
	return fastest
}

func (l *Loop) explain(t *working.Trail, q unit.Flow, w water.Properties) {
	for _, r := range l.Runs {
		r.Explain(t, q, w)
	}
	for _, d := range l.Devices {
		DeviceLoss.Run(t, DeviceInput{Flow: q, At: d.At, Measured: d.Loss})
	}
}

// Formulas lists the formulas of this package.
func Formulas() []working.Entry { return []working.Entry{&DeviceLoss} }

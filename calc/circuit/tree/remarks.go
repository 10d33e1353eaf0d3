package tree

import (
	"fmt"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/source"
)

// upright is N of pipe.OpeningVelocity for a swing check valve with an upright seat, the larger of those it may have.
const upright = 75

// ends are what to look at at the ends of branches: those that carry nothing, and those that run backwards.
func (t *settled) ends(s *Solution) []finding.Finding {
	var found []finding.Finding
	for _, c := range s.Branches {
		l := t.named(c.Branch)
		switch {
		case c.Flow < 0:
			found = append(found, runsBack(l, c))
		case c.Flow == 0 && c.Open && t.carries(l.above):
			found = append(found, carriesNothing(l, c))
		}
	}
	return found
}

func (t *settled) named(branch string) *limb {
	for _, l := range t.net.limbs {
		if !l.path && l.name == branch {
			return l
		}
	}
	return nil
}

// carries says that a branch on which another hangs has water in it, so that the other's lack of it is its own.
func (t *settled) carries(l *limb) bool { return l == nil || t.flow[l.index] != 0 }

func runsBack(l *limb, c Carried) finding.Finding {
	f := finding.Finding{
		Code: "RUNS_BACKWARDS", Severity: finding.Stop, Subject: c.Branch,
		Value: finding.Of(c.Flow.LitresPerHour(), "L/h"), Limit: finding.Of(0, "L/h"), Source: sourceEnergy,
		Sentence: fmt.Sprintf("%s L/h run back out of this outlet into the circuit, because its water stands higher than the %.2f m of head where the branches part.",
			finding.Whole(-c.Flow.LitresPerHour()), c.Head.Metres()),
		Change: "fit a check valve, end the hose above the water, or throttle the lower outlets",
	}
	if l.intake {
		f.Sentence = fmt.Sprintf("%s L/h run out through this intake instead of in, because its water stands lower than the %.2f m of head where the intakes meet.",
			finding.Whole(-c.Flow.LitresPerHour()), c.Head.Metres())
		f.Change = "bring the intakes to one level, fit a check valve, or throttle the other intakes"
	}
	return f
}

func carriesNothing(l *limb, c Carried) finding.Finding {
	f := finding.Finding{
		Code: "CARRIES_NOTHING", Severity: finding.Caution, Subject: c.Branch, Source: sourceEnergy,
		Value: finding.Of(c.Head.Metres(), "m"), Limit: finding.Of(c.End.Metres(), "m"),
	}
	switch {
	case l.intake:
		f.Sentence = fmt.Sprintf("Nothing is drawn through this intake: its water stands at %.2f m, no higher than the %.2f m of head where the intakes meet, and its check valve stays shut.",
			c.End.Metres(), c.Head.Metres())
		f.Change = "bring the intakes to one level, or throttle the others"
	default:
		f.Sentence = fmt.Sprintf("This outlet gets nothing: it lies at %.2f m and the water stands only as high as %.2f m where the branches part.",
			c.End.Metres(), c.Head.Metres())
		f.Change = "throttle the lower outlets, lower this one, or take a stronger pump"
	}
	return f
}

// boxes are what to look at in open boxes.
func boxes(s *Solution) []finding.Finding {
	var found []finding.Finding
	for _, b := range s.Boxes {
		f := finding.Finding{
			Subject: b.Branch, Source: sourceEnergy, Severity: finding.Note, Code: "BOX_LEVEL",
			Sentence: fmt.Sprintf("The water in the box stands %.0f mm higher than at rest, which drives the flow out of it; %.0f mm are left below the rim.",
				b.Stands.Millimetres(), b.Spare.Millimetres()),
			Value: finding.Of(b.Stands.Millimetres(), "mm"), Limit: finding.Of((b.Stands + b.Spare).Millimetres(), "mm"),
		}
		if b.Spare < 0 {
			f.Severity, f.Code = finding.Stop, "BOX_OVERFLOWS"
			f.Sentence = fmt.Sprintf("The box overflows: its water would have to stand %.0f mm higher than at rest to drive the flow out, %.0f mm above the rim.",
				b.Stands.Millimetres(), -b.Spare.Millimetres())
			f.Change = "lay a wider or a second pipe from the box, raise its rim, or pump less"
		}
		found = append(found, f)
	}
	return found
}

// hoses are what to look at in hoses and check valves.
func (t *settled) hoses(s *Solution) []finding.Finding {
	var found []finding.Finding
	for _, e := range t.net.elements {
		passed := s.Parts[e.index]
		if e.run != nil && passed.Velocity > circuit.VelocityLimit {
			found = append(found, finding.Finding{
				Code: "FAST_IN_HOSE", Severity: finding.Caution, Subject: e.name,
				Sentence: fmt.Sprintf("Water runs at %.1f m/s here, above the %.1f m/s of good practice for rising pipes.",
					passed.Velocity.MetresPerSecond(), circuit.VelocityLimit.MetresPerSecond()),
				Value: finding.Of(passed.Velocity.MetresPerSecond(), "m/s"), Limit: finding.Of(circuit.VelocityLimit.MetresPerSecond(), "m/s"),
				Change: "take the next wider hose", Source: source.EN806,
			})
		}
		if e.run != nil {
			for _, f := range e.run.Remarks(max(passed.Flow, -passed.Flow), t.water) {
				if f.Subject == "hose" {
					f.Subject = e.name
				}
				found = append(found, f)
			}
		}
		if e.run != nil && e.run.Spec().Wall == pipe.Corrugated {
			found = append(found, finding.Finding{
				Code: "CORRUGATED_HOSE_UNSURE", Severity: finding.Caution, Subject: e.name,
				Sentence: "The head lost in this corrugated hose may be 40 % more or less: nothing is published for small plastic hose that is ribbed inside.",
				Change:   "take a smooth hose, or measure the flow with a bucket", Source: pipe.Corrugated.Source(),
			})
		}
		if e.checked {
			found = append(found, t.flap(e, passed)...)
		}
	}
	return found
}

// flap says where water runs too slowly to hold the flap of a check valve open.
func (t *settled) flap(e *element, passed Passed) []finding.Finding {
	v, needed := passed.Velocity, pipe.OpeningVelocity.Eval(pipe.OpeningInput{Constant: upright, Density: t.water.Density})
	if v == 0 || v >= needed {
		return nil
	}
	return []finding.Finding{{
		Code: "CHECK_VALVE_PART_OPEN", Severity: finding.Caution, Subject: e.name,
		Sentence: fmt.Sprintf("Water passes the check valve at %.1f m/s and it may need up to %.1f m/s to open fully: it loses more head than calculated.",
			v.MetresPerSecond(), needed.MetresPerSecond()),
		Value: finding.Of(v.MetresPerSecond(), "m/s"), Limit: finding.Of(needed.MetresPerSecond(), "m/s"),
		Change: "take one that opens easily, or measure the flow with a bucket", Source: source.FlowOfFluids,
	}}
}

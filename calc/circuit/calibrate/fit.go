package calibrate

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Question is a circuit with a flow measured in it.
type Question struct {
	Circuit   tree.Circuit
	At        tree.Conditions // in which the filter is taken as clean
	Tolerance pump.Tolerance
	Sure      tree.Sureness
	Branch    string // where it was measured; "" at the pump, or where all the water passes
	Measured  Measured
	Reading   *Reading // of the power the pump takes, nil where not read
}

// A Reading is a power as a plug-in meter shows it.
type Reading struct{ Power, Unsure unit.Power }

// A Fit is what explains a measured flow.
type Fit struct {
	Calculated circuit.Band[unit.Flow] // where it was measured, filter clean
	Measured   Measured
	Extra      circuit.Band[unit.Head] // lost on the way of all the water beyond what is described, at the flow measured
	Due        unit.Head               // beyond the clean filter's that one due for cleaning takes at that flow
	Findings   []finding.Finding
}

// Explain finds the head lost beyond what is described that brings the calculated flow down to the measured one, and says
// what it may be. The fit is nil where the circuit does not run as described, or not at the flow measured, and a finding
// says so. Errors are of the question.
func Explain(t *working.Trail, q Question) (*Fit, []finding.Finding, error) {
	var errs input.Errors
	n, err := tree.New(q.Circuit)
	errs.AddUnder("circuit", err)
	if !(q.Measured.Flow > 0) || !(q.Measured.Unsure >= 0) {
		errs.Add("measured.flow_l_per_h", "give a flow above 0 and how far it may be off", "flow is %g L/h", q.Measured.Flow.LitresPerHour())
	}
	if n != nil && q.Branch != "" && !slices.Contains(n.Branches(), q.Branch) {
		errs.Add("branch", "name a branch of the circuit", "there is no branch %q", q.Branch)
	}
	if err := errs.Err(); err != nil {
		return nil, nil, err
	}
	q.At.Due = false
	w, found := n.Width(t, q.At, q.Tolerance, q.Sure, q.Branch)
	if w == nil {
		return nil, found, nil
	}
	f := &Fit{Calculated: w.Flow, Measured: q.Measured}
	for _, b := range w.Branches {
		if b.Branch == q.Branch {
			f.Calculated = b.Flow
		}
	}
	s, ok := n.At(q.At, q.Branch, q.Measured.Flow)
	if !ok {
		return nil, []finding.Finding{unknownThere(q)}, nil
	}
	f.extra(n, q, s)
	f.verdict(n, q)
	return f, f.Findings, nil
}

// extra is the head left over at the measured flow, with what the widths of measurement and circuit are worth in head.
func (f *Fit) extra(n *tree.Network, q Question, s tree.Surplus) {
	more, ok := n.At(q.At, q.Branch, q.Measured.Flow*(1+1e-4))
	slope := s.Slope
	if ok { // of the head left over with the flow of the branch itself
		slope = float64(s.Head-more.Head) / float64(q.Measured.Flow*1e-4)
	}
	half := unit.Head(slope * f.unsure())
	f.Extra = circuit.Band[unit.Head]{Low: s.Head - half, Expected: s.Head, High: s.Head + half}
	q.At.Due = true
	if fouled, ok := n.At(q.At, q.Branch, q.Measured.Flow); ok {
		f.Due = s.Head - fouled.Head
	}
}

// unsure is half the width of the difference between measured and calculated.
func (f *Fit) unsure() float64 {
	return math.Hypot(float64(f.Measured.Unsure), float64(f.Calculated.High-f.Calculated.Expected))
}

// verdict says what the difference may come from.
func (f *Fit) verdict(n *tree.Network, q Question) {
	difference := float64(f.Measured.Flow - f.Calculated.Expected)
	switch {
	case math.Abs(difference) <= f.unsure():
		f.Findings = []finding.Finding{f.say("AS_CALCULATED", finding.Note, "circuit",
			"%s L/h were measured and %s L/h calculated: no more apart than the two are sure of.", "")}
		return
	case difference > 0:
		f.Findings = []finding.Finding{f.say("FLOWS_MORE_THAN_CALCULATED", finding.Note, "circuit",
			"%s L/h were measured, more than the %s L/h calculated: something in the description takes more head than the thing itself.",
			"look at bore, lift and fittings again")}
		return
	}
	power, known := f.power(n, q)
	if known && power.off {
		f.Findings = []finding.Finding{power.worn(f)}
		return
	}
	f.Findings = []finding.Finding{f.resistance()}
	if !known || !power.tells {
		f.Findings = append(f.Findings, finding.Finding{
			Code: "PUMP_MAY_BE_WORN_INSTEAD", Severity: finding.Note, Subject: "pump", Source: source.EnergyRoundLoop,
			Sentence: "A worn or dirty pump would show the same; the flow alone cannot tell, and the power tells only where it goes with the flow.",
			Change:   "clean filter and hose and measure again, or measure the head at the pump with a standpipe",
		})
	}
}

// resistance says what resists more than described: the filter, as far as one due for cleaning can explain it, or else
// something in the way.
func (f *Fit) resistance() finding.Finding {
	head := fmt.Sprintf(" %.2f m of head are lost beyond what is described, %.2f to %.2f.",
		f.Extra.Expected.Metres(), f.Extra.Low.Metres(), f.Extra.High.Metres())
	if f.Due > 0 && f.Extra.Low <= f.Due {
		due := f.say("FILTER_DUE", finding.Caution, "filter", "%s L/h were measured and %s L/h calculated with the filter clean.", "clean the filter and measure again")
		due.Sentence += head + fmt.Sprintf(" A filter due for cleaning takes %.2f m more than a clean one, which may be all of it.", f.Due.Metres())
		if f.Extra.High < f.Due {
			due.Code = "FILTER_FOULING"
			due.Sentence = strings.TrimSuffix(due.Sentence, "which may be all of it.") + "so that it may be all of it and the filter not due yet."
		}
		return due
	}
	blocked := f.say("HOSE_BLOCKED_OR_KINKED", finding.Caution, "hose",
		"%s L/h were measured and %s L/h calculated.", "look for a kink, a shut valve, growth in the hose and leaves before the intake")
	blocked.Sentence += head
	if f.Due > 0 {
		blocked.Sentence += fmt.Sprintf(" That is more than a filter due for cleaning takes, %.2f m.", f.Due.Metres())
	}
	return blocked
}

func (f *Fit) say(code string, severity finding.Severity, subject, text, change string) finding.Finding {
	measured, calculated := f.Measured.Flow.LitresPerHour(), f.Calculated.Expected.LitresPerHour()
	return finding.Finding{
		Code: code, Severity: severity, Subject: subject, Sentence: fmt.Sprintf(text, finding.Whole(measured), finding.Whole(calculated)),
		Value: finding.Of(measured, "L/h"), Limit: finding.Of(calculated, "L/h"), Change: change, Source: source.EnergyRoundLoop,
	}
}

func unknownThere(q Question) finding.Finding {
	return finding.Finding{
		Code: "BEYOND_CURVE", Severity: finding.Stop, Subject: "pump", Source: source.Definition,
		Sentence: fmt.Sprintf("%s L/h were measured, at which nothing is known of the pump.", finding.Whole(q.Measured.Flow.LitresPerHour())),
		Value:    finding.Of(q.Measured.Flow.LitresPerHour(), "L/h"),
		Change:   "ask for the whole curve of the pump, or measure again",
	}
}

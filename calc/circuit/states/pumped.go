package states

import (
	"fmt"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/circuit/tree"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/level"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Flushing is the circuit with its water turned to the drain.
type Flushing struct {
	Running
	Lost unit.Volume // in the time it is flushed; 0 where that is not known
	Drop unit.Length // of the pond's level by it
}

func (d Description) flush(t *working.Trail, r *Running) *Flushing {
	f := &Flushing{Running: *r}
	if r.Solution == nil || d.FlushFor == 0 {
		return f
	}
	f.Lost = level.Outflow.Run(t, level.OutflowInput{Flow: r.Solution.Flow, Time: d.FlushFor})
	drop, all := d.Pond.drop(t, f.Lost)
	f.Drop = drop
	note := finding.Finding{
		Code: "FLUSHING_TAKES", Severity: finding.Note, Subject: "pond", Source: source.Definition,
		Sentence: fmt.Sprintf("Flushing for %.0f minutes takes %s L and lowers the level by %.0f mm.",
			d.FlushFor.Seconds()/60, finding.Whole(f.Lost.Litres()), drop.Millimetres()),
		Value: finding.Of(f.Lost.Litres(), "L"),
	}
	if !all {
		note.Code, note.Severity = "FLUSHING_EMPTIES", finding.Stop
		note.Sentence = fmt.Sprintf("Flushing for %.0f minutes would take %s L, more than the pond holds.", d.FlushFor.Seconds()/60, finding.Whole(f.Lost.Litres()))
		note.Change = "flush for a shorter time"
	}
	f.Findings = append(f.Findings, note)
	return f
}

// A HoseOff is the pond when a delivery hose comes off outside it and the pump runs on.
type HoseOff struct {
	Flow     unit.Flow   // of the pump with nothing behind it; 0 where not known
	AtLeast  bool        // the pump gives more than Flow, the last point of its curve
	Falls    unit.Length // how far the level falls, down to the deepest intake; 0 where not known
	Lost     unit.Volume
	Left     unit.Volume // 0 where the volume of the pond is not known
	Time     unit.Time   // until then, or less; 0 where not known
	Findings []finding.Finding
}

func (d Description) hoseOff(t *working.Trail, open *tree.Network) HoseOff {
	t.About("hose off")
	h := HoseOff{Falls: deepest(d.Circuit.Intake)}
	if h.Falls == 0 {
		h.Findings = []finding.Finding{{
			Code: "INTAKE_DEPTH_NOT_GIVEN", Severity: finding.Caution, Subject: "intake", Source: source.Definition,
			Sentence: "How much water is left when a hose comes off cannot be said without the depth of the deepest intake.",
			Change:   "give how deep each intake lies",
		}}
		return h
	}
	h.Lost = d.Pond.lost(h.Falls)
	if d.Pond.Levels != nil {
		h.Left = max(0, d.Pond.Levels.Volume()-h.Lost)
	}
	h.Flow, h.AtLeast = openFlow(d.Circuit, open, tree.Conditions{Water: d.Summer, Stop: d.Stop})
	if h.Flow > 0 {
		h.Time = level.Emptying.Run(t, level.EmptyingInput{Volume: h.Lost, Flow: h.Flow})
	}
	h.Findings = []finding.Finding{d.emptied(h)}
	return h
}

// openFlow is what the pump gives with its hose off. A pump that leaves its curve so gives at least its last flow.
func openFlow(c tree.Circuit, open *tree.Network, at tree.Conditions) (q unit.Flow, atLeast bool) {
	s, outcome := open.Solve(at)
	if outcome == circuit.Meets {
		return s.Flow, false
	}
	if outcome != circuit.BeyondCurve || len(c.Pump) != 1 {
		return 0, false
	}
	if p, ok := c.Pump[0].(tree.Pump); ok {
		_, q = p.Pump.Range()
	}
	return q, q > 0
}

func (d Description) emptied(h HoseOff) finding.Finding {
	f := finding.Finding{
		Code: "HOSE_OFF_EMPTIES", Severity: finding.Caution, Subject: "pond", Source: source.Definition,
		Sentence: fmt.Sprintf("If a hose comes off and the pump runs on, %s L go and the level falls by %.2f m, to the deepest intake", finding.Whole(h.Lost.Litres()), h.Falls.Metres()),
		Value:    finding.Of(h.Lost.Litres(), "L"),
		Change:   "draw from higher up, so that enough water for the fish stays below the intake, or let a float switch stop the pump",
	}
	switch {
	case h.AtLeast:
		f.Sentence += fmt.Sprintf(", within %.0f minutes.", h.Time.Seconds()/60)
	case h.Time > 0:
		f.Sentence += fmt.Sprintf(", in some %.0f minutes.", h.Time.Seconds()/60)
	default:
		f.Sentence += "."
	}
	if d.Pond.Levels != nil {
		f.Limit = finding.Of(h.Left.Litres(), "L")
		f.Sentence += fmt.Sprintf(" %s L are left.", finding.Whole(h.Left.Litres()))
		if h.Left <= d.Pond.Levels.Volume()/10 { // next to nothing for fish to live in
			f.Severity = finding.Stop
		}
	}
	return f
}

// lost is the water above a depth.
func (p Pond) lost(fallen unit.Length) unit.Volume {
	if p.Levels != nil {
		return p.Levels.VolumeLost(fallen)
	}
	return unit.CubicMetres(p.Surface.SquareMetres() * fallen.Metres())
}

// drop is how far the level falls by a volume; ok is false where the pond does not hold so much.
func (p Pond) drop(t *working.Trail, lost unit.Volume) (fallen unit.Length, ok bool) {
	if p.Levels != nil {
		return p.Levels.DropFor(lost)
	}
	return level.Change.Run(t, level.ChangeInput{Volume: lost, Area: p.Surface}), true
}

package level

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// tightFreeboard is what should stay between the water and the edge, for wind and for a liner that has sagged.
//
// Source: assumption.
const tightFreeboard = unit.Length(0.025)

func bayField(i int) string { return fmt.Sprintf("bays[%d]", i) }

// remarks are what to look at in a bay after an event.
func (b Bay) remarks(event string, s settled) []finding.Finding {
	switch {
	case s.wanted > 0:
		return []finding.Finding{b.runsDry(event, s.wanted)}
	case s.change < 0 && b.Intake > 0 && -s.change > b.Intake-b.Cover:
		return []finding.Finding{b.uncovers(event, -s.change)}
	case s.spilt > 0 && b.SpillsTo == 0:
		return []finding.Finding{b.overflows(event, s.spilt)}
	case s.change > 0 && b.SpillsTo == 0 && b.Freeboard-s.change < tightFreeboard:
		return []finding.Finding{b.isTight(event, s.change)}
	default:
		return nil
	}
}

func (b Bay) overflows(event string, spilt unit.Volume) finding.Finding {
	return finding.Finding{
		Code: "BAY_OVERFLOWS", Severity: finding.Stop, Subject: b.Name,
		Sentence: fmt.Sprintf("Event %q: %s fills its %.0f mm of freeboard and %s L run over the edge.",
			event, b.Name, b.Freeboard.Millimetres(), finding.Whole(spilt.Litres())),
		Value: finding.Of(spilt.Litres(), "L"), Limit: finding.Of(0, "L"),
		Change: "raise the edge, hold less water above, give it an overflow, or break the siphon", Source: source.Balance,
	}
}

func (b Bay) isTight(event string, rise unit.Length) finding.Finding {
	left := b.Freeboard - rise
	return finding.Finding{
		Code: "FREEBOARD_TIGHT", Severity: finding.Caution, Subject: b.Name,
		Sentence: fmt.Sprintf("Event %q: %s rises by %.1f mm and %.0f mm are left to the edge.", event, b.Name, rise.Millimetres(), left.Millimetres()),
		Value:    finding.Of(left.Millimetres(), "mm"), Limit: finding.Of(tightFreeboard.Millimetres(), "mm"),
		Change: "raise the edge, or keep the level lower", Source: source.Choice,
	}
}

func (b Bay) uncovers(event string, fall unit.Length) finding.Finding {
	allowed := b.Intake - b.Cover
	return finding.Finding{
		Code: "INTAKE_UNCOVERED", Severity: finding.Stop, Subject: b.Name,
		Sentence: fmt.Sprintf("Event %q: %s falls by %.0f mm and its intake draws air from %.0f mm on.",
			event, b.Name, fall.Millimetres(), allowed.Millimetres()),
		Value: finding.Of(fall.Millimetres(), "mm"), Limit: finding.Of(allowed.Millimetres(), "mm"),
		Change: "lower the intake, hold less water above, or make the bay larger", Source: source.Balance,
	}
}

func (b Bay) runsDry(event string, wanted unit.Volume) finding.Finding {
	return finding.Finding{
		Code: "BAY_RUNS_DRY", Severity: finding.Stop, Subject: b.Name,
		Sentence: fmt.Sprintf("Event %q: %s runs dry and %s L are still wanted.", event, b.Name, finding.Whole(wanted.Litres())),
		Value:    finding.Of(wanted.Litres(), "L"), Limit: finding.Of(0, "L"),
		Change: "make the bay larger, or hold less water elsewhere", Source: source.Balance,
	}
}

func (l HoseLoss) remark(b Bay) finding.Finding {
	return finding.Finding{
		Code: "LEAST_WATER_LEFT", Severity: finding.Caution, Subject: b.Name,
		Sentence: fmt.Sprintf("If the delivery hose comes off, the pump throws away %s L in %.1f hours and leaves %s L.",
			finding.Whole(l.Lost.Litres()), l.Time.Hours(), finding.Whole(l.Left.Litres())),
		Value:  finding.Of(l.Left.Litres(), "L"),
		Change: "raise the intake off the floor so that enough is left for the fish, and secure both ends of the hose", Source: source.Balance,
	}
}

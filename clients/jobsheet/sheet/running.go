package sheet

import (
	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// runningFacts say how the kit runs: in two states where there is a filter to clean, in one where there is none.
func (s *sheet) runningFacts(k *pondwrightv1.Kit) []fact {
	where := " at the fall"
	if s.brief.GetFall() == nil {
		where = " at the outlet"
	}
	clean := dutyIn(k, pondwrightv1.RunningState_RUNNING_STATE_CLEAN)
	due := dutyIn(k, pondwrightv1.RunningState_RUNNING_STATE_DUE)
	if !s.anyKit(hasFilter) {
		return []fact{
			{"Flow", page.Strong(flow(clean) + where)},
			{"Head", page.Plain(head(clean))},
			{"Power", page.Plain(power(clean) + " for the pump" + lampPower(k))},
			{"Speed in the hose", page.Plain(speed(clean))},
		}
	}
	return []fact{
		{"Flow, clean", page.Strong(flow(clean) + where)},
		{"Flow, due", page.Strong(flow(due) + where + " when the filter is due for cleaning")},
		{"Head", page.Plain(both(head(clean), head(due)))},
		{"Power", page.Plain(both(power(clean), power(due)) + " for the pump" + lampPower(k))},
		{"Speed in the hose", page.Plain(speed(clean))},
	}
}

// dutyIn is the duty in one state, or nil.
func dutyIn(k *pondwrightv1.Kit, state pondwrightv1.RunningState) *pondwrightv1.Duty {
	for _, s := range k.GetStates() {
		if s.GetState() == state {
			return s.GetDuty()
		}
	}
	return nil
}

// both words a figure with the filter clean and due for cleaning, and once where that makes no difference.
func both(clean, due string) string {
	if clean == due {
		return clean
	}
	return clean + " clean and " + due + " due"
}

func flow(d *pondwrightv1.Duty) string {
	if d == nil {
		return "unknown"
	}
	return band(d.GetFlowLPerH(), "L/h")
}

func head(d *pondwrightv1.Duty) string {
	if d == nil {
		return "unknown"
	}
	return metres(d.GetHeadM().GetExpected())
}

func speed(d *pondwrightv1.Duty) string {
	if d == nil {
		return "unknown"
	}
	return figure.Fixed(d.GetVelocityMPerS(), 2) + figure.Space + "m/s"
}

func metres(x float64) string { return figure.Fixed(x, 2) + figure.Space + "m" }

// band writes low, expected and high.
func band(b *pondwrightv1.Band, unit string) string {
	expected := figure.With(b.GetExpected(), unit)
	if b.GetLow() == b.GetExpected() && b.GetHigh() == b.GetExpected() {
		return expected
	}
	return expected + " (" + figure.Number(b.GetLow()) + " to " + figure.Number(b.GetHigh()) + ")"
}

func power(d *pondwrightv1.Duty) string {
	if d == nil || d.PowerW == nil {
		return "unknown"
	}
	return figure.With(d.GetPowerW(), "W")
}

func lampPower(k *pondwrightv1.Kit) string {
	lamp := k.GetLampUnit().GetItem().GetLampUnit()
	if lamp == nil {
		return ""
	}
	return ", " + figure.With(lamp.GetPowerW(), "W") + " for the lamp unit"
}

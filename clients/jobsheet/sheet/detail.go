package sheet

import (
	"strings"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// details say why a kit does what it does: where the head goes, what the filter carries, what light the water gets.
func (s *sheet) details(k *pondwrightv1.Kit) {
	clean := dutyIn(k, pondwrightv1.RunningState_RUNNING_STATE_CLEAN)
	if s.cleaned() {
		due := dutyIn(k, pondwrightv1.RunningState_RUNNING_STATE_DUE)
		s.headGoes("Head goes, clean", clean)
		s.headGoes("Head goes, due", due)
		s.efficiency(due)
	} else {
		s.headGoes("Head goes", clean)
		s.efficiency(clean)
	}
	s.filter(k.GetFilterVerdict())
	s.lamps(k)
}

// headGoes tells what the head is spent on, as metres and as parts of the whole.
func (s *sheet) headGoes(label string, d *pondwrightv1.Duty) {
	if len(d.GetHeadShares()) == 0 {
		return
	}
	whole := d.GetHeadM().GetExpected()
	parts := make([]string, 0, len(d.GetHeadShares()))
	for _, h := range d.GetHeadShares() {
		text := strings.ReplaceAll(h.GetElement(), " ", figure.Space) + figure.Space + metres(h.GetHeadM())
		if whole > 0 {
			text += figure.Space + "(" + figure.Fixed(100*h.GetHeadM()/whole, 0) + figure.Space + "%)"
		}
		parts = append(parts, text)
	}
	s.Row(label, page.Plain(strings.Join(parts, ", ")))
}

func (s *sheet) efficiency(d *pondwrightv1.Duty) {
	if d != nil && d.EfficiencyPercent != nil {
		s.Row("Pump efficiency", page.Plain(figure.With(d.GetEfficiencyPercent(), "%")+" from mains to water"))
	}
}

func (s *sheet) filter(v *pondwrightv1.FilterVerdict) {
	if v == nil {
		return
	}
	verdict := page.Good(figure.Digits(v.GetHeadroomPercent(), 2) + figure.Space + "% more than is wanted.")
	if v.GetHeadroomPercent() < 0 {
		verdict = page.Bad(figure.Digits(-v.GetHeadroomPercent(), 2) + figure.Space + "% too little.")
	}
	s.Row("Filter carries", page.Plainf("%s of ammonia nitrogen a day; %s wanted for the grown fish with the margin: ",
		band(v.GetCapacityTanGPerDay(), "g"), figure.With(v.GetWantedTanGPerDay(), "g")), verdict)
	s.Under(page.Plainf("To keep the water below %s of it, at least %s must pass the filter.",
		figure.With(v.GetTanLimitMgPerL(), "mg/L"), figure.With(v.GetLeastFlowLPerH(), "L/h")))
}

func (s *sheet) lamps(k *pondwrightv1.Kit) {
	d := k.GetLampDose()
	if d == nil {
		return
	}
	s.Row("Lamp dose", page.Plainf("%s in one pass on average, %s for the fastest water; %s a day for the whole pond, in %s passes. "+
		"This is with lamps at the end of their life.",
		figure.With(d.GetPassMeanMjPerCm2(), "mJ/cm²"), figure.With(d.GetPassLeastMjPerCm2(), "mJ/cm²"),
		figure.With(d.GetDailyMjPerCm2(), "mJ/cm²"), figure.Digits(d.GetPassesPerDay(), 2)))
	s.Under(page.Plainf("%s of light at 254 nm reach the water, %s between the lamps and the wall, for %s.",
		figure.With(d.GetOutput_254NmW(), "W"), figure.With(d.GetFluenceRateMwPerCm2(), "mW/cm²"), figure.With(d.GetResidenceS(), "s")))
	if cost := k.GetCost(); cost != nil && cost.LampCostPerYear != nil {
		s.Row("New lamps", page.Plain(figure.Money(cost.GetCurrency(), cost.GetLampCostPerYear())+" a year"))
	}
}

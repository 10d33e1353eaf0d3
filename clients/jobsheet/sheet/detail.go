package sheet

import (
	"strings"

	"example.com/pondwright/clients/internal/figure"
	"example.com/pondwright/clients/internal/page"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// details say why a kit does what it does: where the head goes, what the filter carries, what light the water gets.
func (s *sheet) details(k *pondwrightv1.Kit) {
	clean := dutyIn(k, pondwrightv1.RunningState_RUNNING_STATE_CLEAN)
	if hasFilter(k) {
		due := dutyIn(k, pondwrightv1.RunningState_RUNNING_STATE_DUE)
		s.headGoes("Head goes, clean", k, clean)
		s.headGoes("Head goes, due", k, due)
		s.efficiency(due)
	} else {
		s.headGoes("Head goes", k, clean)
		s.efficiency(clean)
	}
	s.filter(k.GetFilterVerdict())
	s.lamps(k)
}

// headGoes tells what the head is spent on, as metres and as parts of the whole.
func (s *sheet) headGoes(label string, k *pondwrightv1.Kit, d *pondwrightv1.Duty) {
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
		if h.GetElement() == "lift" {
			text += s.liftGoes(k, h.GetHeadM())
		}
		parts = append(parts, text)
	}
	s.Row(label, page.Plain(strings.Join(parts, "; ")))
}

// liftGoes parts the lift to an open filter, which stands above the outlet. It is empty where there is none.
func (s *sheet) liftGoes(k *pondwrightv1.Kit, lift float64) string {
	height, what := s.brief.GetDelivery().GetOutletHeightM(), "outlet"
	if fall := s.brief.GetFall(); fall != nil {
		height, what = fall.GetHeightM(), "fall"
	}
	const least = 0.005 // which is printed as 0.01 m
	open := k.GetFilter().GetItem().GetFilter().GetBody() == equipmentv1.FilterBody_FILTER_BODY_OPEN
	if !open || lift-height < least {
		return ""
	}
	return ", of it " + metres(height) + " to the " + what + " and " + metres(lift-height) + " to the filter's inlet"
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
		verdict = page.Bad("short of that.")
	}
	s.Row("Filter carries", page.Plainf("%s of ammonia nitrogen a day; %s wanted for the grown fish with the margin: ",
		band(v.GetCapacityTanGPerDay(), "g"), figure.With(v.GetWantedTanGPerDay(), "g")), verdict)
	if v.GetLeastFlowLPerH() > 0 {
		s.Under(page.Plainf("To keep the water below %s of it, even a filter that took all of it in one pass needs %s.",
			figure.Digits(v.GetTanLimitMgPerL(), 2)+figure.Space+"mg/L", figure.With(v.GetLeastFlowLPerH(), "L/h")))
	}
}

// lamps sets what the pond gathers in a day before the dose of one pass: algae are held back by the first.
func (s *sheet) lamps(k *pondwrightv1.Kit) {
	d := k.GetLampDose()
	if d == nil {
		return
	}
	when := ""
	if hasFilter(k) {
		when = ", at the flow with the filter due for cleaning"
	}
	s.Row("Lamp dose", page.Plainf("%s a day for the whole pond, in %s passes. In one pass%s: %s on average, "+
		"%s for the fastest water were the flow laminar. This is with lamps at the end of their life.",
		dailyDose(d), figure.Digits(d.GetPassesPerDay(), 2), when,
		figure.With(d.GetPassMeanMjPerCm2(), doseUnit), figure.With(d.GetPassLeastMjPerCm2(), doseUnit)))
	power := ""
	if d.PowerWPerM3 != nil {
		power = " The unit takes " + figure.With(d.GetPowerWPerM3(), "W") + " of electricity per " + figure.With(1000, "L") + "."
	}
	s.Under(page.Plainf("%s of light at 254"+figure.Space+"nm reach the water, %s between the lamps and the wall, for %s.%s",
		figure.With(d.GetOutput_254NmW(), "W"), figure.With(d.GetFluenceRateMwPerCm2(), "mW/cm²"),
		figure.With(d.GetResidenceS(), "s"), power))
}

const doseUnit = "mJ/cm²"

// dailyDose sets the dose of a day beside what it is held against.
func dailyDose(d *pondwrightv1.LampDose) string {
	if d.GetWantedDailyMjPerCm2() == 0 {
		return figure.With(d.GetDailyMjPerCm2(), doseUnit)
	}
	return figure.Number(d.GetDailyMjPerCm2()) + " of at least " + figure.With(d.GetWantedDailyMjPerCm2(), doseUnit)
}

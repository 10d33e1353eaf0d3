package pump

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

const (
	// slowestSure is the share of its full speed above which a small wet-rotor motor keeps to the affinity laws. From
	// memory.
	slowestSure = unit.Ratio(0.6)
	// npshMargin is what the suction head available is to exceed that required by.
	npshMargin = unit.Head(0.5)
	// easyLift is the height above the water up to which a pump that does not prime itself is mounted. Common practice.
	easyLift = unit.Length(3)
)

// Remarks are what to look at in a pump at a flow: a droop that gives two flows at one head, and a speed at which a small
// wet-rotor motor leaves the affinity laws.
func (p Pump) Remarks(name string, q unit.Flow, wetRotor bool) []finding.Finding {
	var found []finding.Finding
	if h, ok := p.Head(q); ok {
		if still, ok := p.ShutOff(); ok && p.Droops() && h > still {
			found = append(found, finding.Finding{
				Code: "TWO_FLOWS_AT_ONE_HEAD", Severity: finding.Caution, Subject: name,
				Sentence: fmt.Sprintf("The pump's curve droops: it gives %.2f m at two flows, and %.2f m at no flow. The greater flow is shown; the pump may hunt between the two.",
					h.Metres(), still.Metres()),
				Value: finding.Of(h.Metres(), "m"), Limit: finding.Of(still.Metres(), "m"),
				Change: "choose a pump whose head falls from no flow on, or ask less head of this one", Source: source.Definition,
			})
		}
	}
	if wetRotor && p.Speed() < slowestSure {
		found = append(found, finding.Finding{
			Code: "SLOW_WET_ROTOR", Severity: finding.Caution, Subject: name,
			Sentence: fmt.Sprintf("At %.2f of its full speed a small wet-rotor pump no longer keeps to the affinity laws and gives less than shown.",
				p.Speed().Float()),
			Value: finding.Of(p.Speed().Float(), "1"), Limit: finding.Of(slowestSure.Float(), "1"),
			Change: "run it at 0.6 of its speed or more, or take a smaller pump", Source: source.SlowWetRotor,
		})
	}
	return found
}

// Check holds the suction of a pump at a flow, with the total head at its inlet, against what the pump requires. It
// records how the head available is found and gives it.
func (s Suction) Check(t *working.Trail, name string, q unit.Flow, inlet unit.Head, w water.Properties) (unit.Head, []finding.Finding) {
	air := s.Air
	if air == 0 {
		air = water.Atmosphere
	}
	vapour := water.VapourPressure.Run(t, water.AtTemperature{Temperature: w.Temperature})
	available := NPSHAvailable.Run(t, InletInput{air, vapour, w.Density, inlet, s.Height})
	found := s.mounting(name)
	required, ok := s.Required.At(q)
	switch margin := available - required; {
	case available <= 0:
		found = append(found, npsh("WATER_BOILS_AT_INLET", finding.Stop, name, available, 0,
			"The water would boil at the pump's inlet: %.2f m of suction head are available, and there must be more than %.0f m."))
	case !ok:
		found = append(found, finding.Finding{
			Code: "NPSH_NOT_KNOWN", Severity: finding.Note, Subject: name,
			Sentence: fmt.Sprintf("%.2f m of suction head are available; what the pump requires at this flow is not known.", available.Metres()),
			Value:    finding.Of(available.Metres(), "m"),
			Change:   "ask the maker for the suction head required (NPSHR)", Source: source.NPSHDefinition,
		})
	case margin < 0:
		found = append(found, npsh("NPSH_TOO_SMALL", finding.Stop, name, available, required,
			"%.2f m of suction head are available and the pump requires %.2f m: it cavitates."))
	case margin < npshMargin:
		found = append(found, npsh("NPSH_MARGIN_THIN", finding.Caution, name, available, required,
			"%.2f m of suction head are available and the pump requires %.2f m: less than half a metre to spare."))
	}
	return available, found
}

func (s Suction) mounting(name string) []finding.Finding {
	if s.Height <= easyLift {
		return nil
	}
	return []finding.Finding{{
		Code: "HIGH_SUCTION_LIFT", Severity: finding.Caution, Subject: name,
		Sentence: fmt.Sprintf("The pump stands %.1f m above the water; above %.0f m only pumps that prime themselves are mounted.",
			s.Height.Metres(), easyLift.Metres()),
		Value: finding.Of(s.Height.Metres(), "m"), Limit: finding.Of(easyLift.Metres(), "m"),
		Change: "mount the pump lower, best below the water, or take one that primes itself", Source: source.Practice,
	}}
}

func npsh(code string, severity finding.Severity, name string, available, required unit.Head, text string) finding.Finding {
	return finding.Finding{
		Code: code, Severity: severity, Subject: name,
		Sentence: fmt.Sprintf(text, available.Metres(), required.Metres()),
		Value:    finding.Of(available.Metres(), "m"), Limit: finding.Of(required.Metres(), "m"),
		Change: "mount the pump lower, shorten or widen the suction pipe, or throttle the delivery", Source: source.NPSHMargin,
	}
}

// Package assume holds what the engine takes for granted when nobody says otherwise, each with the finding that says so.
package assume

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// What stands in for what was not said.
const (
	// SummerTemperature is that of a garden pond in a temperate summer, when fish eat most.
	SummerTemperature = unit.Temperature(20)
	// WinterTemperature is where water is densest, which the bottom of a pond keeps under ice.
	WinterTemperature = unit.Temperature(4)
	// CircuitTemperature is that of spring and autumn, between the thin water of summer and the thick of winter.
	CircuitTemperature = unit.Temperature(15)
	// PH is that of ponds on hard tap water; ammonia harms more the higher it is.
	PH = 8.0
	// Transmittance of clear pond water at 254 nm over 10 mm. No measurement of garden ponds was found.
	Transmittance = unit.Ratio(0.70)
	// PipeRoughness is that of plastic pipe with bonded joints, some years in use.
	PipeRoughness = unit.Length(0.01e-3)
	// RunsDaily is day and night, which a filter needs.
	RunsDaily = unit.Time(24 * 3600)
	// FilterMargin is "a size over".
	FilterMargin = unit.Ratio(0.25)
	// Years over which cost is added up.
	Years = 5.0
)

// Value gives what was said, or else the assumption together with the finding about it.
func Value[T any](said *T, assumed T, note finding.Finding) (T, []finding.Finding) {
	if said != nil {
		return *said, nil
	}
	return assumed, []finding.Finding{note}
}

// Note is the finding that a number was assumed.
func Note(subject, what string, number float64, unitName, change string) finding.Finding {
	shown := unitName
	if shown != "" {
		shown = " " + shown
	}
	return finding.Finding{
		Code: "ASSUMED", Severity: finding.Note, Subject: subject,
		Sentence: fmt.Sprintf("%s was not given; %g%s is assumed.", what, number, shown),
		Value:    finding.Of(number, unitName), Change: change, Source: source.Choice,
	}
}

package stock

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// RespirationInput is one fish in its water.
type RespirationInput struct {
	Mass        unit.Mass        `sym:"W"`
	Temperature unit.Temperature `sym:"T"`
}

// Respiration gives the oxygen one fish takes that is not fed and goes about its day.
//
//	M = 0.0674 W^0.807 exp(0.0562 T) mg/h    W in g
//
// Crucian carp of 1 to 50 g, 15 to 30 °C. It reads low for large koi: the mass exponent of carp is 0.89 (Beamish 1964).
// Source: Yamanaka et al. 2013, abstract.
var Respiration = working.Formula[RespirationInput, unit.MassRate]{
	ID: "stock.respiration", Name: "oxygen taken by a fish at rest from feeding", Symbol: "M",
	Equation: "M = 0.0674 W^0.807 exp(0.0562 T) mg/h, W in g", Source: source.FishRespiration,
	Outside: outsideRespiration,
	Eval: func(in RespirationInput) unit.MassRate {
		M := 0.0674 * math.Pow(in.Mass.Grams(), 0.807) * math.Exp(0.0562*in.Temperature.Celsius())
		return unit.GramsPerDay(24 * M / 1000)
	},
}

// CriticalOxygen gives the dissolved oxygen below which a fish can no longer breathe as much as it needs.
//
//	C = 1.35 W^−0.107 mg/L    W in g
//
// Crucian carp, among the hardiest of fish, of 1 to 50 g: a pond is kept far above this.
// Source: Yamanaka et al. 2013, abstract.
var CriticalOxygen = working.Formula[RespirationInput, unit.Concentration]{
	ID: "stock.critical-oxygen", Name: "oxygen a fish cannot do with less of", Symbol: "C",
	Equation: "C = 1.35 W^−0.107 mg/L, W in g", Source: source.FishRespiration,
	Outside: outsideRespiration,
	Eval: func(in RespirationInput) unit.Concentration {
		return unit.MilligramsPerLitre(1.35 * math.Pow(in.Mass.Grams(), -0.107))
	},
}

// RestingOxygen gives the oxygen the fish take unfed, as they are now: what they breathe at night and in the cold.
func RestingOxygen(t *working.Trail, groups []Group, temperature unit.Temperature) (unit.MassRate, []finding.Finding, error) {
	var problems input.Errors
	if checkGroups(&problems, groups); problems.Err() != nil {
		return 0, nil, problems.Err()
	}
	var sum unit.MassRate
	var found []finding.Finding
	for _, g := range there(groups) {
		in := RespirationInput{Mass: g.mass(t, g.Length), Temperature: temperature}
		sum += unit.MassRate(g.Count) * Respiration.Run(t, in)
		if found == nil && Respiration.Outside(in) != "" {
			found = append(found, respirationStretched(in))
		}
	}
	return sum, found, nil
}

func respirationStretched(in RespirationInput) finding.Finding {
	return finding.Finding{
		Code: "RESPIRATION_STRETCHED", Severity: finding.Note, Subject: "fish",
		Sentence: fmt.Sprintf("What unfed fish breathe was measured on fish of 1 to 50 g at 15 to 30 °C and is carried on to %.0f g at %.1f °C here; it reads low for large carp.",
			in.Mass.Grams(), in.Temperature.Celsius()),
		Value: finding.Of(in.Mass.Grams(), "g"), Limit: finding.Of(50, "g"),
		Change: "Measure the oxygen at dawn.", Source: source.FishRespiration,
	}
}

func outsideRespiration(in RespirationInput) string {
	if in.Mass < unit.Grams(1) || in.Mass > unit.Grams(50) || in.Temperature < 15 || in.Temperature > 30 {
		return "fish outside 1 to 50 g or water outside 15 to 30 °C"
	}
	return ""
}

package clarity

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/field"
	"example.com/pondwright/calc/working"
)

// A Statement is water as somebody states it, by the first of these that is set, and algae that come on top of it.
type Statement struct {
	Transmittance unit.Ratio // over Path
	Path          unit.Length
	Decadic       *unit.AbsorptionCoefficient // base 10
	Naperian      *unit.AbsorptionCoefficient // base e
	Carbon        *CarbonInput
	Kind          string // key of a Water, by its typical value

	Algae    *unit.Concentration // as chlorophyll; nil is none
	Specific *float64            // m²/kg; nil takes SpecificAbsorption
}

// Clarity is how water lets light of 254 nm through, in every way of saying it.
type Clarity struct {
	Naperian unit.AbsorptionCoefficient // base e
	Decadic  unit.AbsorptionCoefficient // base 10
	Over10   unit.Ratio                 // share left after 10 mm
	Over100  unit.Ratio                 // share left after 100 mm
}

// An Answer is the clarity of water as stated, and with the algae on top.
type Answer struct {
	Stated, WithAlgae Clarity
	Kind              *Water // where one was named
	Findings          []finding.Finding
}

// Describe says a statement in every way.
func Describe(t *working.Trail, s Statement) (Answer, error) {
	var a Answer
	stated, err := s.naperian(t, &a)
	if err != nil {
		return Answer{}, err
	}
	t.About("water as stated")
	a.Stated = clarityOf(t, stated)
	a.WithAlgae = a.Stated
	if s.Algae == nil {
		return a, nil
	}
	if X := s.Algae.MilligramsPerLitre(); !(X >= 0 && X <= 1000) {
		return Answer{}, bad("chlorophyll_ug_per_l", "give micrograms in a litre", "%g mg/L is no pond", X)
	}
	t.About("water with algae")
	specific := float64(SpecificAbsorption)
	if s.Specific != nil {
		specific = *s.Specific
	} else {
		a.Findings = append(a.Findings, algaeAssumed())
	}
	if a.Kind != nil && a.Kind.Key == GreenPond && *s.Algae > 0 {
		a.Findings = append(a.Findings, algaeTwice(*a.Kind))
	}
	a.WithAlgae = clarityOf(t, Green.Run(t, GreenInput{Clear: stated, Chlorophyll: *s.Algae, Specific: specific}))
	return a, nil
}

// naperian is the absorption of the water as stated, in base e.
func (s Statement) naperian(t *working.Trail, a *Answer) (unit.AbsorptionCoefficient, error) {
	over := func(T unit.Ratio, path unit.Length) unit.AbsorptionCoefficient {
		return field.Absorption.Run(t, field.AbsorptionInput{Transmittance: T, Path: path})
	}
	const usual = unit.Length(0.010)
	switch {
	case s.Transmittance != 0:
		if !(s.Transmittance > 0 && s.Transmittance <= 1 && s.Path > 0) {
			return 0, bad("transmittance", "give the share left after a path", "%g %% after %g mm is no transmittance", s.Transmittance.Percent(), s.Path.Millimetres())
		}
		return over(s.Transmittance, s.Path), nil
	case s.Decadic != nil:
		return FromDecadic.Run(t, DecadicInput{Decadic: *s.Decadic}), notNegative("absorption_base_10_per_m", s.Decadic.PerMetre())
	case s.Naperian != nil:
		return *s.Naperian, notNegative("absorption_base_e_per_m", s.Naperian.PerMetre())
	case s.Carbon != nil:
		a.Findings = append(a.Findings, carbonAlone())
		err := notNegative("dissolved_carbon", s.Carbon.Carbon.MilligramsPerLitre()*s.Carbon.Specific)
		return over(FromCarbon.Run(t, *s.Carbon), usual), err
	}
	w, ok := Find(s.Kind)
	if !ok {
		return 0, bad("water_kind", "list the kinds of water to see their keys", "no kind of water has the key %q", s.Kind)
	}
	a.Kind = &w
	a.Findings = append(a.Findings, kindAssumed(w))
	return over(w.Typical, usual), nil
}

func clarityOf(t *working.Trail, a unit.AbsorptionCoefficient) Clarity {
	over := func(mm float64) unit.Ratio {
		return Transmittance.Run(t, TransmittanceInput{Absorption: a, Path: unit.Millimetres(mm)})
	}
	return Clarity{Naperian: a, Decadic: Decadic.Run(t, NaperianInput{Naperian: a}), Over10: over(10), Over100: over(100)}
}

func notNegative(field string, a float64) error {
	const most = 1e4 // 1/m: no light passes a millimetre
	if a >= 0 && a <= most {
		return nil
	}
	return bad(field, "check value and unit", "%g is not between 0 and %g", a, most)
}

func bad(field, change, problem string, args ...any) error {
	return input.Error{Field: field, Problem: fmt.Sprintf(problem, args...), Change: change}
}

// carbonAlone says what dissolved carbon does not know of.
func carbonAlone() finding.Finding {
	return finding.Finding{
		Code: "DISSOLVED_CARBON_ALONE", Severity: finding.Note, Subject: subject, Source: source.SUVA,
		Sentence: "What is dissolved is counted alone; algae and particles come on top.",
		Change:   "Have a sample measured at 254 nm.",
	}
}

func kindAssumed(w Water) finding.Finding {
	return finding.Finding{
		Code: "WATER_KIND_ASSUMED", Severity: finding.Note, Subject: subject, Source: w.Source, Value: finding.Of(w.Typical.Percent(), "%"),
		Sentence: fmt.Sprintf("Water like this (%s) passes %.0f to %.0f %% over 10 mm; %.0f %% is taken.", w.Name, w.Low.Percent(), w.High.Percent(), w.Typical.Percent()),
		Change:   "Have a sample measured at 254 nm.",
	}
}

func algaeTwice(w Water) finding.Finding {
	return finding.Finding{
		Code: "ALGAE_COUNTED_TWICE", Severity: finding.Caution, Subject: subject, Source: w.Source,
		Sentence: fmt.Sprintf("Water of that kind (%s) holds its algae already; those given come on top and are counted twice.", w.Name),
		Change:   "Name the kind of the water as it would be without algae, or leave the chlorophyll out.",
	}
}

func algaeAssumed() finding.Finding {
	return finding.Finding{
		Code: "ALGAE_ABSORPTION_ASSUMED", Severity: finding.Note, Subject: subject, Source: source.PondWaters, Value: finding.Of(SpecificAbsorption, "m²/kg"),
		Sentence: fmt.Sprintf("Algae are taken to absorb %s m² for each kilogram of chlorophyll, which turns water of 70 %% into 50 %% at 200 µg/L; no measurement was found.", finding.Whole(SpecificAbsorption)),
		Change:   "Have a sample of the green water measured at 254 nm.",
	}
}

const subject = "water"

package treat

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// UsualChlorine is what tap water has at the tap where nobody measured it: common practice.
const UsualChlorine = unit.Concentration(0.5e-3)

// A Filling is a pond to be filled from a supply.
type Filling struct {
	Volume     unit.Volume
	Chlorine   unit.Concentration // as Cl₂; 0 for rain and well water
	Chloramine bool
}

// A Treatment is what that takes.
type Treatment struct {
	Chlorine    unit.Mass
	Least, Dose unit.Mass // of thiosulphate
	AmmoniaLeft unit.Concentration
	Tenth       unit.Concentration // of chlorine in the pond after a tenth of untreated water
	Findings    []finding.Finding
}

// Of works a treatment out.
func (f Filling) Of(t *working.Trail) Treatment {
	t.About("tap water")
	var made Treatment
	if f.Chlorine <= 0 {
		return made
	}
	made.Chlorine = MassInWater.Run(t, MassInput{Volume: f.Volume, Concentration: f.Chlorine})
	made.Least = Thiosulphate.Run(t, ThiosulphateInput{Chlorine: made.Chlorine, PerMole: ToSulphate})
	made.Dose = Thiosulphate.Run(t, ThiosulphateInput{Chlorine: made.Chlorine, PerMole: ToTetrathionate})
	const tenth = unit.Ratio(0.1)
	made.Tenth = Mixed.Run(t, MixedInput{Share: tenth, New: f.Chlorine})
	made.Findings = append(made.Findings, topUps(made.Tenth))
	if f.Chloramine {
		made.AmmoniaLeft = AmmoniaLeft.Run(t, ChloramineInput{Chlorine: f.Chlorine})
		made.Findings = append(made.Findings, stays(made.AmmoniaLeft))
	}
	return made
}

// topUps tells both sides of a dispute.
func topUps(tenth unit.Concentration) finding.Finding {
	return finding.Finding{
		Code: "UNTREATED_TOP_UP", Severity: finding.Caution, Subject: "tap water",
		Sentence: fmt.Sprintf("A tenth of untreated tap water brings the pond to %.3g mg/L of chlorine. Some hold a tenth to be harmless, others have lost fish at 0.05 mg/L.", tenth.MilligramsPerLitre()),
		Value:    finding.Of(tenth.MilligramsPerLitre(), "mg/L"), Limit: finding.Of(0.05, "mg/L"),
		Change: "treat every top-up for the water that comes in, and let it trickle", Source: source.Practice,
	}
}

func stays(left unit.Concentration) finding.Finding {
	return finding.Finding{
		Code: "CHLORAMINE_LEAVES_AMMONIA", Severity: finding.Caution, Subject: "tap water",
		Sentence: fmt.Sprintf("Chloramine stays for days, and taking its chlorine out leaves %.2g mg/L of ammonia nitrogen, which thiosulphate does not bind.", left.MilligramsPerLitre()),
		Value:    finding.Of(left.MilligramsPerLitre(), "mg/L"), Change: "let a ripe filter take it up, or use a product that binds it", Source: source.AtomicWeights,
	}
}

// Doses are labels as they are usually written, in mg/L.
func Doses() []Dose {
	return []Dose{
		{unit.MilligramsPerLitre(0.1), "as 0.1 g to 1,000 L"}, {unit.MilligramsPerLitre(1), "as 1 g to 1,000 L"}, {unit.MilligramsPerLitre(5), "as 5 g to 1,000 L"},
		{unit.MilligramsPerLitre(10), "as 10 g to 1,000 L"}, {unit.MilligramsPerLitre(100), "as 100 g to 1,000 L"}, {unit.MilligramsPerLitre(1000), "as 1 kg to 1,000 L, which is 0.1 %"},
	}
}

// A Dose is what a label asks for.
type Dose struct {
	Concentration unit.Concentration
	Reading       string
}

// Labels are the cautions that stand with any dose.
func Labels(uncertain unit.Ratio) []finding.Finding {
	return []finding.Finding{{
		Code: "LABEL_DECIDES", Severity: finding.Caution, Subject: "doses",
		Sentence: fmt.Sprintf("The volume may be off by %.0f %% until it is metered or measured with salt. The label of a product is law, in sickness a vet decides, and an overdose or a dead bloom in warm water takes the oxygen.", uncertain.Percent()),
		Value:    finding.Of(uncertain.Percent(), "%"),
		Change:   "measure the volume first; dose by label, part of the pond at a time, early in the day and with air", Source: source.Practice,
	}}
}

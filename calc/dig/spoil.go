package dig

import (
	"fmt"
	"strings"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Spoil is one kind of ground that came out of the hole.
type Spoil struct {
	Bank, Loose unit.Volume
	Compacted   unit.Volume // rolled in layers, 0 where no figure is known
	Mass        unit.Mass
}

// Of is what a volume of ground comes to once it is dug.
func (s Soil) Of(t *working.Trail, bank unit.Volume) Spoil {
	spoil := Spoil{
		Bank: bank, Loose: Swell.Run(t, SwellInput{Bank: bank, Factor: s.Loose}),
		Mass: SpoilMass.Run(t, SpoilMassInput{Bank: bank, Density: s.Density}),
	}
	if s.Compacted > 0 {
		spoil.Compacted = Swell.Run(t, SwellInput{Bank: bank, Factor: s.Compacted})
	}
	return spoil
}

// Storing says what the spoil rests on, and how turf and topsoil are kept.
func (d Dug) Storing(ground Soil) []finding.Finding {
	name := strings.ToUpper(ground.Name[:1]) + ground.Name[1:]
	found := []finding.Finding{{
		Code: "SOIL_SWELLS", Severity: finding.Note, Subject: "dig",
		Sentence: fmt.Sprintf("%s is taken to swell by %.0f %% when it is dug. Handbooks differ by a tenth of the heap.", name, (ground.Loose.Float()-1)*100),
		Value:    finding.Of((ground.Loose.Float()-1)*100, "%"),
		Change:   "Order the last loads when the first have gone.",
		Source:   ground.Source,
	}, {
		Code: "SOIL_WEIGHS", Severity: finding.Note, Subject: "dig",
		Sentence: fmt.Sprintf("%s is taken to weigh %.0f kg a cubic metre as it lies, damp; it can be a fifth more or less.", name,
			ground.Density.KilogramsPerCubicMetre()),
		Value: finding.Of(ground.Density.KilogramsPerCubicMetre(), "kg/m³"), Source: source.SoilDensities,
	}}
	if d.Turf+d.Topsoil > 0 {
		found = append(found, finding.Finding{
			Code: "TOPSOIL_APART", Severity: finding.Note, Subject: "dig",
			Sentence: "Turf and topsoil are stripped first and stored apart from the subsoil, topsoil no higher than a man and turf grass to grass.",
			Change:   "Keep topsoil away from the pond: what it loses to rain feeds algae.",
			Source:   source.Practice,
		})
	}
	return found
}

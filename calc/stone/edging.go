package stone

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// An Edging is a course of like stones round a pond, laid dry or in mortar.
type Edging struct {
	Edge                  unit.Length // the length round the rim
	Length, Width, Height unit.Length // of a stone: along the edge, across it, and up
	Void                  unit.Ratio  // between rough stones; 0 for cut ones
	Density               unit.Density
	Joint                 unit.Length // 0 for butted or dry
	Bed                   unit.Length // of mortar, 0 for dry
}

// Laid is what an edging takes.
type Laid struct {
	Stones   int
	Mass     unit.Mass
	Mortar   unit.Volume // wet, in bed and joints, without waste
	Findings []finding.Finding
}

// Lay measures an edging. The error is an input.Errors with paths such as "edge_m".
func Lay(t *working.Trail, e Edging) (Laid, error) {
	if err := e.check().Err(); err != nil {
		return Laid{}, err
	}
	n := EdgeCount.Run(t, CountInput{Edge: e.Edge, Stone: e.Length, Joint: e.Joint})
	bulk := CourseVolume.Run(t, CourseInput{Length: e.Edge - unit.Length(n)*e.Joint, Width: e.Width, Height: e.Height})
	solid := SolidVolume.Run(t, SolidInput{Bulk: max(0, bulk), Void: e.Void})
	laid := Laid{Stones: int(n), Mass: Weight.Run(t, WeightInput{Solid: solid, Density: e.Density})}
	if e.Bed > 0 || e.Joint > 0 {
		laid.Mortar = MortarBed.Run(t, BedInput{Edge: e.Edge, Width: e.Width, Thickness: e.Bed}) +
			MortarJoints.Run(t, JointsInput{Count: n, Joint: e.Joint, Width: e.Width, Height: e.Height})
		laid.Findings = append(laid.Findings, limeCaution)
	}
	if each := unit.Kilograms(laid.Mass.Kilograms() / n); each.Kilograms() > byHand {
		laid.Findings = append(laid.Findings, heavy(each))
	}
	return laid, nil
}

func (e Edging) check() input.Errors {
	var errs input.Errors
	for _, part := range []struct {
		field        string
		v, low, high float64
	}{
		{"edge_m", e.Edge.Metres(), 0.1, 1e5}, {"length_m", e.Length.Metres(), 0.01, 10},
		{"width_m", e.Width.Metres(), 0.01, 10}, {"height_m", e.Height.Metres(), 0.01, 10},
		{"void", e.Void.Float(), 0, 0.9}, {"density_kg_per_m3", e.Density.KilogramsPerCubicMetre(), 500, 4000},
		{"joint_m", e.Joint.Metres(), 0, 0.1}, {"bed_m", e.Bed.Metres(), 0, 0.5},
	} {
		if !(part.v >= part.low && part.v <= part.high) {
			errs.Add(part.field, "look for a wrong unit", "it must lie between %g and %g, not %g", part.low, part.high, part.v)
		}
	}
	return errs
}

// byHand is the guideline figure for one person lifting close to the body.
const byHand = 25 // kg

func heavy(each unit.Mass) finding.Finding {
	return finding.Finding{
		Code: "STONE_TOO_HEAVY_FOR_ONE", Severity: finding.Caution, Subject: "stone",
		Sentence: fmt.Sprintf("One stone weighs about %.0f kg.", each.Kilograms()),
		Value:    finding.Of(each.Kilograms(), "kg"), Limit: finding.Of(byHand, "kg"),
		Change: "Lift it with two people or a machine.",
		Source: source.Practice,
	}
}

// limeCaution goes with all mortar by a pond.
var limeCaution = finding.Finding{
	Code: "LIME_FROM_MORTAR", Severity: finding.Caution, Subject: "mortar",
	Sentence: "Fresh mortar gives off lime, which drives the pH up and kills fish.",
	Change:   "Seal it or rinse and drain until the pH stays down, before any fish go in. Wear gloves: wet cement burns skin.",
	Source:   source.Practice,
}

package stone

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Fall is the stone of a fall: one flat spill stone for each step, and a wall of rough stone behind and beside them.
type Fall struct {
	Height    unit.Length // of water falling, all steps together
	Steps     int
	Sill      unit.Length // width of the sheet
	Bearing   unit.Length // what each end of a spill stone lies on
	Depth     unit.Length // of a spill stone from front to back
	Thickness unit.Length
	Wall      unit.Length // thickness of the wall behind and beside
	Void      unit.Ratio  // between the stones of the wall
	Density   unit.Density
}

// Built is what a fall takes.
type Built struct {
	SpillStones int
	SpillLength unit.Length // of each spill stone, across the fall
	SpillMass   unit.Mass   // of each
	WallMass    unit.Mass
	Findings    []finding.Finding
}

// Build measures the stone of a fall. The error is an input.Errors with paths such as "sill_m".
func Build(t *working.Trail, f Fall) (Built, error) {
	if err := f.check().Err(); err != nil {
		return Built{}, err
	}
	b := Built{SpillStones: f.Steps, SpillLength: f.Sill + 2*f.Bearing}
	spill := CourseVolume.Run(t, CourseInput{Length: b.SpillLength, Width: f.Depth, Height: f.Thickness})
	b.SpillMass = Weight.Run(t, WeightInput{Solid: spill, Density: f.Density})
	if f.Wall > 0 {
		// Behind the sheet and its bearings, and a cheek as long as a spill stone is deep on either side.
		around := b.SpillLength + 2*f.Depth
		wall := CourseVolume.Run(t, CourseInput{Length: around, Width: f.Wall, Height: f.Height})
		solid := SolidVolume.Run(t, SolidInput{Bulk: wall, Void: f.Void})
		b.WallMass = Weight.Run(t, WeightInput{Solid: solid, Density: f.Density})
	}
	if b.SpillMass.Kilograms() > byHand {
		b.Findings = append(b.Findings, heavy(b.SpillMass))
	}
	if total := unit.Kilograms(float64(f.Steps)*b.SpillMass.Kilograms() + b.WallMass.Kilograms()); total.Kilograms() > footed || f.Height > tall {
		b.Findings = append(b.Findings, needsFooting(f.Height, total))
	}
	return b, nil
}

func (f Fall) check() input.Errors {
	var errs input.Errors
	for _, part := range []struct {
		field        string
		v, low, high float64
	}{
		{"height_m", f.Height.Metres(), 0.05, 10}, {"steps", float64(f.Steps), 1, 50}, {"sill_m", f.Sill.Metres(), 0.05, 20},
		{"bearing_m", f.Bearing.Metres(), 0, 2}, {"depth_m", f.Depth.Metres(), 0.05, 5}, {"thickness_m", f.Thickness.Metres(), 0.01, 1},
		{"wall_m", f.Wall.Metres(), 0, 5}, {"void", f.Void.Float(), 0, 0.9}, {"density_kg_per_m3", f.Density.KilogramsPerCubicMetre(), 500, 4000},
	} {
		if !(part.v >= part.low && part.v <= part.high) {
			errs.Add(part.field, "look for a wrong unit", "it must lie between %g and %g, not %g", part.low, part.high, part.v)
		}
	}
	return errs
}

// What a fall weighs, and how high it is, from where it is more than a heap of stones on a bank.
const (
	footed = 500              // kg
	tall   = unit.Length(0.6) // m
)

func needsFooting(height unit.Length, mass unit.Mass) finding.Finding {
	return finding.Finding{
		Code: "FALL_NEEDS_FOOTING", Severity: finding.Caution, Subject: "fall",
		Sentence: fmt.Sprintf("A fall %.1f m high of some %.0f kg of stone sinks and leans on dug ground, and stone that topples maims.",
			height.Metres(), mass.Kilograms()),
		Value: finding.Of(mass.Kilograms(), "kg"), Limit: finding.Of(footed, "kg"),
		Change: "Found it on firm ground or a slab with lining below and above it, bed every stone, and have a higher one designed.",
		Source: source.Choice,
	}
}

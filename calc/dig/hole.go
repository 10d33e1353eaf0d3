package dig

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Hole is a bay and what is dug besides the water's own volume.
type Hole struct {
	Bay       outline.Bay
	Freeboard unit.Length // from the water up to the ground
	Bed       unit.Length // under the lining: sand, underlay, blinding or slab
	Turf      unit.Length // thickness lifted and stacked apart, 0 for none
	Topsoil   unit.Length // thickness below the turf, kept apart from the subsoil
}

// Dug is what comes out of the hole, in the bank.
type Dug struct {
	Total, Turf, Topsoil, Subsoil unit.Volume
	TurfArea                      unit.Area
	Depth                         unit.Length // of the hole, from the ground
	Findings                      []finding.Finding
}

// Measure finds what comes out of a hole. Turf and topsoil are taken over the plan at ground level, which
// under sloping sides is a little more than lies in the hole. The error is an input.Errors: that of outline.Measure, or one with a path such as "bed_m".
func Measure(t *working.Trail, h Hole) (Dug, error) {
	m, err := outline.Measure(t, h.Bay)
	if err != nil {
		return Dug{}, err
	}
	if err := h.check(m).Err(); err != nil {
		return Dug{}, err
	}
	rim := RimVolume.Run(t, RimInput{Area: m.Area, Perimeter: m.Perimeter, Freeboard: h.Freeboard, Batter: h.Bay.Batter})
	bed := BedVolume.Run(t, BedInput{Covered: m.Wetted, Thickness: h.Bed})
	out := h.Bay.Batter.Float() * h.Freeboard.Metres()
	ground := outline.InsetArea.Run(t, outline.InsetInput{
		Area: m.Area, Perimeter: m.Perimeter, Corners: math.Pi, Inset: unit.Metres(-out),
	})
	d := Dug{Total: m.Volume + rim + bed, TurfArea: ground, Depth: m.Depth() + h.Freeboard + h.Bed}
	d.Turf = unit.CubicMetres(ground.SquareMetres() * h.Turf.Metres())
	d.Topsoil = unit.CubicMetres(ground.SquareMetres() * h.Topsoil.Metres())
	d.Subsoil = max(0, d.Total-d.Turf-d.Topsoil)
	d.Findings = []finding.Finding{sidesFall(d.Depth)}
	return d, nil
}

func (h Hole) check(m outline.Measured) input.Errors {
	var errs input.Errors
	for _, part := range []struct {
		field string
		l     unit.Length
	}{{"freeboard_m", h.Freeboard}, {"bed_m", h.Bed}, {"turf_m", h.Turf}, {"topsoil_m", h.Topsoil}} {
		if m := part.l.Metres(); !(m >= 0 && m <= 2) {
			errs.Add(part.field, "give a thickness between 0 and 2 m", "it cannot be %g m", m)
		}
	}
	firstDrop := m.Depth() // to the first shelf or the floor
	if len(h.Bay.Steps) > 0 {
		firstDrop = h.Bay.Steps[0].Depth
	}
	if len(errs) == 0 && h.Turf+h.Topsoil > h.Freeboard+firstDrop {
		errs.Add("topsoil_m", "measure it in a trial pit, or give the shelf deeper",
			"turf and topsoil of %.2f m reach below the first shelf or the floor at %.2f m",
			(h.Turf + h.Topsoil).Metres(), (h.Freeboard + firstDrop).Metres())
	}
	return errs
}

// shored is the depth from which US rules ask for protection of any trench that people work in.
const shored = 5 * 0.3048 // m, 5 ft

// sidesFall is said of every hole: no depth is safe by rule.
func sidesFall(depth unit.Length) finding.Finding {
	f := finding.Finding{
		Code: "EXCAVATION_SIDES", Severity: finding.Caution, Subject: "dig",
		Sentence: fmt.Sprintf("The hole is %.2f m deep. The sides of any hole can fall without warning, and a cubic metre of soil weighs well over a tonne.",
			depth.Metres()),
		Value:  finding.Of(depth.Metres(), "m"),
		Change: "Slope or support the sides, keep spoil and machines back from the edge, find buried services first, fence the hole, and follow local rules.",
		Source: source.Practice,
	}
	if depth.Metres() >= shored {
		f.Sentence += " At this depth US rules ask for a protective system; others ask for one earlier."
		f.Limit, f.Source = finding.Of(shored, "m"), source.TrenchRule
	}
	return f
}

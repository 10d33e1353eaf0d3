package dig

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Mound is a round heap of loose spoil. It settles by some 5 to 10 % (common practice).
type Mound struct {
	Foot, Top unit.Length // radius at the ground and of the flat top
	Height    unit.Length
	Findings  []finding.Finding
}

// Slopes of mounds, rise for each metre out.
const (
	// PlantedSlope is the steepest that is planted and kept: common practice.
	PlantedSlope = unit.Ratio(0.5)

	planted = float64(PlantedSlope)
	wetClay = 0.268 // tan 15°, the least angle of repose of wet clay
)

// Heap makes a mound of loose spoil, to a point or, where highest is above zero, flat at that height. The error is an
// input.Errors with the paths "loose_m3", "slope" and "height_m".
func Heap(t *working.Trail, loose unit.Volume, slope unit.Ratio, highest unit.Length) (Mound, error) {
	var errs input.Errors
	if v := loose.CubicMetres(); !(v > 0 && v <= 1e6) {
		errs.Add("loose_m3", "give the loose volume of the spoil", "a mound cannot be made of %g m³", v)
	}
	if s := slope.Float(); !(s >= 0.05 && s <= 1) {
		errs.Add("slope", "give a rise between 0.05 and 1 for each metre out", "a mound cannot be heaped at %g", s)
	}
	if h := highest.Metres(); !(h >= 0 && h <= 100) || h > 0 && h < 0.01 {
		errs.Add("height_m", "give a height above 10 mm, or 0 for a cone", "a mound cannot be %g m high", h)
	}
	if len(errs) > 0 {
		return Mound{}, errs
	}
	cone := ConeMound.Run(t, MoundInput{Loose: loose, Slope: slope})
	m := Mound{Foot: cone.Radius, Height: cone.Height}
	if highest > 0 && highest < cone.Height {
		flat := FlatMound.Run(t, FlatInput{Loose: loose, Slope: slope, Height: highest})
		m = Mound{Foot: flat.Foot, Top: flat.Top, Height: highest}
	}
	m.Findings = moundFindings(slope.Float(), m.Height)
	return m, nil
}

func moundFindings(slope float64, height unit.Length) []finding.Finding {
	found := []finding.Finding{{
		Code: "MOUND_ABOVE_WATER", Severity: finding.Caution, Subject: "mound",
		Sentence: fmt.Sprintf("A mound of %.1f m presses on the bank and can slide into the pond when it is wet.", height.Metres()),
		Value:    finding.Of(height.Metres(), "m"),
		Change:   "Keep its foot back from the edge by at least its height, drain it away from the water, and leave topsoil and runoff out of the pond.",
		Source:   source.Choice,
	}}
	if slope > planted {
		found = append(found, finding.Finding{
			Code: "MOUND_TOO_STEEP", Severity: finding.Caution, Subject: "mound",
			Sentence: fmt.Sprintf("Sides of 1 in %.1f are steeper than 1 in 2, the most that is planted and kept. Wet clay can come to rest as flat as 1 in %.1f.",
				1/slope, 1/wetClay),
			Value: finding.Of(slope, "1"), Limit: finding.Of(planted, "1"),
			Change: "Heap it at 1 in 2 to 1 in 3.",
			Source: source.Practice,
		})
	}
	return found
}

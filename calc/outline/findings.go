package outline

import (
	"fmt"
	"slices"
	"strings"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
)

// boxFindings warns of the box around the pond.
func boxFindings(m Measured) []finding.Finding {
	const worthSaying = 10 // percent; what dosing has to come within
	over := (m.BoxVolume.CubicMetres()/m.Volume.CubicMetres() - 1) * 100
	if over <= worthSaying {
		return nil
	}
	return []finding.Finding{{
		Code: "BOX_VOLUME_OVERSTATES", Severity: finding.Note, Subject: "volume",
		Sentence: fmt.Sprintf("Length times width times greatest depth would say %s L, %.0f %% more than the %s L there are.",
			finding.Whole(m.BoxVolume.Litres()), over, finding.Whole(m.Volume.Litres())),
		Value: finding.Of(over, "%"), Limit: finding.Of(worthSaying, "%"),
		Change: "Dose and stock by the calculated volume.",
		Source: source.Practice,
	}}
}

// sideFindings says what the edge met with on its way inwards.
func (b Bay) sideFindings(in inset) []finding.Finding {
	var found []finding.Finding
	if d, parts := in.splits(b.reach()); parts > 1 {
		found = append(found, finding.Finding{
			Code: "FLOOR_IN_PARTS", Severity: finding.Note, Subject: "floor",
			Sentence: fmt.Sprintf("The sides meet across a narrow place %.2f m in from the edge, and the water below is in %d parts.", d, parts),
			Value:    finding.Of(d, "m"),
			Change:   "Make the shelves narrower or the narrow place wider if one deep floor is wanted.",
			Source:   source.StraightSkeleton,
		})
	}
	if len(in.sharp) > 0 && b.reach() > 0 {
		found = append(found, sharpCorners(in.sharp))
	}
	return found
}

func sharpCorners(points []int) finding.Finding {
	points = slices.Sorted(slices.Values(points))
	names := make([]string, len(points))
	for i, p := range points {
		names[i] = fmt.Sprint(p)
	}
	return finding.Finding{
		Code: "SHARP_CORNER_CUT", Severity: finding.Note, Subject: "shelf",
		Sentence: fmt.Sprintf("The bank comes to a point into the water at %s; shelves and sloping sides are taken straight across it.",
			strings.Join(names, ", ")),
		Source: source.Choice,
	}
}

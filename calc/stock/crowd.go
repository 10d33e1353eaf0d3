package stock

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// mostKept is the mass of fish in water above which the trade says nobody should try.
const mostKept = unit.Density(3)

// Crowd says so where the fish are, or will be, more than anyone keeps in so much water. It is a habit of the trade: what
// the filter carries and what is left to breathe at dawn are worked out elsewhere. Water of no volume is not judged.
func Crowd(now, grown Load, volume unit.Volume) []finding.Finding {
	if !known(float64(volume)) {
		return nil
	}
	of := func(l Load) float64 { return l.Mass.Kilograms() / volume.CubicMetres() }
	today, later := of(now), of(grown)
	most := mostKept.KilogramsPerCubicMetre()
	f := finding.Finding{
		Code: "STOCKED_BEYOND_PRACTICE", Severity: finding.Caution, Subject: "fish",
		Value: finding.Of(later, "kg/m³"), Limit: finding.Of(most, "kg/m³"), Source: source.Practice,
		Change: "Keep fewer fish or dig a larger pond, and look at filter and oxygen with the grown fish.",
	}
	switch {
	case today > most:
		f.Value = finding.Of(today, "kg/m³")
		f.Sentence = fmt.Sprintf("The fish are %s kg in each cubic metre today; more than %.0f is more than anyone should try in a garden.", finding.Figures(today), most)
		f.Change = "Find other homes for most of them now, and test ammonia, nitrite and oxygen today."
	case later > most:
		f.Sentence = fmt.Sprintf("Grown, the fish will be %s kg in each cubic metre; more than %.0f is more than anyone should try in a garden.", finding.Figures(later), most)
	default:
		return nil
	}
	return []finding.Finding{f}
}

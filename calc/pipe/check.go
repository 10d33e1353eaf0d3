package pipe

import (
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// check finds every fault of a spec.
func check(s Spec) error {
	var errs input.Errors
	if !(s.Length > 0) || !finite(s.Length.Metres()) {
		errs.Add("length_m", "give the length of hose to lay", "length is %g m", s.Length.Metres())
	}
	if !(s.Bore > 0) || !finite(s.Bore.Metres()) {
		errs.Add("bore_mm", "give the true inside diameter", "bore is %g mm", s.Bore.Millimetres())
	}
	if !(s.TailBore >= 0 && s.TailBore <= s.Bore) {
		errs.Add("tail_bore_mm", "give the narrowest way through the tail", "tail of %g mm in a hose of %g mm",
			s.TailBore.Millimetres(), s.Bore.Millimetres())
	}
	if !(s.Pitch >= 0 && s.Pitch <= s.Bore) {
		errs.Add("pitch_mm", "give the distance from rib to rib, at most the bore", "ribs are %g mm apart", s.Pitch.Millimetres())
	}
	if !(s.Roughness >= 0 && s.Roughness <= s.Bore/20) {
		errs.Add("roughness_mm", "give the height of the unevenness, at most a twentieth of the bore", "roughness is %g mm",
			s.Roughness.Millimetres())
	}
	if !(s.OtherK >= 0) || !finite(s.OtherK) {
		errs.Add("other_k", "give a loss coefficient of 0 or more", "coefficient is %g", s.OtherK)
	}
	for i, f := range s.Fittings {
		f.check(&errs, fittingField(i))
	}
	checkEdges(&errs, s)
	return errs.Err()
}

func checkEdges(errs *input.Errors, s Spec) {
	if !within(s.BoreLeast, s.Bore, s.BoreMost) || !finite(s.BoreMost.Metres()) {
		errs.Add("bore_least_mm", "give bores on both sides of the expected one, or 0", "bore of %g to %g mm, expected %g mm",
			s.BoreLeast.Millimetres(), s.BoreMost.Millimetres(), s.Bore.Millimetres())
	}
	usual := s.Roughness
	if usual == 0 {
		usual = smoothRoughness
	}
	if !within(s.RoughnessLeast, usual, s.RoughnessMost) || !(s.RoughnessMost <= s.Bore/20) {
		errs.Add("roughness_least_mm", "give roughnesses on both sides of the expected one, at most a twentieth of the bore, or 0",
			"roughness of %g to %g mm, expected %g mm", s.RoughnessLeast.Millimetres(), s.RoughnessMost.Millimetres(), usual.Millimetres())
	}
}

// within says whether the edges that are known, not 0, lie on their sides of what is expected.
func within(least, expected, most unit.Length) bool {
	return (least == 0 || least > 0 && least <= expected) && (most == 0 || most >= expected)
}

package fill

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// Compare holds a measured volume against the drawn one and says which to believe. They agree when their widths overlap.
// A meter, a clock and a scale see the hole that was dug; a drawing sees the one that was meant.
//
// The error is an input.Errors: an estimate must have some water in it.
func Compare(drawn, measured Estimate) (finding.Finding, error) {
	var errs input.Errors
	between(&errs, "drawn.expected_m3", drawn.Expected.CubicMetres(), smallest, largest)
	between(&errs, "measured.expected_m3", measured.Expected.CubicMetres(), smallest, largest)
	if len(errs) > 0 {
		return finding.Finding{}, errs
	}
	return verdict(drawn, measured), nil
}

// A tub and a lake.
const smallest, largest = 1e-6, 1e9 // m³

func verdict(drawn, measured Estimate) finding.Finding {
	off := unit.Ratio(drawn.Expected/measured.Expected - 1)
	if drawn.Low <= measured.High && measured.Low <= drawn.High {
		return finding.Finding{
			Code: "VOLUMES_AGREE", Severity: finding.Note, Subject: "volume",
			Sentence: fmt.Sprintf("Drawn %s L and %s %s L agree within what either can be off.",
				finding.Whole(drawn.Expected.Litres()), measured.How, finding.Whole(measured.Expected.Litres())),
			Value:  finding.Of(off.Percent(), "%"),
			Source: source.Definition,
		}
	}
	how := "more"
	if off < 0 {
		how, off = "less", -off
	}
	return finding.Finding{
		Code: "DRAWN_VOLUME_WRONG", Severity: finding.Caution, Subject: "volume",
		Sentence: fmt.Sprintf("The drawing says %s L, %.0f %% %s than the %s L found %s.",
			finding.Whole(drawn.Expected.Litres()), off.Percent(), how, finding.Whole(measured.Expected.Litres()), measured.How),
		Value:  finding.Of(off.Percent(), "%"),
		Change: "Dose by the measured volume, and tape depth and shelves again.",
		Source: source.Choice,
	}
}

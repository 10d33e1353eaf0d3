package fall

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// remarks are what to look at in a step as it runs. outside is the remark of the formula of its sill.
func (s Step) remarks(subject string, l Landing, outside string) []finding.Finding {
	thin, _, _ := Thin.Practice()
	_, heavy, _ := Heavy.Practice()
	var found []finding.Finding
	if outside != "" {
		found = append(found, outsideStandard(l, outside))
	}
	switch {
	case l.PerWidth < thin:
		found = append(found, clings(l.PerWidth, thin))
	case l.PerWidth > heavy:
		found = append(found, isWeir(l.PerWidth, heavy))
	}
	if s.Pool > 0 && l.Throw > s.Pool {
		found = append(found, missesPool(l.Throw, s.Pool))
	}
	for i := range found {
		found[i].Subject = subject
	}
	return found
}

func outsideStandard(l Landing, outside string) finding.Finding {
	return finding.Finding{
		Code: "SILL_OUTSIDE_STANDARD", Severity: finding.Note,
		Sentence: fmt.Sprintf("The head of %.0f mm over the lip, %.0f to %.0f mm, is an indication only: the formula was not measured there (%s). Its %.0f L/h over each "+
			"centimetre say more: builders take 60 to 120 for a thin sheet, 120 to 200 for a full one and 200 to 350 for a heavy one.",
			l.Head.Millimetres(), l.HeadLow.Millimetres(), l.HeadHigh.Millimetres(), outside, l.PerWidth.LitresPerHourPerCentimetre()),
		Value:  finding.Of(l.Head.Millimetres(), "mm"),
		Change: "judge the fall by its flow over each centimetre of lip", Source: source.Practice,
	}
}

func clings(q, thin unit.FlowPerWidth) finding.Finding {
	return finding.Finding{
		Code: "SHEET_CLINGS", Severity: finding.Caution,
		Sentence: fmt.Sprintf("With %.0f L/h over each centimetre of lip the water clings to the edge and splits; builders take %.0f at least.",
			q.LitresPerHourPerCentimetre(), thin.LitresPerHourPerCentimetre()),
		Value: finding.Of(q.LitresPerHourPerCentimetre(), "L/h/cm"), Limit: finding.Of(thin.LitresPerHourPerCentimetre(), "L/h/cm"),
		Change: "make the lip narrower or the flow larger", Source: source.Practice,
	}
}

func isWeir(q, heavy unit.FlowPerWidth) finding.Finding {
	return finding.Finding{
		Code: "SHEET_IS_A_WEIR", Severity: finding.Note,
		Sentence: fmt.Sprintf("With %.0f L/h over each centimetre of lip this is a small weir: loud, and it wets its surroundings.",
			q.LitresPerHourPerCentimetre()),
		Value: finding.Of(q.LitresPerHourPerCentimetre(), "L/h/cm"), Limit: finding.Of(heavy.LitresPerHourPerCentimetre(), "L/h/cm"),
		Change: "make the lip wider or the flow smaller", Source: source.Practice,
	}
}

func missesPool(throw, pool unit.Length) finding.Finding {
	return finding.Finding{
		Code: "SHEET_MISSES_POOL", Severity: finding.Caution,
		Sentence: fmt.Sprintf("The sheet lands %.2f m from under the lip and the pool reaches %.2f m.", throw.Metres(), pool.Metres()),
		Value:    finding.Of(throw.Metres(), "m"), Limit: finding.Of(pool.Metres(), "m"),
		Change: "make the pool longer, the fall lower or the flow smaller", Source: source.FreeFall,
	}
}

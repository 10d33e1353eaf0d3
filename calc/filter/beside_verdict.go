package filter

import (
	"fmt"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

func besideVerdicts(in BesideInput, b Beside) []finding.Finding {
	var found []finding.Finding
	for _, judge := range []func(BesideInput, Beside) *finding.Finding{madeForVerdict, dueVerdict, turnoverVerdict, labelVerdict} {
		if f := judge(in, b); f != nil {
			found = append(found, *f)
		}
	}
	return found
}

func madeForVerdict(in BesideInput, _ Beside) *finding.Finding { return AboveMade(in.Flow, in.MaxFlow) }

// AboveMade says so where more water runs through a filter than it is made for; nothing where that is not known.
func AboveMade(runs, made unit.Flow) *finding.Finding {
	flow, most := runs.LitresPerHour(), made.LitresPerHour()
	if most == 0 || flow <= most {
		return nil
	}
	return &finding.Finding{
		Code: "FLOW_ABOVE_FILTER", Severity: finding.Stop, Subject: "filter",
		Sentence: fmt.Sprintf("%s L/h flow, more than the %s L/h the filter is made for.", finding.Whole(flow), finding.Whole(most)),
		Value:    finding.Of(flow, "L/h"), Limit: finding.Of(most, "L/h"),
		Change: "Take a filter made for more flow, or a smaller pump.", Source: source.Definition,
	}
}

func dueVerdict(in BesideInput, b Beside) *finding.Finding {
	if in.CleanHead == 0 || in.DueHead > 0 {
		return nil
	}
	return &finding.Finding{
		Code: "DUE_HEAD_ASSUMED", Severity: finding.Note, Subject: "filter",
		Sentence: fmt.Sprintf("The head lost when due for cleaning is not stated, so %.0f times the clean one was taken, %.2f m.", DueRatio.Float(), b.DueHead.Metres()),
		Value:    finding.Of(b.DueHead.Metres(), "m"), Change: "Ask the maker for it.", Source: source.Choice,
	}
}

// turnoverVerdict sets a habit beside the answer; the flow the ammonia needs is judged by Assess.
func turnoverVerdict(in BesideInput, b Beside) *finding.Finding {
	n, least, most := b.Turnover.PerHour(), b.TurnoverLeast.PerHour(), b.TurnoverMost.PerHour()
	if most == 0 || in.Flow == 0 || n >= least && n <= most {
		return nil
	}
	f := finding.Finding{Subject: "filter", Severity: finding.Note, Value: finding.Of(n, "1/h"), Source: source.Practice}
	if n < least {
		f.Code, f.Limit, f.Change = "TURNOVER_BELOW_PRACTICE", finding.Of(least, "1/h"), "Test the water; raise the flow if it asks for it."
	} else {
		f.Code, f.Limit, f.Change = "TURNOVER_ABOVE_PRACTICE", finding.Of(most, "1/h"), "More than usual does no harm unless fish tire in the current; it costs energy."
	}
	f.Sentence = fmt.Sprintf("The pond passes the filter %s times an hour; with %s %.2g to %.2g times is usual.", finding.Figures(n), in.Stocking, least, most)
	return &f
}

// labelVerdict compares what the trade makes of the label with what the media can do.
func labelVerdict(in BesideInput, b Beside) *finding.Finding {
	for _, r := range b.Label {
		if r.Stocking != in.Stocking || r.Carries == (in.Headroom >= 0) {
			continue
		}
		f := finding.Finding{
			Code: "LABEL_DISAGREES", Subject: "filter", Severity: finding.Note,
			Value: finding.Of(in.Label.Litres(), "L"), Limit: finding.Of(r.Suits.Litres(), "L"), Source: r.Source,
		}
		if r.Carries {
			f.Severity = finding.Caution
			f.Sentence = fmt.Sprintf("By its label of %s L the filter would carry this pond, taking %.0f %% of it for %s; by its media it does not.", finding.Whole(in.Label.Litres()), r.Share.Percent(), r.Stocking)
			f.Change = "Go by the media: a label does not know the fish."
		} else {
			f.Sentence = fmt.Sprintf("By its label of %s L the filter would not carry this pond, taking %.0f %% of it for %s; by its media it does.", finding.Whole(in.Label.Litres()), r.Share.Percent(), r.Stocking)
			f.Change = "Ask how large the surface of the media really is."
		}
		return &f
	}
	return nil
}

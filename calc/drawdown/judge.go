package drawdown

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// judge puts the fit into a verdict, a sentence and what to do next.
func (a *Answer) judge(f fit, rows []row) {
	var dries, days float64
	for _, r := range rows {
		dries += r.evaporated
		days += r.days
	}
	dries /= days * unit.Days(1).Seconds() // m³/s on the mean
	shows := func(value, u float64) bool { return value > coverage*u }
	leaks, streams := shows(f.leak, f.leakWidth), a.Stream != nil && shows(f.stream, f.streamWidth)
	switch {
	case shows(-f.leak, f.leakWidth) || a.Stream != nil && shows(-f.stream, f.streamWidth):
		a.Verdict = DoesNotAddUp
	case leaks && a.Together != nil:
		a.Verdict = PondAndStreamLose
	case leaks && streams:
		a.Verdict = PondAndStreamLose
	case leaks:
		a.Verdict = PondLeaks
	case streams:
		a.Verdict = StreamLoses
	case coverage*f.leakWidth > math.Abs(dries):
		a.Verdict = CannotTell
	default:
		a.Verdict = SunAlone
	}
	litres := func(q float64) string { return finding.Whole(unit.Flow(q).LitresPerDay()) }
	width := func(b *Band) string {
		return fmt.Sprintf("%s L a day (%s to %s)", litres(float64(b.Expected)), litres(float64(b.Low)), litres(float64(b.High)))
	}
	sun := fmt.Sprintf("Evaporation takes about %s L a day.", litres(dries))
	switch a.Verdict {
	case SunAlone:
		a.Summary = sun + fmt.Sprintf(" It explains the falling level; a leak of more than %s L a day would have shown.", litres(coverage*f.leakWidth))
	case PondLeaks:
		a.Summary = sun + " With the falls off the pond loses " + width(a.Leak) + " more: that is a leak."
	case StreamLoses:
		a.Summary = sun + fmt.Sprintf(" No leak of the pond itself shows, up to %s L a day; the running falls lose %s more, by splash, wicking or a leak of the stream.", litres(coverage*f.leakWidth), width(a.Stream))
	case PondAndStreamLose:
		if a.Together != nil {
			a.Summary = sun + " With the falls on " + width(a.Together) + " more go; whether pond or stream loses it cannot be told without a reading with the falls off."
		} else {
			a.Summary = sun + " The pond leaks " + width(a.Leak) + ", and the running falls lose " + width(a.Stream) + " more."
		}
	case CannotTell:
		a.Summary = sun + " The readings are too coarse or too short: even a leak as large as that would not show."
	case DoesNotAddUp:
		a.Summary = sun + " Less went than must have evaporated: somewhere water came in that was not told."
	}
	a.Findings = append(a.Findings, verdictFinding(a), assumedWidths)
	a.advise(rows)
}

func verdictFinding(a *Answer) finding.Finding {
	f := finding.Finding{Code: "EVAPORATION_EXPLAINS", Severity: finding.Note, Subject: "level", Sentence: a.Summary, Source: source.Balance,
		Change: "Read the level again in a dry week, and top up by the meter."}
	switch a.Verdict {
	case PondLeaks:
		f.Code, f.Severity = "POND_LEAKS", finding.Caution
		f.Change = "Let the level fall with the falls off: it stops near the height of the leak. Look there at folds, joints and pipes through the lining first."
	case StreamLoses:
		f.Code, f.Severity = "STREAM_LOSES", finding.Caution
		f.Change = "Walk the stream: low edges, wet soil, stones that throw water out, plants that dam it."
	case PondAndStreamLose:
		f.Code, f.Severity = "POND_AND_STREAM_LOSE", finding.Caution
		f.Change = "Mend the stream's edges first; read again with the falls off."
	case CannotTell:
		f.Code = "LEAK_NOT_TOLD"
		f.Change = "Read over two or three dry days with the falls off, to the millimetre, with a bucket of pond water standing in the pond."
	case DoesNotAddUp:
		f.Code, f.Severity = "LEVELS_DO_NOT_ADD_UP", finding.Caution
		f.Change = "Look for a float valve, a roof that drains in, groundwater, rain that was not measured, or a reading from another place."
	}
	if a.Leak != nil {
		f.Value = finding.Of(a.Leak.Expected.LitresPerDay(), "L/day")
	}
	return f
}

var assumedWidths = finding.Finding{
	Code: "EVAPORATION_WIDTH_ASSUMED", Severity: finding.Note, Subject: "evaporation",
	Sentence: "How far evaporation may be off was assumed: the two published roads as the ends of a band, 15 % for the garden's own wind and sun, and for each day 15 % by its weather or 35 % by the usual climate; 10 % by a bucket.",
	Change:   "Measure with a bucket of pond water standing in the pond.", Source: source.Choice,
}

// advise says what would narrow the answer.
func (a *Answer) advise(rows []row) {
	part, bucket, off := false, false, false
	for _, r := range rows {
		part = part || math.Abs(r.days-math.Round(r.days)) > 0.1
		bucket = bucket || r.bucket
		off = off || !r.on
	}
	note := func(code, sentence, change string) {
		a.Findings = append(a.Findings, finding.Finding{Code: code, Severity: finding.Note, Subject: "level", Sentence: sentence, Change: change, Source: source.Practice})
	}
	if part {
		note("PART_OF_A_DAY", "A drop was read over part of a day; evaporation was spread evenly, but by night it is far less than by day.", "Read at the same hour each day.")
	}
	if !bucket {
		note("NO_BUCKET", "No bucket stood in the pond: it would tell evaporation three times as well as any weather.", "Stand a bucket of pond water in the pond and read both levels.")
	}
	if !off {
		note("FALLS_NEVER_OFF", "No drop was read with the falls off, so pond and stream cannot be told apart.", "Read one with the pump off for a day; keep air on for the fish meanwhile.")
	}
}

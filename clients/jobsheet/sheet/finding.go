package sheet

import (
	"cmp"
	"slices"

	"google.golang.org/protobuf/proto"

	"example.com/pondwright/clients/internal/page"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// pondFindings are those on the pond and the question: first what to take care of, then what is good to know.
func (s *sheet) pondFindings() {
	all := gravestFirst(s.answer.GetFindings())
	known := slices.IndexFunc(all, func(f *pondwrightv1.Finding) bool {
		return f.GetSeverity() <= pondwrightv1.Severity_SEVERITY_NOTE
	})
	if known < 0 {
		known = len(all)
	}
	if care := all[:known]; len(care) > 0 {
		s.Heading("Before you buy or dig")
		s.findings(care)
	}
	if know := all[known:]; len(know) > 0 {
		s.Heading("Good to know")
		s.findings(know)
	}
}

func anyStop(all []*pondwrightv1.Finding) bool {
	return slices.ContainsFunc(all, func(f *pondwrightv1.Finding) bool {
		return f.GetSeverity() == pondwrightv1.Severity_SEVERITY_STOP
	})
}

func gravestFirst(all []*pondwrightv1.Finding) []*pondwrightv1.Finding {
	return slices.SortedStableFunc(slices.Values(all), func(a, b *pondwrightv1.Finding) int {
		return cmp.Compare(b.GetSeverity(), a.GetSeverity())
	})
}

// sharedFindings are those that every one of several kits has, in the same words.
func sharedFindings(kits []*pondwrightv1.Kit) []*pondwrightv1.Finding {
	if len(kits) < 2 {
		return nil
	}
	shared := kits[0].GetFindings()
	for _, k := range kits[1:] {
		shared = slices.DeleteFunc(slices.Clone(shared), func(f *pondwrightv1.Finding) bool { return !holds(k.GetFindings(), f) })
	}
	return shared
}

func without(all, others []*pondwrightv1.Finding) []*pondwrightv1.Finding {
	return slices.DeleteFunc(slices.Clone(all), func(f *pondwrightv1.Finding) bool { return holds(others, f) })
}

func holds(all []*pondwrightv1.Finding, f *pondwrightv1.Finding) bool {
	return slices.ContainsFunc(all, func(other *pondwrightv1.Finding) bool { return proto.Equal(f, other) })
}

func (s *sheet) findings(list []*pondwrightv1.Finding) {
	for _, f := range gravestFirst(list) {
		text := sentence(f.GetSentence())
		if f.GetSubject() != "" {
			text = capital(f.GetSubject()) + ": " + sentence(f.GetSentence())
		}
		s.Hang(severityWidth, severity(f.GetSeverity()), page.Plain(text), page.Faint(inBrackets(f.GetSource())))
		if f.GetChange() != "" {
			s.Hang(severityWidth, page.Plain(""), page.Plain("→ "+sentence(f.GetChange())))
		}
	}
}

// severityWidth holds the longest of the words and the space after it.
const severityWidth = 9

// severity is a word before it is a colour.
func severity(s pondwrightv1.Severity) page.Span {
	switch s {
	case pondwrightv1.Severity_SEVERITY_STOP:
		return page.Bad("STOP")
	case pondwrightv1.Severity_SEVERITY_CAUTION:
		return page.Warn("CAUTION")
	case pondwrightv1.Severity_SEVERITY_NOTE:
		return page.Plain("NOTE")
	}
	return page.Plain("?")
}

var standings = map[pondwrightv1.SourceStatus]string{
	pondwrightv1.SourceStatus_SOURCE_STATUS_PUBLISHED:       "published",
	pondwrightv1.SourceStatus_SOURCE_STATUS_SECOND_HAND:     "as quoted elsewhere",
	pondwrightv1.SourceStatus_SOURCE_STATUS_FROM_MEMORY:     "from memory, check before quoting",
	pondwrightv1.SourceStatus_SOURCE_STATUS_DERIVED:         "derived",
	pondwrightv1.SourceStatus_SOURCE_STATUS_COMMON_PRACTICE: "common practice, no source",
	pondwrightv1.SourceStatus_SOURCE_STATUS_ASSUMED:         "assumed, until it is measured",
	pondwrightv1.SourceStatus_SOURCE_STATUS_GIVEN:           "as given",
}

// sourceText is a source with its place and its standing.
func sourceText(src *pondwrightv1.Source) string {
	text := src.GetCitation()
	if src.GetLocator() != "" {
		text += ", " + src.GetLocator()
	}
	standing := standings[src.GetStatus()]
	switch {
	case text == "":
		return standing
	case standing == "" || standing == text:
		return text
	}
	return text + " (" + standing + ")"
}

// inBrackets is a source to stand behind a sentence, or nothing where there is none.
func inBrackets(src *pondwrightv1.Source) string {
	if text := sourceText(src); text != "" {
		return " [" + text + "]"
	}
	return ""
}

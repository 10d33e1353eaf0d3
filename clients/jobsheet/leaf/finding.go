package leaf

import (
	"cmp"
	"slices"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// A finding as it stands on the page: the word comes first and says how grave it is.
type finding struct {
	Word, Class, Subject, Sentence, Change, Source string
}

// Grave and caution are marked by a heavier rule at the side, beside the word.
func wordOf(s pb.Severity) (word, class string) {
	switch s {
	case pb.Severity_SEVERITY_STOP:
		return "Stop", "stop"
	case pb.Severity_SEVERITY_CAUTION:
		return "Caution", "caution"
	}
	return "Note", "note"
}

// findings are the gravest first, each once.
func findings(least pb.Severity, lists ...[]*pb.Finding) []finding {
	var all []*pb.Finding
	seen := map[string]bool{}
	for _, list := range lists {
		for _, f := range list {
			key := f.GetCode() + "\x00" + f.GetSentence()
			if f.GetSeverity() >= least && !seen[key] {
				seen[key] = true
				all = append(all, f)
			}
		}
	}
	slices.SortStableFunc(all, func(a, b *pb.Finding) int { return cmp.Compare(b.GetSeverity(), a.GetSeverity()) })
	made := make([]finding, len(all))
	for i, f := range all {
		word, class := wordOf(f.GetSeverity())
		made[i] = finding{word, class, capital(f.GetSubject()), sentence(f.GetSentence()), sentence(f.GetChange()), sourceText(f.GetSource())}
	}
	return made
}

// grave are the findings of a part that are more than notes, for beside it; the notes of all stand together at the end. What stands
// among the cautions, or with a part before, is not said again.
func (l *leaf) grave(lists ...[]*pb.Finding) []block {
	if l.said == nil {
		l.said = map[string]bool{}
		for _, f := range l.plan.GetCautions() {
			l.said[f.GetSentence()] = true
		}
	}
	var fresh []*pb.Finding
	for _, list := range lists {
		for _, f := range list {
			if f.GetSeverity() >= pb.Severity_SEVERITY_CAUTION && !l.said[f.GetSentence()] {
				l.said[f.GetSentence()] = true
				fresh = append(fresh, f)
			}
		}
	}
	if len(fresh) == 0 {
		return nil
	}
	return []block{{Findings: findings(pb.Severity_SEVERITY_CAUTION, fresh)}}
}

var standings = map[pb.SourceStatus]string{
	pb.SourceStatus_SOURCE_STATUS_PUBLISHED:       "published",
	pb.SourceStatus_SOURCE_STATUS_SECOND_HAND:     "as quoted elsewhere",
	pb.SourceStatus_SOURCE_STATUS_FROM_MEMORY:     "from memory, check before quoting",
	pb.SourceStatus_SOURCE_STATUS_DERIVED:         "derived",
	pb.SourceStatus_SOURCE_STATUS_COMMON_PRACTICE: "common practice, no source",
	pb.SourceStatus_SOURCE_STATUS_ASSUMED:         "assumed, until it is measured",
	pb.SourceStatus_SOURCE_STATUS_GIVEN:           "as given",
}

// sourceText is a source with its place and its standing.
func sourceText(src *pb.Source) string {
	words := src.GetCitation()
	if src.GetLocator() != "" {
		words += ", " + src.GetLocator()
	}
	standing := standings[src.GetStatus()]
	switch {
	case words == "":
		return standing
	case standing == "" || standing == words:
		return words
	}
	return words + " (" + standing + ")"
}

package web

import (
	"strings"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// stops are the limits that rule sets out, as they are said at the counter.
var stops = map[string]string{
	"NO_DUTY":              "the pump does not lift the water that high",
	"FLOW_BELOW_WANTED":    "too little water at the fall",
	"FLOW_ABOVE_WANTED":    "too much water at the fall",
	"FLOW_ABOVE_FILTER":    "more water than the filter takes",
	"FLOW_ABOVE_LAMP_UNIT": "more water than the lamp unit takes",
	"FAST_IN_HOSE":         "water too fast in the hose",
	"FILTER_TOO_SMALL":     "filter too small for the fish",
	"DOSE_TOO_LOW":         "too little UV light for the pond",
	"OVER_BUDGET":          "dearer than what may be spent",
	"OUT_OF_STOCK":         "out of stock",
}

// stop is the words for a code, which may be one that this page does not know yet.
func stop(code string) string {
	if words, ok := stops[code]; ok {
		return words
	}
	return strings.ToLower(strings.ReplaceAll(code, "_", " "))
}

func stateName(s pb.RunningState, filtered bool) string {
	switch s {
	case pb.RunningState_RUNNING_STATE_CLEAN:
		if !filtered {
			return "as it runs"
		}
		return "filter clean"
	case pb.RunningState_RUNNING_STATE_DUE:
		return "filter due for cleaning"
	case pb.RunningState_RUNNING_STATE_WINTER:
		return "winter"
	}
	return "in every state"
}

// A state that the circuit runs in, or two of them in which nothing differs, as with an open filter.
type state struct {
	*pb.StateDuty
	both bool
}

func (s state) name(filtered bool) string {
	if s.both {
		return "filter clean or due for cleaning"
	}
	return stateName(s.GetState(), filtered)
}

// together takes clean and due for one where the water flows alike in both.
func together(states []*pb.StateDuty) []state {
	var all []state
	for _, s := range states {
		if n := len(all); n > 0 && s.GetState() == pb.RunningState_RUNNING_STATE_DUE && all[n-1].GetState() == pb.RunningState_RUNNING_STATE_CLEAN &&
			s.GetDuty().GetFlowLPerH().GetExpected() == all[n-1].GetDuty().GetFlowLPerH().GetExpected() {
			all[n-1].both = true
			continue
		}
		all = append(all, state{StateDuty: s})
	}
	return all
}

// A remark is a finding as the page shows it.
type remark struct{ Code, Weight, Sentence, Change, Source string }

func remarks(findings []*pb.Finding) (assumed, cautions, notes []remark) {
	for _, f := range findings {
		r := remark{Code: f.GetCode(), Sentence: f.GetSentence(), Change: strings.TrimSuffix(f.GetChange(), "."), Source: f.GetSource().GetCitation()}
		switch {
		case f.GetSeverity() == pb.Severity_SEVERITY_STOP:
			r.Weight = "Stop"
			cautions = append([]remark{r}, cautions...)
		case strings.HasPrefix(f.GetCode(), "ASSUMED"):
			assumed = append(assumed, r)
		case f.GetSeverity() == pb.Severity_SEVERITY_CAUTION:
			r.Weight = "Caution"
			cautions = append(cautions, r)
		default:
			r.Weight = "Note"
			notes = append(notes, r)
		}
	}
	return assumed, cautions, notes
}

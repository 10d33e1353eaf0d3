// Package wire turns messages into what calc works with, and back. It is the only place that does.
package wire

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/working"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// Findings turns findings into messages.
func Findings(found []finding.Finding) []*pb.Finding {
	made := make([]*pb.Finding, len(found))
	for i, f := range found {
		made[i] = Finding(f)
	}
	return made
}

// Finding turns a finding into a message.
func Finding(f finding.Finding) *pb.Finding {
	return &pb.Finding{
		Code: f.Code, Severity: severities[f.Severity], Subject: f.Subject, Sentence: f.Sentence,
		Value: quantity(f.Value), Limit: quantity(f.Limit), Change: f.Change, Source: Source(f.Source),
	}
}

var severities = map[finding.Severity]pb.Severity{
	finding.Note:    pb.Severity_SEVERITY_NOTE,
	finding.Caution: pb.Severity_SEVERITY_CAUTION,
	finding.Stop:    pb.Severity_SEVERITY_STOP,
}

func quantity(v *finding.Value) *pb.Quantity {
	if v == nil {
		return nil
	}
	return &pb.Quantity{Value: v.Number, Unit: v.Unit}
}

// Source turns a source into a message; the zero source is none.
func Source(s source.Source) *pb.Source {
	if s == (source.Source{}) {
		return nil
	}
	return &pb.Source{Key: s.Key, Citation: s.Citation, Locator: s.Locator, Status: statuses[s.Status]}
}

var statuses = map[source.Status]pb.SourceStatus{
	source.Published:      pb.SourceStatus_SOURCE_STATUS_PUBLISHED,
	source.SecondHand:     pb.SourceStatus_SOURCE_STATUS_SECOND_HAND,
	source.FromMemory:     pb.SourceStatus_SOURCE_STATUS_FROM_MEMORY,
	source.Derived:        pb.SourceStatus_SOURCE_STATUS_DERIVED,
	source.CommonPractice: pb.SourceStatus_SOURCE_STATUS_COMMON_PRACTICE,
	source.Assumed:        pb.SourceStatus_SOURCE_STATUS_ASSUMED,
	source.Given:          pb.SourceStatus_SOURCE_STATUS_GIVEN,
}

// Workings turns a trail into messages. A nil trail has none.
func Workings(t *working.Trail) []*pb.WorkingStep {
	steps := t.Steps()
	made := make([]*pb.WorkingStep, len(steps))
	for i, s := range steps {
		d := s.Entry.Describe()
		in, out := s.Values()
		made[i] = &pb.WorkingStep{
			FormulaId: d.ID, Subject: s.Subject(), Name: d.Name, Equation: d.Equation,
			Inputs: values(in), Results: values(out), Source: Source(d.Source), OutsideRange: s.Outside(),
		}
	}
	return made
}

func values(vs []working.Value) []*pb.WorkingValue {
	made := make([]*pb.WorkingValue, len(vs))
	for i, v := range vs {
		made[i] = &pb.WorkingValue{Symbol: v.Symbol, Value: v.Number, Unit: v.Unit}
	}
	return made
}

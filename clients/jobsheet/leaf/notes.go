package leaf

import (
	"google.golang.org/protobuf/reflect/protoreflect"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// notes are what was assumed and what is good to know, of all parts together.
func (l *leaf) notes() (part, error) {
	p := part{ID: "notes", Title: "What was assumed, and what is good to know", Apart: true}
	all := allFindings(l.plan)
	var notes []*pb.Finding
	for _, f := range all {
		if f.GetSeverity() < pb.Severity_SEVERITY_CAUTION {
			notes = append(notes, f)
		}
	}
	made := findings(pb.Severity_SEVERITY_UNSPECIFIED, notes)
	if len(made) > 0 {
		p.Blocks = []block{{Findings: made}}
	}
	return p, nil
}

// allFindings are those of every part of the plan but the cautions, which have a part of their own.
func allFindings(plan *pb.PlanJobResponse) []*pb.Finding {
	var all []*pb.Finding
	var walk func(m protoreflect.Message)
	visit := func(m protoreflect.Message) {
		if f, ok := m.Interface().(*pb.Finding); ok {
			all = append(all, f)
			return
		}
		walk(m)
	}
	walk = func(m protoreflect.Message) {
		fields := m.Descriptor().Fields() // in the order they are declared: Range has none
		for i := range fields.Len() {
			fd := fields.Get(i)
			switch {
			case fd.Message() == nil || fd.IsMap() || fd.Name() == "cautions" || fd.Name() == "asked" || !m.Has(fd):
			case fd.IsList():
				for j := range m.Get(fd).List().Len() {
					visit(m.Get(fd).List().Get(j).Message())
				}
			default:
				visit(m.Get(fd).Message())
			}
		}
	}
	walk(plan.ProtoReflect())
	return all
}

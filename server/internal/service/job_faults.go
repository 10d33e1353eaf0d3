package service

import (
	"errors"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// jobFaults gathers everything wrong with a job, each fault once.
type jobFaults struct{ errs input.Errors }

func (f *jobFaults) err() error { return f.errs.Err() }

// add takes over what is wrong with a part, with its fields put where the job has them. What is no fault of the input is given back.
func (f *jobFaults) add(err error, place func(field string) string) error {
	if err == nil {
		return nil
	}
	found, ok := faultsOf(err)
	if !ok {
		return err
	}
	for _, e := range found {
		e.Field = strings.Trim(place(e.Field), ".")
		if !f.told(e) {
			f.errs = append(f.errs, e)
		}
	}
	return nil
}

func (f *jobFaults) told(e input.Error) bool {
	for _, other := range f.errs {
		if other.Field == e.Field && other.Problem == e.Problem {
			return true
		}
	}
	return false
}

// faultsOf reads what is wrong with the input out of an error of calc, or out of the status that an RPC refuses with.
func faultsOf(err error) (input.Errors, bool) {
	var errs input.Errors
	if errs.AddUnder("", err) && err != nil {
		return errs, true
	}
	var all input.Errors
	if errors.As(err, &all) {
		return all, true
	}
	s, ok := status.FromError(err)
	if !ok || s.Code() != codes.InvalidArgument {
		return nil, false
	}
	for _, detail := range s.Details() {
		if bad, is := detail.(*errdetails.BadRequest); is {
			for _, v := range bad.GetFieldViolations() {
				problem, change, _ := strings.Cut(v.GetDescription(), "; ")
				errs = append(errs, input.Error{Field: v.GetField(), Problem: problem, Change: change})
			}
		}
	}
	return errs, len(errs) > 0
}

// A placing says where the fields of a request of another RPC stand in a job: the longest beginning that fits.
type placing map[string]string

func (p placing) at(field string) string {
	best, found := "", false
	for from := range p {
		if (field == from || strings.HasPrefix(field, from+".") || strings.HasPrefix(field, from+"[") || from == "") && (!found || len(from) > len(best)) {
			best, found = from, true
		}
	}
	if !found {
		return field
	}
	rest := strings.TrimPrefix(field, best)
	if best == "" && rest != "" && p[""] != "" {
		rest = "." + rest
	}
	return p[best] + rest
}

// take keeps the workings of an answer that becomes part of a plan, and leaves its provenance out.
func (p *jobPlan) take(part string, m proto.Message) {
	fields := m.ProtoReflect().Descriptor().Fields()
	if fd := fields.ByName("provenance"); fd != nil {
		m.ProtoReflect().Clear(fd)
	}
	if fd := fields.ByName("workings"); fd != nil {
		list := m.ProtoReflect().Get(fd).List()
		for i := range list.Len() {
			step := list.Get(i).Message().Interface().(*pb.WorkingStep)
			step.Subject = strings.TrimSuffix(part+": "+step.GetSubject(), ": ")
			p.steps = append(p.steps, step)
		}
		m.ProtoReflect().Clear(fd)
	}
}

// copyOneof sets in one message the member of a oneof that another has under the same name.
func copyOneof(from, to proto.Message, oneof protoreflect.Name) {
	source, target := from.ProtoReflect(), to.ProtoReflect()
	fd := source.WhichOneof(source.Descriptor().Oneofs().ByName(oneof))
	if fd == nil {
		return
	}
	if same := target.Descriptor().Fields().ByName(fd.Name()); same != nil {
		target.Set(same, source.Get(fd))
	}
}

// jobNotes are findings about the job as a whole, each once.
type jobNotes struct{ found []finding.Finding }

func (n *jobNotes) add(found ...finding.Finding) { n.found = merged(n.found, found) }

func (n *jobNotes) messages() []*pb.Finding { return wire.Findings(n.found) }

// findingsIn are all findings of a message, wherever they stand in it.
func findingsIn(m protoreflect.Message) []*pb.Finding {
	if f, ok := m.Interface().(*pb.Finding); ok {
		return []*pb.Finding{f}
	}
	var found []*pb.Finding
	fields := m.Descriptor().Fields()
	for i := range fields.Len() {
		fd := fields.Get(i)
		switch {
		case fd.Message() == nil || fd.IsMap() || !m.Has(fd):
		case fd.IsList():
			list := m.Get(fd).List()
			for i := range list.Len() {
				found = append(found, findingsIn(list.Get(i).Message())...)
			}
		default:
			found = append(found, findingsIn(m.Get(fd).Message())...)
		}
	}
	return found
}

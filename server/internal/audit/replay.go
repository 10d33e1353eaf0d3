package audit

import (
	"context"
	"fmt"
	"strings"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// mostDifferences is how many are told of one answer.
const mostDifferences = 20

// An Outcome is what became of an old question that was asked again.
type Outcome struct {
	Skipped     string   // why it was not asked
	Differences []string // none where the answer is the same to the last bit, provenance apart
	Catalogues  []string // that are not what they were, which may be the reason
}

// Replay asks an old question again.
func Replay(ctx context.Context, conn grpc.ClientConnInterface, e Entry) (Outcome, error) {
	m, err := methodOf(e.Method)
	switch {
	case err != nil:
		return Outcome{}, err
	case strings.HasPrefix(e.Method, "/"+pb.CatalogueService_ServiceDesc.ServiceName+"/"):
		return Outcome{Skipped: "it is about the catalogues of its day"}, nil
	case m.IsStreamingClient() || m.IsStreamingServer():
		return Outcome{Skipped: "it was a stream"}, nil
	case passing(e.Code):
		return Outcome{Skipped: "it ended with " + e.Code + ", which says nothing of the question"}, nil
	}
	question, err := message(m.Input(), e.Request)
	if err != nil {
		return Outcome{}, err
	}
	answer, err := message(m.Output(), nil)
	if err != nil {
		return Outcome{}, err
	}
	failed := conn.Invoke(ctx, e.Method, question, answer)
	if ctx.Err() != nil {
		return Outcome{}, ctx.Err()
	}
	return e.outcome(m, answer, failed)
}

// passing says whether a call ended for a reason that is not in its question.
func passing(code string) bool {
	switch code {
	case codes.OK.String(), codes.InvalidArgument.String(), codes.NotFound.String(), codes.FailedPrecondition.String(), codes.OutOfRange.String():
		return false
	default:
		return true
	}
}

func (e Entry) outcome(m protoreflect.MethodDescriptor, answer proto.Message, failed error) (Outcome, error) {
	var o Outcome
	if code := status.Code(failed).String(); code != e.Code {
		o.Differences = append(o.Differences, fmt.Sprintf("ended with %s, now with %s %q", e.Code, code, status.Convert(failed).Message()))
		return o, nil
	}
	if failed != nil {
		if text := status.Convert(failed).Message(); text != e.Message {
			o.Differences = append(o.Differences, fmt.Sprintf("was refused with %q, now with %q", e.Message, text))
		}
		return o, nil
	}
	if said, ok := answer.(interface{ GetProvenance() *pb.Provenance }); ok {
		for _, c := range said.GetProvenance().GetCatalogues() {
			if was := e.Catalogues[c.GetCatalogue()]; was != c.GetRevision() {
				o.Catalogues = append(o.Catalogues, fmt.Sprintf("catalogue %q was %q, is %q", c.GetCatalogue(), was, c.GetRevision()))
			}
		}
	}
	digest, err := DigestOf(answer)
	if err != nil || digest == e.Answered {
		return o, err
	}
	if len(e.Answer) == 0 {
		o.Differences = append(o.Differences, "the answer is another; the old one was not kept")
		return o, nil
	}
	was, err := message(m.Output(), e.Answer)
	if err != nil {
		return o, err
	}
	o.Differences = Differences(was, answer, mostDifferences)
	if len(o.Differences) == 0 {
		o.Differences = []string{"the answer is another in what this version no longer knows"}
	}
	return o, nil
}

func methodOf(path string) (protoreflect.MethodDescriptor, error) {
	service, method, _ := strings.Cut(strings.TrimPrefix(path, "/"), "/")
	found, err := protoregistry.GlobalFiles.FindDescriptorByName(protoreflect.FullName(service).Append(protoreflect.Name(method)))
	if m, ok := found.(protoreflect.MethodDescriptor); err == nil && ok {
		return m, nil
	}
	return nil, fmt.Errorf("this version has no method %q", path)
}

func message(d protoreflect.MessageDescriptor, bytes []byte) (proto.Message, error) {
	t, err := protoregistry.GlobalTypes.FindMessageByName(d.FullName())
	if err != nil {
		return nil, fmt.Errorf("read %s: %w", d.FullName(), err)
	}
	m := t.New().Interface()
	if err := proto.Unmarshal(bytes, m); err != nil {
		return nil, fmt.Errorf("read %s: %w", d.FullName(), err)
	}
	return m, nil
}

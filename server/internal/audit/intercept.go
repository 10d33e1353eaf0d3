package audit

import (
	"context"
	"log/slog"
	"strings"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/intercept"
)

// Keep writes each call of the API to the log before its answer goes out. An answer that cannot be written down is not given.
func (l *Log) Keep(log *slog.Logger, caller func(context.Context) string, now func() *pb.Provenance, failed func()) grpc.UnaryServerInterceptor {
	prefix := "/" + string(pb.File_pondwright_v1_finding_proto.Package()) + "."
	return func(ctx context.Context, req any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		resp, err := next(ctx, req)
		question, ok := req.(proto.Message)
		if !ok || !strings.HasPrefix(info.FullMethod, prefix) {
			return resp, err
		}
		e, fault := l.entry(question, resp, err, now())
		if fault == nil {
			e.Caller, e.Method = caller(ctx), info.FullMethod
			fault = l.Append(e)
		}
		if fault != nil {
			failed()
			log.Error("audit log not written", "error", fault)
			return nil, status.Error(codes.Unavailable, "the answer could not be written to the audit log, and is not given without")
		}
		return resp, err
	}
}

func (l *Log) entry(question proto.Message, resp any, err error, now *pb.Provenance) (Entry, error) {
	request, fault := proto.MarshalOptions{Deterministic: true}.Marshal(question)
	if fault != nil {
		return Entry{}, fault
	}
	digest, fault := intercept.Digest(question)
	if fault != nil {
		return Entry{}, fault
	}
	e := Entry{Code: status.Code(err).String(), Digest: digest, Request: request}
	if err != nil {
		e.Message = status.Convert(err).Message()
	}
	if answer, ok := resp.(proto.Message); ok && err == nil {
		if said, ok := resp.(interface{ GetProvenance() *pb.Provenance }); ok && said.GetProvenance() != nil {
			now = said.GetProvenance() // that of the snapshot the call saw
		}
		if e.Answered, fault = DigestOf(answer); fault != nil {
			return e, fault
		}
		if l.how.Answers {
			if e.Answer, fault = proto.Marshal(answer); fault != nil {
				return e, fault
			}
		}
	}
	e.Version, e.MethodSet = now.GetEngineVersion(), now.GetMethodSet()
	for _, c := range now.GetCatalogues() {
		if e.Catalogues == nil {
			e.Catalogues = map[string]string{}
		}
		e.Catalogues[c.GetCatalogue()] = c.GetRevision()
	}
	return e, nil
}

package telemetry

import (
	"context"
	"log/slog"
	"time"

	"go.opentelemetry.io/otel/trace"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/server/internal/intercept"
)

// Log writes a line for each call, or for each that failed: who called what, how it ended, how long it took, the digest of the
// request and the trace it belongs to. Nothing that the caller has written is in it but through slog, which escapes it.
func Log(log *slog.Logger, all bool, caller func(context.Context) string) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, req any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		began := time.Now()
		resp, err := next(ctx, req)
		if err == nil && !all {
			return resp, nil
		}
		attrs := []slog.Attr{
			slog.String("method", info.FullMethod), slog.String("caller", caller(ctx)), slog.String("code", status.Code(err).String()),
			slog.Duration("took", time.Since(began)),
		}
		if m, ok := req.(proto.Message); ok {
			if digest, failed := intercept.Digest(m); failed == nil {
				attrs = append(attrs, slog.String("request_digest", digest))
			}
		}
		if at := trace.SpanContextFromContext(ctx); at.IsValid() {
			attrs = append(attrs, slog.String("trace_id", at.TraceID().String()))
		}
		log.LogAttrs(ctx, levelOf(status.Code(err)), "call", attrs...)
		return resp, err
	}
}

// levelOf is that of a call: what the caller has to change is no fault of the server.
func levelOf(c codes.Code) slog.Level {
	switch c {
	case codes.Internal, codes.Unknown, codes.DataLoss, codes.Unimplemented:
		return slog.LevelError
	case codes.ResourceExhausted, codes.DeadlineExceeded, codes.Unavailable, codes.PermissionDenied, codes.Unauthenticated:
		return slog.LevelWarn
	default:
		return slog.LevelInfo
	}
}

package intercept

import (
	"context"
	"crypto/rand"
	"log/slog"
	"runtime/debug"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
)

// Recover turns a panic into INTERNAL with a reference that stands beside the stack in the log, and errors that are no
// status into the same, so that nothing of the inside leaks. It goes outermost. panicked hears of it, and may be
// nil.
func Recover(log *slog.Logger, panicked func()) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, req any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (resp any, err error) {
		defer func() {
			if p := recover(); p != nil {
				if panicked != nil {
					panicked()
				}
				resp, err = nil, internal(log, info.FullMethod, "panic", p, "stack", string(debug.Stack()))
			}
		}()
		resp, err = next(ctx, req)
		if err == nil {
			return resp, nil
		}
		return nil, told(ctx, log, info.FullMethod, err)
	}
}

// RecoverStream is Recover for streams.
func RecoverStream(log *slog.Logger, panicked func()) grpc.StreamServerInterceptor {
	return func(srv any, s grpc.ServerStream, info *grpc.StreamServerInfo, next grpc.StreamHandler) (err error) {
		defer func() {
			if p := recover(); p != nil {
				if panicked != nil {
					panicked()
				}
				err = internal(log, info.FullMethod, "panic", p, "stack", string(debug.Stack()))
			}
		}()
		if err := next(srv, s); err != nil {
			return told(s.Context(), log, info.FullMethod, err)
		}
		return nil
	}
}

// told is what the caller gets to hear of an error.
func told(ctx context.Context, log *slog.Logger, method string, err error) error {
	if _, isStatus := status.FromError(err); isStatus {
		return err
	}
	if ctx.Err() != nil {
		return status.FromContextError(ctx.Err()).Err()
	}
	return internal(log, method, "error", err)
}

func internal(log *slog.Logger, method string, attrs ...any) error {
	reference := rand.Text()
	log.Error("call failed inside", append([]any{"method", method, "reference", reference}, attrs...)...)
	s := status.Newf(codes.Internal, "something went wrong inside; the log has it under %s", reference)
	detailed, err := s.WithDetails(&errdetails.ErrorInfo{
		Reason: "INTERNAL", Domain: Domain, Metadata: map[string]string{"reference": reference},
	})
	if err != nil {
		return s.Err()
	}
	return detailed.Err()
}

package intercept

import (
	"context"
	"fmt"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
)

// Deadline ends each call after a time, if its caller has not set a shorter one.
func Deadline(most time.Duration) grpc.UnaryServerInterceptor {
	slow := tooSlow(most)
	return func(ctx context.Context, req any, _ *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
		limited, cancel := context.WithTimeout(ctx, most)
		defer cancel()
		resp, err := next(limited, req)
		if err != nil && limited.Err() != nil && ctx.Err() == nil && status.Code(err) == codes.DeadlineExceeded {
			return nil, slow
		}
		return resp, err
	}
}

func tooSlow(most time.Duration) error {
	s := status.New(codes.DeadlineExceeded, fmt.Sprintf("this takes longer than the %v that a calculation may take here; ask for less at once", most))
	detailed, err := s.WithDetails(&errdetails.ErrorInfo{Reason: "TIME_LIMIT", Domain: Domain})
	if err != nil {
		return s.Err()
	}
	return detailed.Err()
}

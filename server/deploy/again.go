package deploy

import (
	"context"
	"time"

	"github.com/grpc-ecosystem/go-grpc-middleware/v2/interceptors/retry"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// Again is for clients beside ServiceConfig, whose own retries end with the first word of an answer: it asks again where a replica
// was lost in the middle of one. Having catalogues read again is not asked twice.
func Again() grpc.UnaryClientInterceptor {
	ask := retry.UnaryClientInterceptor(retry.WithRetriable(lost), retry.WithMax(3), retry.WithBackoff(retry.BackoffExponential(50*time.Millisecond)))
	return func(ctx context.Context, method string, req, reply any, conn *grpc.ClientConn, invoke grpc.UnaryInvoker, options ...grpc.CallOption) error {
		if method == pb.CatalogueService_ReloadCatalogues_FullMethodName {
			return invoke(ctx, method, req, reply, conn, options...)
		}
		return ask(ctx, method, req, reply, conn, invoke, options...)
	}
}

// lost says whether an error is that of a connection. Behind a balancer one that breaks in the middle of an answer comes as
// INTERNAL; the engine's own INTERNAL carries its details, and is not asked for again.
func lost(err error) bool {
	s := status.Convert(err)
	return s.Code() == codes.Unavailable || s.Code() == codes.Internal && len(s.Details()) == 0
}

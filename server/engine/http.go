package engine

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/test/bufconn"

	"example.com/pondwright/server/internal/jsonapi"
)

// pipeBytes is what lies between the two ends of a connection in memory.
const pipeBytes = 256 << 10

// JSON is an HTTP server for the same API. Its calls go to the engine by gRPC over memory, and so through everything that calls
// from outside pass. Shut it down before the engine is stopped, and call closing in between.
func (e *Engine) JSON(ctx context.Context) (server *http.Server, closing func() error, err error) {
	pipe := bufconn.Listen(pipeBytes)
	go func() { _ = e.Serve(pipe) }() // a listener in memory fails only when the engine stops
	conn, err := grpc.NewClient("passthrough:///json",
		grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(ctx context.Context, _ string) (net.Conn, error) { return pipe.DialContext(ctx) }),
		grpc.WithDefaultCallOptions(grpc.MaxCallRecvMsgSize(64<<20)), // answers with all their workings
	)
	if err != nil {
		return nil, nil, fmt.Errorf("serve JSON: %w", err)
	}
	handler, err := jsonapi.New(ctx, conn)
	if err != nil {
		return nil, nil, errors.Join(err, conn.Close())
	}
	return jsonapi.NewServer(handler), conn.Close, nil
}

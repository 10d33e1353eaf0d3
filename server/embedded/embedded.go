// Package embedded runs an engine inside a client that was given none to call. Calls go through real gRPC, over memory
// instead of a port that others could reach.
package embedded

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/test/bufconn"

	"example.com/pondwright/server/demo"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/catalogue"
)

const (
	buffer  = 256 << 10
	largest = 64 << 20 // answers with all their workings
	stopsIn = 5 * time.Second
)

// Open starts an engine with the demo catalogue and connects to it. closing ends both. The program's main must hand its
// arguments to builtin.RunIfAsked before anything else, for the catalogue plugin is the same program again.
func Open(ctx context.Context, log *slog.Logger) (conn *grpc.ClientConn, closing func() error, err error) {
	catalogues, clean, err := demo.Catalogue()
	if err != nil {
		return nil, nil, err
	}
	conn, stop, err := With(ctx, log, catalogues)
	if err != nil {
		return nil, nil, errors.Join(err, clean())
	}
	return conn, func() error { return errors.Join(stop(), clean()) }, nil
}

// With is Open for catalogues of one's own, which are left as they are.
func With(ctx context.Context, log *slog.Logger, catalogues []catalogue.Source) (conn *grpc.ClientConn, closing func() error, err error) {
	e, err := engine.New(ctx, engine.Config{Logger: log, Catalogues: catalogues})
	if err != nil {
		return nil, nil, err
	}
	pipe := bufconn.Listen(buffer)
	served := make(chan error, 1)
	go func() { served <- e.Serve(pipe) }()
	stop := func() error {
		limit, cancel := context.WithTimeout(context.Background(), stopsIn)
		defer cancel()
		return errors.Join(e.Stop(limit), <-served)
	}
	conn, err = grpc.NewClient("passthrough:///embedded",
		grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(ctx context.Context, _ string) (net.Conn, error) { return pipe.DialContext(ctx) }),
		grpc.WithDefaultCallOptions(grpc.MaxCallRecvMsgSize(largest)),
	)
	if err != nil {
		return nil, nil, errors.Join(fmt.Errorf("connect to embedded engine: %w", err), stop())
	}
	return conn, func() error { return errors.Join(conn.Close(), stop()) }, nil
}

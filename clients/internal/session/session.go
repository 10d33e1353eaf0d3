// Package session opens the way to an engine: one that runs elsewhere, or one started inside this process.
package session

import (
	"context"
	"errors"
	"fmt"
	"net"
	"strconv"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/status"
)

// Embed starts an engine inside this process. The function it returns stops it, and closes the connection.
type Embed func(ctx context.Context) (conn *grpc.ClientConn, stop func() error, err error)

// ErrAddress is the error of an address that is none.
var ErrAddress = errors.New("an engine's address is HOST:PORT, such as localhost:4860")

// patience is how long an engine elsewhere has to answer.
const patience = 10 * time.Second

// Open connects to the engine at the address or, where that is empty, to one it starts by embed. The connection is in the
// clear: keep it on one machine or on a network you trust.
func Open(ctx context.Context, address string, embed Embed) (*grpc.ClientConn, func() error, error) {
	switch {
	case address != "":
		return dial(ctx, address, patience)
	case embed == nil:
		return nil, nil, errors.New("this program has no engine inside it: name one by its address")
	}
	conn, stop, err := embed(ctx)
	if err != nil {
		return nil, nil, fmt.Errorf("the engine did not start: %w", err)
	}
	return conn, stop, nil
}

// dial connects, and makes sure that somebody answers.
func dial(ctx context.Context, address string, patience time.Duration) (*grpc.ClientConn, func() error, error) {
	if err := checkAddress(address); err != nil {
		return nil, nil, err
	}
	conn, err := grpc.NewClient("dns:///"+address, grpc.WithTransportCredentials(insecure.NewCredentials()))
	if err != nil {
		return nil, nil, fmt.Errorf("%w: %q: %w", ErrAddress, address, err)
	}
	if err := knock(ctx, conn, patience); err != nil {
		return nil, nil, errors.Join(fmt.Errorf("no engine answers at %s: %w", address, err), conn.Close())
	}
	return conn, conn.Close, nil
}

func checkAddress(address string) error {
	_, port, err := net.SplitHostPort(address)
	if err != nil {
		return fmt.Errorf("%w: not %q", ErrAddress, address)
	}
	if n, err := strconv.ParseUint(port, 10, 16); err != nil || n == 0 {
		return fmt.Errorf("%w: %q is not a port", ErrAddress, port)
	}
	return nil
}

// knock asks the engine for its health. Any answer will do: what it can serve is for the call itself to say.
func knock(ctx context.Context, conn *grpc.ClientConn, patience time.Duration) error {
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	_, err := grpc_health_v1.NewHealthClient(conn).Check(ctx, &grpc_health_v1.HealthCheckRequest{})
	switch status.Code(err) {
	case codes.Unavailable, codes.Canceled:
		return errors.New(status.Convert(err).Message())
	case codes.DeadlineExceeded:
		return fmt.Errorf("nothing came back within %v", patience)
	}
	return nil
}

// Package session opens the way to an engine: one that runs elsewhere, or one started inside this process.
package session

import (
	"context"
	"errors"
	"fmt"
	"net"
	"strconv"
	"strings"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/backoff"
	"google.golang.org/grpc/codes"
	_ "google.golang.org/grpc/health" // lets calls go to replicas that are well alone
	"google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/resolver"
	"google.golang.org/grpc/resolver/manual"
	"google.golang.org/grpc/status"

	"example.com/pondwright/server/deploy"
)

// Embed starts an engine inside this process. The function it returns stops it, and closes the connection.
type Embed func(ctx context.Context) (conn *grpc.ClientConn, stop func() error, err error)

// ErrAddress is the error of an address that is none.
var ErrAddress = errors.New("an engine's address is HOST:PORT, such as localhost:4860")

// patience is how long an engine elsewhere has to answer.
const patience = 10 * time.Second

// Open is OpenBy with the security that the environment names.
func Open(ctx context.Context, address string, embed Embed) (*grpc.ClientConn, func() error, error) {
	return OpenBy(ctx, FromEnvironment(), address, embed)
}

// OpenBy connects to the engine at the address or, where that is empty, to one it starts by embed. Several addresses, with
// commas between them, are replicas: calls go round them, and one that is lost costs nobody a calculation. Without security the
// connection is in the clear: keep it on one machine or on a network you trust.
func OpenBy(ctx context.Context, by Security, address string, embed Embed) (*grpc.ClientConn, func() error, error) {
	switch {
	case address != "":
		return dial(ctx, by, address, patience)
	case embed == nil:
		return nil, nil, errors.New("this program has no engine inside it: name one by its address")
	}
	conn, stop, err := embed(ctx)
	if err != nil {
		return nil, nil, fmt.Errorf("the engine did not start: %w", err)
	}
	return conn, stop, nil
}

// Connect makes the way to an engine elsewhere, secured as the environment says, whether it runs yet or not: for programs that
// outlive it. Once it is gone, it is looked for again every second or so, and meanwhile a call fails at once instead of waiting for it.
func Connect(address string) (*grpc.ClientConn, func() error, error) {
	again := backoff.DefaultConfig
	again.MaxDelay = time.Second
	conn, err := wayTo(FromEnvironment(), address, grpc.WithDefaultCallOptions(grpc.WaitForReady(false)),
		grpc.WithConnectParams(grpc.ConnectParams{Backoff: again, MinConnectTimeout: patience}))
	if err != nil {
		return nil, nil, err
	}
	return conn, conn.Close, nil
}

// dial connects, and makes sure that somebody answers.
func dial(ctx context.Context, by Security, address string, patience time.Duration) (*grpc.ClientConn, func() error, error) {
	conn, err := wayTo(by, address)
	if err != nil {
		return nil, nil, err
	}
	if err := knock(ctx, conn, patience); err != nil {
		return nil, nil, errors.Join(fmt.Errorf("no engine answers at %s: %w", address, err), conn.Close())
	}
	return conn, conn.Close, nil
}

// wayTo makes a connection to one engine, or to several replicas, and asks nothing of it yet.
func wayTo(by Security, address string, more ...grpc.DialOption) (*grpc.ClientConn, error) {
	replicas := strings.Split(address, ",")
	for _, each := range replicas {
		if err := checkAddress(each); err != nil {
			return nil, err
		}
	}
	options, err := by.options()
	if err != nil {
		return nil, err
	}
	options = append(append(options, grpc.WithDefaultServiceConfig(deploy.ServiceConfig), grpc.WithChainUnaryInterceptor(deploy.Again())), more...)
	target := "dns:///" + address
	if len(replicas) > 1 {
		listed := manual.NewBuilderWithScheme("replicas")
		listed.InitialState(resolver.State{Endpoints: endpoints(replicas)})
		// The name that certificates are held to is that of the first: give all replicas one that has it.
		host, _, _ := net.SplitHostPort(replicas[0])
		target, options = "replicas:///"+host, append(options, grpc.WithResolvers(listed))
	}
	conn, err := grpc.NewClient(target, options...)
	if err != nil {
		return nil, fmt.Errorf("%w: %q: %w", ErrAddress, address, err)
	}
	return conn, nil
}

func endpoints(addresses []string) []resolver.Endpoint {
	var made []resolver.Endpoint
	for _, each := range addresses {
		made = append(made, resolver.Endpoint{Addresses: []resolver.Address{{Addr: each}}})
	}
	return made
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
	_, err := grpc_health_v1.NewHealthClient(conn).Check(ctx, &grpc_health_v1.HealthCheckRequest{}, grpc.WaitForReady(false))
	switch status.Code(err) {
	case codes.Unavailable, codes.Canceled:
		return errors.New(status.Convert(err).Message())
	case codes.DeadlineExceeded:
		return fmt.Errorf("nothing came back within %v", patience)
	}
	return nil
}

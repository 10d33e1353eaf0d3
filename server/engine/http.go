package engine

import (
	"context"
	"crypto/tls"
	"crypto/x509"
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

// JSONConfig is what JSON over HTTP has to have of what stands around the engine.
type JSONConfig struct {
	TLS *tls.Config // nil is in the clear

	// Forward marks a call with where it comes from, so that the engine holds it to the same rules as one of its own port.
	Forward func(ctx context.Context, address string, verified [][]*x509.Certificate) context.Context
}

// JSON is an HTTP server for the same API. Its calls go to the engine by gRPC over memory, and so through everything that calls
// from outside pass. Shut it down before the engine is stopped, and call closing in between.
func (e *Engine) JSON(ctx context.Context) (server *http.Server, closing func() error, err error) {
	pipe := bufconn.Listen(pipeBytes)
	go func() { _ = e.Serve(pipe) }() // a listener in memory fails only when the engine stops
	conn, err := grpc.NewClient("passthrough:///json",
		grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(ctx context.Context, _ string) (net.Conn, error) { return pipe.DialContext(ctx) }),
		grpc.WithDefaultCallOptions(grpc.MaxCallRecvMsgSize(64<<20)), // answers with all their workings
		grpc.WithUnaryInterceptor(e.forward),
	)
	if err != nil {
		return nil, nil, fmt.Errorf("serve JSON: %w", err)
	}
	handler, err := jsonapi.New(ctx, conn)
	if err != nil {
		return nil, nil, errors.Join(err, conn.Close())
	}
	made := jsonapi.NewServer(withRequest(handler))
	made.TLSConfig = e.json.TLS
	return made, conn.Close, nil
}

type requestKey struct{}

// withRequest keeps the request of a call at hand.
func withRequest(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		next.ServeHTTP(w, r.WithContext(context.WithValue(r.Context(), requestKey{}, r)))
	})
}

// forward says on each call where its request came from.
func (e *Engine) forward(
	ctx context.Context, method string, req, reply any, cc *grpc.ClientConn, call grpc.UnaryInvoker, opts ...grpc.CallOption,
) error {
	if r, ok := ctx.Value(requestKey{}).(*http.Request); ok && e.json.Forward != nil {
		var verified [][]*x509.Certificate
		if r.TLS != nil {
			verified = r.TLS.VerifiedChains
		}
		ctx = e.json.Forward(ctx, r.RemoteAddr, verified)
	}
	return call(ctx, method, req, reply, cc, opts...)
}

// Package rig runs an engine with all that stands around it, for tests.
package rig

import (
	"context"
	"crypto/sha256"
	"crypto/tls"
	"encoding/hex"
	"log/slog"
	"net"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/metadata"

	"example.com/pondwright/server/demo"
	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/operate"
)

// A Rig is an engine that serves.
type Rig struct {
	*operate.Operation
	Address string
}

// Start serves the demo catalogue on loopback with the settings changed as the test wants. The program's TestMain must hand its
// arguments to builtin.RunIfAsked.
func Start(t testing.TB, log *slog.Logger, change func(*config.Settings)) *Rig {
	t.Helper()
	s, err := config.Defaults()
	require.NoError(t, err)
	change(s)
	require.NoError(t, s.Check())
	sources, clean, err := demo.Catalogue()
	require.NoError(t, err)
	if log == nil {
		log = slog.New(slog.DiscardHandler)
	}
	o, err := operate.New(t.Context(), s, sources, log)
	require.NoError(t, err)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	served := make(chan error, 1)
	go func() { served <- o.Serve(l) }()
	t.Cleanup(func() {
		ctx, cancel := context.WithTimeout(context.Background(), 20*time.Second)
		defer cancel()
		require.NoError(t, o.Stop(ctx))
		require.NoError(t, <-served)
		require.NoError(t, clean())
	})
	return &Rig{Operation: o, Address: l.Addr().String()}
}

// Dial connects, in the clear where trust is nil.
func (r *Rig) Dial(t testing.TB, trust *tls.Config, options ...grpc.DialOption) *grpc.ClientConn {
	t.Helper()
	with := insecure.NewCredentials()
	if trust != nil {
		with = credentials.NewTLS(trust)
	}
	conn, err := grpc.NewClient(r.Address, append(options, grpc.WithTransportCredentials(with))...)
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, conn.Close()) })
	return conn
}

// Digest is a token as the settings hold it.
func Digest(token string) config.Secret {
	sum := sha256.Sum256([]byte(token))
	return config.Secret(hex.EncodeToString(sum[:]))
}

// As is a context whose calls carry a token.
func As(ctx context.Context, token string) context.Context {
	return metadata.AppendToOutgoingContext(ctx, "authorization", "Bearer "+token)
}

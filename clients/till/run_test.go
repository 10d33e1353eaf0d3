package main

import (
	"bufio"
	"bytes"
	"context"
	"errors"
	"io"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
)

func TestACommandLineThatCannotBeMeant(t *testing.T) {
	for _, c := range []struct{ args, says string }{
		{"--energy free", "not a price"}, {"--energy=-1", "not a price"}, {"--currency pounds", "three capital letters"},
		{"--engine nowhere", "HOST:PORT"}, {"--teapot", "till --help"}, {"--listen nowhere", "cannot be served"},
	} {
		err := run(t.Context(), strings.Fields(c.args), env{Out: io.Discard, Err: io.Discard, Embed: nobody})
		require.ErrorContains(t, err, c.says, c.args)
	}
	var out bytes.Buffer
	require.NoError(t, run(t.Context(), []string{"--help"}, env{Out: &out, Err: io.Discard}))
	assert.Contains(t, out.String(), "licensed electrician")
	failing := func(context.Context) (*grpc.ClientConn, func() error, error) { return nil, nil, errors.New("no room") }
	require.ErrorContains(t, run(t.Context(), nil, env{Out: io.Discard, Err: io.Discard, Embed: failing}), "no room")
}

// nobody is an engine inside that never answers.
func nobody(context.Context) (*grpc.ClientConn, func() error, error) {
	conn, err := grpc.NewClient("127.0.0.1:1", grpc.WithTransportCredentials(insecure.NewCredentials()))
	return conn, func() error { return conn.Close() }, err
}

// The page is served where the program says, until it is told to stop.
func TestThePageIsServedUntilItIsStopped(t *testing.T) {
	ctx, stop := context.WithCancel(t.Context())
	from, to := io.Pipe()
	ended := make(chan error, 1)
	go func() {
		ended <- run(ctx, []string{"--listen", "127.0.0.1:0"}, env{Out: to, Err: io.Discard, Embed: nobody})
		_ = to.Close()
	}()
	said, err := bufio.NewReader(from).ReadString('\n')
	require.NoError(t, err)
	address := strings.TrimSpace(strings.TrimPrefix(said, "The till is on "))
	resp, err := http.Get(address)
	require.NoError(t, err)
	text, err := io.ReadAll(resp.Body)
	require.NoError(t, err)
	require.NoError(t, resp.Body.Close())
	assert.Contains(t, string(text), "What does the pond need?")
	stop()
	require.NoError(t, <-ended)
}

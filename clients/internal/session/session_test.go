package session

import (
	"context"
	"errors"
	"net"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/test/bufconn"
)

func TestOpenRefusesWhatIsNoAddress(t *testing.T) {
	for _, address := range []string{"localhost", "localhost:", "localhost:http", "localhost:0", "localhost:70000", "a:b:c", "::1:7"} {
		_, _, err := Open(t.Context(), address, nil)
		assert.ErrorIs(t, err, ErrAddress, address)
	}
}

func TestOpenDialsAnEngineThatAnswers(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	server := grpc.NewServer() // without a health service: that it says so is answer enough
	go func() { _ = server.Serve(listener) }()
	t.Cleanup(server.Stop)

	conn, stop, err := Open(t.Context(), listener.Addr().String(), nil)
	require.NoError(t, err)
	assert.NotNil(t, conn)
	assert.NoError(t, stop())
}

func TestOpenSaysWhenNobodyAnswers(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	address := listener.Addr().String()
	require.NoError(t, listener.Close())

	_, _, err = Open(t.Context(), address, nil)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "no engine answers at "+address)
	assert.Contains(t, err.Error(), "connection refused")
}

func TestDialGivesUpOnAListenerThatIsSilent(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0") // connects, and is never accepted
	require.NoError(t, err)
	t.Cleanup(func() { _ = listener.Close() })

	began := time.Now()
	_, _, err = dial(t.Context(), Security{}, listener.Addr().String(), 200*time.Millisecond)
	require.Error(t, err)
	assert.Contains(t, err.Error(), "nothing came back within 200ms")
	assert.Less(t, time.Since(began), 5*time.Second)
}

func TestOpenStartsTheEngineInside(t *testing.T) {
	stopped := false
	conn, stop, err := Open(t.Context(), "", func(context.Context) (*grpc.ClientConn, func() error, error) {
		conn, err := grpc.NewClient("passthrough:///inside", grpc.WithTransportCredentials(insecure.NewCredentials()),
			grpc.WithContextDialer(func(ctx context.Context, _ string) (net.Conn, error) {
				return bufconn.Listen(1).DialContext(ctx)
			}))
		return conn, func() error { stopped = true; return conn.Close() }, err
	})
	require.NoError(t, err)
	assert.NotNil(t, conn)
	require.NoError(t, stop())
	assert.True(t, stopped)
}

func TestOpenSaysWhenTheEngineInsideFails(t *testing.T) {
	broken := errors.New("no catalogue")
	_, _, err := Open(t.Context(), "", func(context.Context) (*grpc.ClientConn, func() error, error) { return nil, nil, broken })
	assert.ErrorIs(t, err, broken)
	assert.EqualError(t, err, "the engine did not start: no catalogue")

	_, _, err = Open(t.Context(), "", nil)
	assert.Error(t, err)
}

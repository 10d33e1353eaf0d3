//go:build unix

package host_test

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/host/misbehave"
)

func (b *bench) open(t *testing.T, mode string) *host.Live {
	t.Helper()
	c, live, err := b.Open(t.Context(), b.plugin(mode))
	require.NoError(t, err)
	require.NotEmpty(t, c.Items)
	return live
}

func TestOnlyAPluginThatAnswersLiveIsKept(t *testing.T) {
	b := newBench(t)
	assert.Nil(t, b.open(t, "good"))
	b.leavesNothing(t)

	live := b.open(t, "live")
	require.NotNil(t, live)
	require.NoError(t, live.Beat(t.Context()))
	require.NoError(t, live.Ask(t.Context(), func(ctx context.Context, c contract.Remote) error {
		levels, err := c.Stock(ctx, []string{"P-00001"})
		require.Len(t, levels, 1)
		assert.EqualValues(t, misbehave.LiveOnHand, levels[0].GetOnHand())
		return err
	}))
	live.Stop(t.Context())
	live.Stop(t.Context()) // again does nothing
	<-live.Ended()
	assert.ErrorIs(t, live.Ask(t.Context(), nil), host.ErrStopped)
	b.leavesNothing(t)
}

// A question in flight is answered before the plugin is stopped, unless it takes longer than whoever stops it waits.
func TestStopWaitsForQuestionsInFlight(t *testing.T) {
	b := newBench(t)
	live := b.open(t, "live")
	asking, answered := make(chan struct{}), make(chan error)
	go func() {
		answered <- live.Ask(t.Context(), func(ctx context.Context, c contract.Remote) error {
			close(asking)
			time.Sleep(200 * time.Millisecond)
			_, err := c.Stock(ctx, []string{"P-00001"})
			return err
		})
	}()
	<-asking
	live.Stop(t.Context())
	assert.NoError(t, <-answered)

	hangs := b.open(t, "live-hangs")
	asking = make(chan struct{})
	go func() {
		answered <- hangs.Ask(t.Context(), func(ctx context.Context, c contract.Remote) error {
			close(asking)
			_, err := c.Stock(ctx, []string{"P-00001"})
			return err
		})
	}()
	<-asking
	patience, cancel := context.WithTimeout(t.Context(), 100*time.Millisecond)
	defer cancel()
	hangs.Stop(patience)
	assert.Error(t, <-answered)
	b.leavesNothing(t)
}

// With mutual TLS nobody but the host can talk to a plugin, not even a process of the same user, and the folder of its socket is
// closed to everybody else.
func TestAStrangerCannotTalkToAPlugin(t *testing.T) {
	b := newBench(t)
	live := b.open(t, "live")
	defer live.Stop(t.Context())
	sockets, err := filepath.Glob(filepath.Join(b.dir, "pw-*", "*", "plugin*"))
	require.NoError(t, err)
	require.Len(t, sockets, 1)
	info, err := os.Stat(filepath.Dir(filepath.Dir(sockets[0])))
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o700), info.Mode().Perm())

	ask := func(socket string) error {
		conn, err := grpc.NewClient("unix:"+socket, grpc.WithTransportCredentials(insecure.NewCredentials()))
		require.NoError(t, err)
		defer conn.Close()
		ctx, cancel := context.WithTimeout(t.Context(), 5*time.Second)
		defer cancel()
		_, err = contract.NewClient(conn).Describe(ctx)
		return err
	}
	assert.Error(t, ask(sockets[0]))

	p := b.plugin("live") // the same without TLS does answer, so that the refusal above is TLS's
	p.PlainSocket = true
	_, plain, err := b.Open(t.Context(), p)
	require.NoError(t, err)
	defer plain.Stop(t.Context())
	all, err := filepath.Glob(filepath.Join(b.dir, "pw-*", "*", "plugin*"))
	require.NoError(t, err)
	require.Len(t, all, 2)
	for _, socket := range all {
		if socket != sockets[0] {
			assert.NoError(t, ask(socket))
		}
	}
}

// A plugin is given its three streams and no other file that the host has open, be it one that the host itself was given when it
// was started and that nothing marks to be closed.
func TestNoFileIsInherited(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("elsewhere a process cannot list its files so simply")
	}
	b := newBench(t)
	file, err := os.Create(filepath.Join(b.dir, "secret"))
	require.NoError(t, err)
	defer file.Close()
	open, err := syscall.Dup(int(file.Fd())) // without the mark that Go gives its own
	require.NoError(t, err)
	defer syscall.Close(open)
	c, err := b.Read(t.Context(), b.plugin("shows-files"))
	require.NoError(t, err)
	assert.Equal(t, "files: ", c.Description.GetTitle())
}

//go:build unix

package host_test

import (
	"bytes"
	"log/slog"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/host/misbehave"
)

func TestMain(m *testing.M) {
	if misbehave.RunIfAsked(os.Args) {
		return
	}
	os.Exit(m.Run())
}

// bench is a host with a log to look at and a folder in which every process of a test has noted its ID.
type bench struct {
	*host.Host
	dir string
	log *safeBuffer
}

func newBench(t *testing.T) *bench {
	t.Helper()
	dir, err := os.MkdirTemp("", "pwt") // t.TempDir's path is too long for a socket
	require.NoError(t, err)
	b := &bench{dir: dir, log: &safeBuffer{}}
	b.Host, err = host.New(host.Config{
		Logger:    slog.New(slog.NewTextHandler(b.log, &slog.HandlerOptions{Level: slog.LevelDebug})),
		TempDir:   dir,
		StopGrace: 300 * time.Millisecond,
	})
	require.NoError(t, err)
	t.Cleanup(func() {
		assert.NoError(t, b.Close())
		left, _ := filepath.Glob(filepath.Join(dir, "pw-*"))
		assert.Empty(t, left, "folders left behind")
		assert.NoError(t, os.RemoveAll(dir))
	})
	return b
}

// plugin is the test binary in one of its modes, with time limits that a slow machine does not run into.
func (b *bench) plugin(mode string) host.Plugin {
	return host.Plugin{
		Name: "plugin of " + mode, Path: misbehave.Self(), Args: misbehave.Args(mode, b.dir),
		StartTimeout: 20 * time.Second, CallTimeout: 20 * time.Second,
	}
}

// leavesNothing checks that every process has ended and no socket is left. A killed process takes a moment to be gone.
func (b *bench) leavesNothing(t *testing.T) {
	t.Helper()
	for _, pid := range b.pids() {
		assert.Eventually(t, func() bool { return !misbehave.Alive(pid) }, 5*time.Second, time.Millisecond, "process %d is left behind", pid)
	}
	sockets, err := filepath.Glob(filepath.Join(b.dir, "pw-*", "*"))
	assert.NoError(t, err)
	assert.Empty(t, sockets, "sockets left behind")
}

func (b *bench) pids() []int { return misbehave.PIDs(b.dir) }

// safeBuffer is a log that may be written and read at once.
type safeBuffer struct {
	mu sync.Mutex
	b  bytes.Buffer
}

func (s *safeBuffer) Write(p []byte) (int, error) {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.Write(p)
}

func (s *safeBuffer) String() string {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.b.String()
}

const short = 400 * time.Millisecond

//go:build unix

package host_test

import (
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/host/misbehave"
)

var faults = []struct {
	mode   string
	change func(*host.Plugin)
	kind   error
	says   []string
}{
	{"good", func(p *host.Plugin) { p.Path = "/nowhere/plugin" }, host.ErrStart, []string{"cannot be started", "no such file", "check its path"}},
	{"good", func(p *host.Plugin) { p.Path = "plugin" }, host.ErrConfig, []string{`"plugin", which is not absolute`}},
	{"good", func(p *host.Plugin) { p.SHA256 = strings.Repeat("0", 64) }, host.ErrChecksum, []string{"is not the file that was pinned", "000000", "pin the new checksum"}},
	{"exit-at-once", nil, host.ErrStart, []string{"ended before the handshake (exit status 3)", `"opening stock.db: no such file"`}},
	{"exits-with-child", nil, host.ErrStart, []string{"ended before the handshake (exit status 0)"}},
	{"silent", func(p *host.Plugin) { p.StartTimeout = short }, host.ErrStart, []string{"did not shake hands within 400ms"}},
	{"prints-first", nil, host.ErrStart, []string{`printed "Loading the catalogue ..." to stdout before the handshake`, "sdk.Serve first"}},
	{"endless-line", func(p *host.Plugin) { p.StartTimeout = short }, host.ErrStart, []string{`printed "xxxxx`, "x ...", "before the handshake"}},
	{"version-2", nil, host.ErrVersion, []string{"speaks protocol version 2 and this engine speaks 1", "upgrade the engine"}},
	{"wrong-core", nil, host.ErrStart, []string{`printed "9|1|unix|/nowhere|grpc"`}},
	{"dead-socket", func(p *host.Plugin) { p.CallTimeout = short }, host.ErrCall, []string{"cannot be reached, though its process is there", "/nowhere/socket"}},
	{"stands-still", func(p *host.Plugin) { p.CallTimeout = short }, host.ErrCall, []string{"did not finish Describe within 400ms"}},
	{"panics", nil, host.ErrCall, []string{"answered Describe with an error (Internal): panic in the catalogue: no stock today"}},
	{"hangs-describing", func(p *host.Plugin) { p.CallTimeout = short }, host.ErrCall, []string{"did not finish Describe within 400ms", "raise its call time limit"}},
	{"hangs-streaming", func(p *host.Plugin) { p.CallTimeout = short }, host.ErrCall, []string{"did not finish StreamItems within 400ms"}},
	{"exits-streaming", nil, host.ErrDied, []string{"broke off during StreamItems (exit status 3)", `"fatal: the disk is full"`}},
	{"dies-in-goroutine", nil, host.ErrDied, []string{"broke off during StreamItems (exit status 2)", `"panic: index out of range"`}},
	{"floods-items", func(p *host.Plugin) { p.MaxItems = 2000 }, host.ErrContent, []string{"sends more than 2000 items", "raise MaxItems"}},
	{"huge-message", nil, host.ErrCall, []string{"sent too large a message in StreamItems", "at most 16 MiB"}},
	{"bad-description", nil, host.ErrContent, []string{"describes itself in a way that cannot be used: currency:"}},
	{"invalid-utf8", nil, host.ErrCall, []string{"answered StreamItems with an error", "UTF-8"}},
}

func TestFaultIsNamedAndNothingIsLeft(t *testing.T) {
	for _, f := range faults {
		t.Run(f.mode, func(t *testing.T) {
			t.Parallel()
			b := newBench(t)
			p := b.plugin(f.mode)
			if f.change != nil {
				f.change(&p)
			}
			c, err := b.Read(t.Context(), p)
			require.Nil(t, c)
			var failure *host.Failure
			require.ErrorAs(t, err, &failure)
			assert.ErrorIs(t, err, f.kind)
			assert.ErrorContains(t, err, `catalogue plugin "plugin of `+f.mode+`"`)
			for _, part := range f.says {
				assert.ErrorContains(t, err, part)
			}
			assert.NotContains(t, err.Error(), "\n")
			b.leavesNothing(t)
		})
	}
}

func TestWhatMayPassByItselfIsTemporary(t *testing.T) {
	b := newBench(t)
	for mode, want := range map[string]bool{"exit-at-once": true, "exits-streaming": true, "version-2": false, "bad-description": false} {
		_, err := b.Read(t.Context(), b.plugin(mode))
		assert.Equal(t, want, host.IsTemporary(err), mode)
	}
}

func TestKilledDuringTheRead(t *testing.T) {
	b := newBench(t)
	go func() {
		for len(b.pids()) == 0 {
			time.Sleep(time.Millisecond)
		}
		time.Sleep(200 * time.Millisecond) // past the handshake, most likely; any other moment has to do as well
		_ = syscall.Kill(b.pids()[0], syscall.SIGKILL)
	}()
	_, err := b.Read(t.Context(), b.plugin("hangs-streaming"))
	assert.ErrorContains(t, err, "signal: killed")
	assert.True(t, host.IsTemporary(err))
	b.leavesNothing(t)
}

func TestReaderGivesUp(t *testing.T) {
	for _, mode := range []string{"silent", "hangs-describing", "hangs-streaming"} {
		t.Run(mode, func(t *testing.T) {
			t.Parallel()
			b := newBench(t)
			ctx, cancel := context.WithTimeout(t.Context(), short)
			defer cancel()
			began := time.Now()
			_, err := b.Read(ctx, b.plugin(mode))
			assert.ErrorIs(t, err, context.DeadlineExceeded)
			assert.ErrorContains(t, err, "the reader gave up")
			assert.Less(t, time.Since(began), 10*time.Second)
			b.leavesNothing(t)
		})
	}
}

func TestPluginThatGrowsIsEnded(t *testing.T) {
	if runtime.GOOS != "linux" || misbehave.RaceDetector {
		t.Skip("only Linux limits the memory of another process, and the race detector needs more than the limit")
	}
	b := newBench(t)
	p := b.plugin("grows")
	p.MaxMemory = 400 << 20
	_, err := b.Read(t.Context(), p)
	assert.ErrorIs(t, err, host.ErrDied)
	assert.ErrorContains(t, err, "out of memory")
	b.leavesNothing(t)
}

func TestReadAgainAfterACrash(t *testing.T) {
	b := newBench(t)
	p := b.plugin("crashes-on-second")
	_, err := b.Read(t.Context(), p)
	require.NoError(t, err)
	_, err = b.Read(t.Context(), p)
	require.ErrorContains(t, err, "broke off during Describe (exit status 4)")
	_, err = b.Read(t.Context(), p)
	assert.NoError(t, err)
	b.leavesNothing(t)
}

func TestHostKilledLeavesNoPlugin(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("elsewhere it is up to the plugin to notice, as the SDK does")
	}
	b := newBench(t)
	p := b.plugin("host")
	owner, err := os.StartProcess(p.Path, append([]string{p.Path}, p.Args...), &os.ProcAttr{})
	require.NoError(t, err)
	require.Eventually(t, func() bool { return len(b.pids()) == 2 }, 20*time.Second, 5*time.Millisecond)
	require.NoError(t, owner.Kill())
	_, err = owner.Wait()
	require.NoError(t, err)
	for _, pid := range b.pids() {
		assert.Eventually(t, func() bool { return !misbehave.Alive(pid) }, 5*time.Second, 5*time.Millisecond, "process %d is left behind", pid)
	}
	left, _ := filepath.Glob(filepath.Join(b.dir, "pw-*"))
	require.Len(t, left, 2, "the killed host's folder and this one's")
	again, err := host.New(host.Config{TempDir: b.dir})
	require.NoError(t, err)
	require.NoError(t, again.Close())
	left, _ = filepath.Glob(filepath.Join(b.dir, "pw-*"))
	assert.Len(t, left, 1, "a new host sweeps up after a killed one")
}

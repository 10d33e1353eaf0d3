package host_test

import (
	"bytes"
	"context"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"sync"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
)

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
		Name: "plugin of " + mode, Path: self(), Args: []string{misbehave, mode, b.dir},
		StartTimeout: 20 * time.Second, CallTimeout: 20 * time.Second,
	}
}

// leavesNothing checks that every process has ended and no socket is left.
func (b *bench) leavesNothing(t *testing.T) {
	t.Helper()
	for _, pid := range b.pids() {
		assert.False(t, alive(pid), "process %d is left behind", pid)
	}
	sockets, err := filepath.Glob(filepath.Join(b.dir, "pw-*", "*"))
	assert.NoError(t, err)
	assert.Empty(t, sockets, "sockets left behind")
}

func (b *bench) pids() []int {
	var pids []int
	files, _ := filepath.Glob(filepath.Join(b.dir, "*.pid"))
	for _, f := range files {
		pid, _ := strconv.Atoi(strings.TrimSuffix(filepath.Base(f), ".pid"))
		pids = append(pids, pid)
	}
	return pids
}

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

func TestBadItemsAreQuarantinedAndTheRestIsServed(t *testing.T) {
	b := newBench(t)
	c, err := b.Read(t.Context(), b.plugin("bad-items"))
	require.NoError(t, err)
	require.Len(t, c.Items, 1)
	assert.Equal(t, "GOOD", c.Items[0].GetItemNumber())
	want := []struct{ number, field, reason string }{
		{"NAN", "pump.curve[1].head_m", "NaN"},
		{"INF", "price", "+Inf"},
		{"NEGATIVE", "pump.curve[1].flow_l_per_h", "greater than or equal to 0"},
		{"HUGE", "description", "200"},
		{"TWICE", "item_number", "used by 2 items"},
		{"TWICE", "item_number", "used by 2 items"},
		{"", "item_number", "must"},
		{"LINE\nBREAK", "item_number", "pattern"},
	}
	require.Len(t, c.Quarantined, len(want))
	for i, w := range want {
		q := c.Quarantined[i]
		assert.Equal(t, w.number, q.ItemNumber)
		at := slices.IndexFunc(q.Problems, func(p contract.Problem) bool { return p.Field == w.field })
		require.NotEqual(t, -1, at, "%s: %v", w.number, q.Problems)
		assert.Contains(t, q.Problems[at].Reason, w.reason)
	}
	assert.NotContains(t, b.log.String(), "LINE\n")
	b.leavesNothing(t)
}

func TestItemsComeSortedAndPaged(t *testing.T) {
	b := newBench(t)
	c, err := b.Read(t.Context(), b.plugin("many"))
	require.NoError(t, err)
	require.Len(t, c.Items, 1200)
	assert.Equal(t, "P-00001", c.Items[0].GetItemNumber())
	assert.Equal(t, "P-01200", c.Items[1199].GetItemNumber())
	b.leavesNothing(t)
}

func TestWhatAPluginPrintsIsLoggedWithinBounds(t *testing.T) {
	b := newBench(t)
	c, err := b.Read(t.Context(), b.plugin("prints-later"))
	require.NoError(t, err)
	assert.Len(t, c.Items, 3)
	log := b.log.String()
	for _, stream := range []string{"stdout", "stderr"} {
		assert.Equal(t, 500, strings.Count(log, "stream="+stream), "lines of %s with the one that says that there were more", stream)
	}
	assert.Equal(t, 2, strings.Count(log, "the plugin writes too much"))
	assert.False(t, strings.ContainsRune(log, 0x1b), "control characters reach the log")
	assert.Less(t, len(log), 1<<19)
	b.leavesNothing(t)
}

func TestPluginThatDoesNotStopIsKilled(t *testing.T) {
	b := newBench(t)
	began := time.Now()
	c, err := b.Read(t.Context(), b.plugin("slow-to-stop"))
	require.NoError(t, err)
	assert.Len(t, c.Items, 3)
	assert.Less(t, time.Since(began), 10*time.Second)
	b.leavesNothing(t)
}

func TestChildOfAPluginEndsWithIt(t *testing.T) {
	b := newBench(t)
	_, err := b.Read(t.Context(), b.plugin("leaves-child"))
	require.NoError(t, err)
	assert.Len(t, b.pids(), 2)
	b.leavesNothing(t)
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

func TestEnvironmentIsNotPassedOn(t *testing.T) {
	t.Setenv("PW_SECRET", "s")
	t.Setenv("PW_STOCK_DB", "d")
	b := newBench(t)
	p := b.plugin("shows-env")
	p.Env = []string{"PW_STOCK_DB", "PW_FIXED=1"}
	c, err := b.Read(t.Context(), p)
	require.NoError(t, err)
	title := c.Description.GetTitle()
	assert.NotContains(t, title, "PW_SECRET")
	assert.Contains(t, title, "PW_STOCK_DB")
	assert.Contains(t, title, "PW_FIXED")
}

func TestPinAndPlainSocket(t *testing.T) {
	b := newBench(t)
	p := b.plugin("good")
	_, err := b.Read(t.Context(), p)
	require.NoError(t, err)
	assert.Contains(t, b.log.String(), "is not pinned")
	p.SHA256, err = host.SHA256File(self())
	require.NoError(t, err)
	p.PlainSocket = true
	_, err = b.Read(t.Context(), p)
	require.NoError(t, err)
	assert.Equal(t, 1, strings.Count(b.log.String(), "is not pinned"))
}

func TestHostKilledLeavesNoPlugin(t *testing.T) {
	b := newBench(t)
	p := b.plugin("host")
	owner, err := os.StartProcess(p.Path, append([]string{p.Path}, p.Args...), &os.ProcAttr{})
	require.NoError(t, err)
	require.Eventually(t, func() bool { return len(b.pids()) == 2 }, 20*time.Second, 5*time.Millisecond)
	require.NoError(t, owner.Kill())
	_, err = owner.Wait()
	require.NoError(t, err)
	for _, pid := range b.pids() {
		assert.Eventually(t, func() bool { return !alive(pid) }, 5*time.Second, 5*time.Millisecond, "process %d is left behind", pid)
	}
	left, _ := filepath.Glob(filepath.Join(b.dir, "pw-*"))
	require.Len(t, left, 2, "the killed host's folder and this one's")
	again, err := host.New(host.Config{TempDir: b.dir})
	require.NoError(t, err)
	require.NoError(t, again.Close())
	left, _ = filepath.Glob(filepath.Join(b.dir, "pw-*"))
	assert.Len(t, left, 1, "a new host sweeps up after a killed one")
}

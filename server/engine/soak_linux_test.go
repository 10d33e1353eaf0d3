package engine_test

import (
	"log/slog"
	"os"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/host/misbehave"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/catalogue"
)

// soakReloads is how often the catalogues are read again: PONDWRIGHT_SOAK in the environment, or few.
func soakReloads(t *testing.T) int {
	text, set := os.LookupEnv("PONDWRIGHT_SOAK")
	if !set {
		return 40
	}
	n, err := strconv.Atoi(text)
	require.NoError(t, err, "PONDWRIGHT_SOAK")
	return n
}

// held is what a process holds.
type held struct {
	heap, resident                  int64 // bytes
	files, goroutines, threads, own int   // own: processes it has started
}

func holds(t *testing.T, dir string) held {
	t.Helper()
	runtime.GC()
	debug.FreeOSMemory()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	statm, err := os.ReadFile("/proc/self/statm")
	require.NoError(t, err)
	var pages []int64
	for _, field := range strings.Fields(string(statm)) {
		n, err := strconv.ParseInt(field, 10, 64)
		require.NoError(t, err)
		pages = append(pages, n)
	}
	count := func(folder string) int {
		entries, err := os.ReadDir(folder)
		require.NoError(t, err)
		return len(entries)
	}
	return held{
		heap: int64(m.HeapAlloc), resident: pages[1] * int64(os.Getpagesize()), files: count("/proc/self/fd"),
		goroutines: runtime.NumGoroutine(), threads: count("/proc/self/task"), own: len(plugins(t)) + len(misbehave.Living(dir)),
	}
}

// Reading again and again while calls are answered costs no call, and leaves nothing behind: no memory, no descriptor, no
// goroutine, no process, no file.
func TestReloadsUnderLoadLeaveNothingBehind(t *testing.T) {
	temp, err := os.MkdirTemp("", "pond") // a folder of the test's own name would be too long for a socket
	require.NoError(t, err)
	t.Cleanup(func() { require.NoError(t, os.RemoveAll(temp)) })
	t.Setenv("TMPDIR", temp)
	dir := t.TempDir()
	shop, err := catalogue.CSV("shop", "../../testdata/catalogues/demo")
	require.NoError(t, err)
	till := catalogue.Source{Plugin: wrongPlugin("till", "live", dir)}
	_, conn := serve(t, engine.Config{Logger: slog.New(slog.DiscardHandler), Catalogues: []catalogue.Source{shop, till}})
	client := pb.NewCatalogueServiceClient(conn)
	reload := func(n int) {
		for range n {
			resp, err := client.ReloadCatalogues(t.Context(), &pb.ReloadCataloguesRequest{})
			require.NoError(t, err)
			for _, c := range resp.GetCatalogues() {
				require.Empty(t, c.GetFault())
				require.True(t, c.GetWell())
			}
			for _, pid := range misbehave.PIDs(dir) { // or the folder grows, and looking through it with it
				if !misbehave.Alive(pid) {
					require.NoError(t, os.Remove(filepath.Join(dir, strconv.Itoa(pid)+".pid")))
				}
			}
		}
	}
	reloads := soakReloads(t)
	stop := loadEvery(t, conn, 100*time.Millisecond) // reading is what is to be worn out
	reload(20)
	before := holds(t, dir)
	began := time.Now()
	reload(reloads)
	took := time.Since(began)
	after := holds(t, dir)
	for deadline := time.Now().Add(patience); time.Now().Before(deadline) && grown(before, after); time.Sleep(50 * time.Millisecond) {
		after = holds(t, dir) // what is on its way out
	}
	calls := stop()
	t.Logf("%d reloads of two catalogues in %s, %s each, with %d calls meanwhile; before %+v, after %+v",
		reloads, took.Round(time.Millisecond), (took / time.Duration(reloads)).Round(100*time.Microsecond), calls, before, after)
	assert.Positive(t, calls)
	assert.False(t, grown(before, after), "before %+v, after %+v", before, after)
	sockets, err := filepath.Glob(filepath.Join(temp, "pw-*", "*"))
	require.NoError(t, err)
	assert.LessOrEqual(t, len(sockets), 1, "the one of the plugin that is kept running")
}

// grown says whether there is more than at the start. A few calls are under way at any moment, each with a goroutine or two of
// its own and some memory; a thousand reloads that each left a goroutine, a descriptor or two kilobytes would show.
func grown(before, after held) bool {
	return after.heap > before.heap+2<<20 || after.resident > before.resident+32<<20 ||
		after.files > before.files+2 || after.goroutines > before.goroutines+16 || after.threads > before.threads+8 || after.own > before.own
}

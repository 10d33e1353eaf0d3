//go:build unix

package host_test

import (
	"os"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/host/misbehave"
)

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

// A child in a session of its own is out of reach, as the package says. It holds the pipes open and must not hold up the host.
func TestChildInItsOwnSessionDoesNotHoldUpTheHost(t *testing.T) {
	b := newBench(t)
	began := time.Now()
	_, err := b.Read(t.Context(), b.plugin("leaves-session"))
	require.NoError(t, err)
	assert.Less(t, time.Since(began), 10*time.Second)
	assert.NotContains(t, b.log.String(), "cannot be killed")
	for _, pid := range b.pids() {
		_ = syscall.Kill(pid, syscall.SIGKILL)
	}
}

// Reading again and again leaves nothing behind in the host either.
func TestHostDoesNotGrowWithReloads(t *testing.T) {
	b := newBench(t)
	p := b.plugin("good")
	read := func(n int) {
		for range n {
			_, err := b.Read(t.Context(), p)
			require.NoError(t, err)
		}
	}
	read(3)
	goroutines, files := runtime.NumGoroutine(), openFiles()
	read(20)
	for range 100 { // some may still be on their way out
		if runtime.NumGoroutine() <= goroutines {
			break
		}
		time.Sleep(10 * time.Millisecond)
	}
	assert.LessOrEqual(t, runtime.NumGoroutine(), goroutines)
	assert.LessOrEqual(t, openFiles(), files)
	b.leavesNothing(t)
}

func openFiles() int {
	entries, _ := os.ReadDir("/proc/self/fd") // where there is none, nothing is found to grow
	return len(entries)
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
	p.SHA256, err = host.SHA256File(misbehave.Self())
	require.NoError(t, err)
	p.PlainSocket = true
	_, err = b.Read(t.Context(), p)
	require.NoError(t, err)
	assert.Equal(t, 1, strings.Count(b.log.String(), "is not pinned"))
}

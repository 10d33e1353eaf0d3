package engine_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strconv"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/builtin"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A plugin that is killed while its catalogue is read again costs nobody a call: the last good reading stays in force and
// the catalogue's status says what happened.
func TestKilledPluginLeavesTheLastGoodSnapshot(t *testing.T) {
	e, conn := start(t)
	before, err := pb.NewCatalogueServiceClient(conn).ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	require.NoError(t, err)

	reloaded := make(chan error, 1)
	for tries := 0; ; tries++ {
		require.Less(t, tries, 20, "the plugin was never caught alive")
		go func() { reloaded <- e.Reload(t.Context()) }()
		killed := killPlugin(t)
		if err := <-reloaded; killed && err != nil {
			assert.ErrorContains(t, err, "demo")
			break
		}
	}

	after, err := pb.NewCatalogueServiceClient(conn).ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	require.NoError(t, err)
	assert.NotEmpty(t, after.GetCatalogues()[0].GetFault())
	assert.Equal(t, before.GetCatalogues()[0].GetItemCount(), after.GetCatalogues()[0].GetItemCount())
	resp, err := pb.NewKitServiceClient(conn).SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: brief()})
	require.NoError(t, err)
	assert.NotEmpty(t, resp.GetKits())

	require.NoError(t, e.Reload(t.Context()))
	healed, err := pb.NewCatalogueServiceClient(conn).ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	require.NoError(t, err)
	assert.Empty(t, healed.GetCatalogues()[0].GetFault())
	assert.Empty(t, plugins(t), "no plugin is left behind")
}

// killPlugin waits up to a second for a plugin of this process and kills it.
func killPlugin(t *testing.T) bool {
	t.Helper()
	for deadline := time.Now().Add(time.Second); time.Now().Before(deadline); time.Sleep(200 * time.Microsecond) {
		for _, pid := range plugins(t) {
			return syscall.Kill(pid, syscall.SIGKILL) == nil
		}
	}
	return false
}

// plugins are the processes below this one that serve a catalogue.
func plugins(t *testing.T) []int {
	t.Helper()
	commands, err := filepath.Glob("/proc/[0-9]*/cmdline")
	require.NoError(t, err)
	var pids []int
	for _, name := range commands {
		command, err := os.ReadFile(name)
		if err != nil || !bytes.Contains(command, []byte("\x00"+builtin.Argument+"\x00")) {
			continue
		}
		pid, err := strconv.Atoi(filepath.Base(filepath.Dir(name)))
		require.NoError(t, err)
		if stat, err := os.ReadFile(filepath.Join(filepath.Dir(name), "stat")); err == nil && childOfThis(stat) {
			pids = append(pids, pid)
		}
	}
	return pids
}

// childOfThis reads the parent out of a process's stat line: "pid (name) state parent ...".
func childOfThis(stat []byte) bool {
	rest := bytes.Fields(stat[bytes.LastIndexByte(stat, ')')+1:])
	return len(rest) > 1 && string(rest[0]) != "Z" && string(rest[1]) == strconv.Itoa(os.Getpid())
}

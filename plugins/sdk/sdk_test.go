//go:build unix

package sdk_test

import (
	"bufio"
	"context"
	"fmt"
	"iter"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/sdk"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// The test binary is the plugin, and the engine that dies and leaves it behind.
func TestMain(m *testing.M) {
	switch {
	case len(os.Args) == 2 && os.Args[1] == "plugin":
		sdk.Serve(nothing{})
	case len(os.Args) == 2 && os.Args[1] == "engine":
		startPluginAndEnd()
	case len(os.Args) == 3 && os.Args[1] == "versions":
		serveVersions(os.Args[2])
	default:
		os.Exit(m.Run())
	}
}

type nothing struct{}

func (nothing) Describe(context.Context) (*cataloguev1.DescribeResponse, error) { return nil, nil }

func (nothing) Items(context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(func(*equipmentv1.Item, error) bool) {}
}

// startPluginAndEnd starts a plugin, without the kernel's help to end it, prints its process ID and ends.
func startPluginAndEnd() {
	cmd := exec.Command(self(), "plugin")
	cookie := contract.Handshake()
	cmd.Env = append(os.Environ(), cookie.MagicCookieKey+"="+cookie.MagicCookieValue, "PLUGIN_PROTOCOL_VERSIONS=1")
	out, err := cmd.StdoutPipe()
	if err != nil {
		panic(err)
	}
	if err := cmd.Start(); err != nil {
		panic(err)
	}
	if line, err := bufio.NewReader(out).ReadString('\n'); err != nil || !strings.HasPrefix(line, "1|1|") {
		panic("no handshake: " + line)
	}
	fmt.Println(cmd.Process.Pid)
}

func self() string {
	path, err := os.Executable()
	if err != nil {
		panic(err)
	}
	return path
}

func TestPluginEndsWithTheEngineThatStartedIt(t *testing.T) {
	t.Parallel()
	cmd := exec.Command(self(), "engine")
	cmd.Env = append(os.Environ(), "TMPDIR="+t.TempDir()) // the socket of a plugin that ends by itself stays there
	out, err := cmd.Output()
	require.NoError(t, err)
	pid, err := strconv.Atoi(strings.TrimSpace(string(out)))
	require.NoError(t, err)
	assert.Eventually(t, func() bool { return ended(pid) }, 10*time.Second, 20*time.Millisecond)
}

func ended(pid int) bool {
	stat, err := os.ReadFile(fmt.Sprintf("/proc/%d/stat", pid))
	if err != nil {
		return syscall.Kill(pid, 0) != nil // no /proc here
	}
	_, state, _ := strings.Cut(string(stat), ") ")
	return strings.HasPrefix(state, "Z")
}

func TestPluginStartedByHandSaysWhatItIs(t *testing.T) {
	t.Parallel()
	out, err := exec.Command(self(), "plugin").CombinedOutput()
	assert.Error(t, err)
	assert.Contains(t, string(out), "This binary is a plugin")
}

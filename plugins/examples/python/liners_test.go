// Package python holds a plugin in Python against the same suite as those in Go.
package python

import (
	"bytes"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/sdk/conformance"
)

// interpreter is a Python that has grpc, of which there may be several.
func interpreter(t *testing.T) string {
	t.Helper()
	for _, name := range []string{"python3", "/usr/bin/python3"} {
		path, err := exec.LookPath(name)
		if err == nil && exec.Command(path, "-c", "import grpc").Run() == nil {
			return path
		}
	}
	t.Skip("there is no python3 with the grpc package (Debian: python3-grpcio)")
	return ""
}

func plugin(t *testing.T) host.Plugin {
	script, err := filepath.Abs("liners.py")
	require.NoError(t, err)
	return host.Plugin{Name: "linings", Path: interpreter(t), Args: []string{script}, PlainSocket: true, StartTimeout: time.Minute}
}

func TestPlugin(t *testing.T) { conformance.Plugin(t, plugin(t)) }

// It is shown as what little it takes.
func TestPluginIsShort(t *testing.T) {
	script, err := os.ReadFile("liners.py")
	require.NoError(t, err)
	assert.Less(t, bytes.Count(script, []byte("\n")), 80)
}

// A plugin that answers the call to shut down is not waited for until it has to be killed.
func TestPluginStopsWhenAsked(t *testing.T) {
	p := plugin(t)
	const grace = 30 * time.Second
	h, err := host.New(host.Config{StopGrace: grace})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, h.Close()) })
	began := time.Now()
	c, err := h.Read(t.Context(), p)
	require.NoError(t, err)
	assert.Less(t, time.Since(began), grace)
	require.Len(t, c.Items, 3)
	assert.Equal(t, "protective fleece 300 g/m²", c.Items[2].GetDescription())
}

//go:build unix

package sdk_test

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/hashicorp/go-hclog"
	"github.com/hashicorp/go-plugin"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/sdk"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// titled is a catalogue that tells by its title how it was reached.
type titled struct {
	nothing
	title string
}

func (c titled) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	return &cataloguev1.DescribeResponse{Title: c.title, Revision: "1", Currency: "EUR", Kinds: []equipmentv1.ItemKind{}}, nil
}

// served are plugins of several protocol versions, each another catalogue, as each would be another service.
func served(versions string) map[int]plugin.PluginSet {
	sets := make(map[int]plugin.PluginSet)
	for text := range strings.SplitSeq(versions, ",") {
		version, err := strconv.Atoi(text)
		if err != nil {
			panic(err)
		}
		one := contract.Versions(&contract.Plugin{Catalogue: titled{title: fmt.Sprintf("protocol version %d", version)}})
		sets[version] = one[contract.Version]
	}
	return sets
}

// serveVersions is a plugin that speaks some versions.
func serveVersions(versions string) {
	if versions == "sdk" {
		sdk.Serve(titled{title: "served by the SDK"})
		return
	}
	plugin.Serve(&plugin.ServeConfig{
		HandshakeConfig: contract.Handshake(), VersionedPlugins: served(versions), GRPCServer: plugin.DefaultGRPCServer,
		Logger: hclog.NewNullLogger(),
	})
}

// Two sides settle on the newest version that both speak, and use what belongs to it.
func TestNewestVersionInCommonIsUsed(t *testing.T) {
	for _, sides := range []struct {
		plugin, host string
		want         int
	}{{"1", "1", 1}, {"1,2", "1", 1}, {"1", "1,2", 1}, {"1,2", "1,2", 2}, {"2,3", "1,2", 2}, {"1,2,3", "1,3", 3}} {
		t.Run(sides.plugin+" with "+sides.host, func(t *testing.T) {
			client := plugin.NewClient(&plugin.ClientConfig{
				HandshakeConfig: contract.Handshake(), VersionedPlugins: served(sides.host), AllowedProtocols: []plugin.Protocol{plugin.ProtocolGRPC},
				Cmd: exec.Command(self(), "versions", sides.plugin), Logger: hclog.NewNullLogger(), StartTimeout: time.Minute,
				UnixSocketConfig: &plugin.UnixSocketConfig{TempDir: shortDir(t)},
			})
			defer client.Kill()
			protocol, err := client.Client()
			require.NoError(t, err)
			assert.Equal(t, sides.want, client.NegotiatedVersion())
			c, err := contract.Dispense(protocol)
			require.NoError(t, err)
			d, err := c.Describe(t.Context())
			require.NoError(t, err)
			assert.Equal(t, fmt.Sprintf("protocol version %d", sides.want), d.GetTitle())
		})
	}
}

// The engine itself reads a plugin that is ahead of it as long as that speaks the engine's version too, and else says which side
// is to be changed.
func TestEngineAndPluginOfOtherVersions(t *testing.T) {
	h, err := host.New(host.Config{TempDir: shortDir(t)})
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, h.Close()) })
	read := func(versions string) (*host.Catalogue, error) {
		return h.Read(t.Context(), host.Plugin{Name: "other", Path: self(), Args: []string{"versions", versions}, StartTimeout: time.Minute})
	}
	for versions, title := range map[string]string{"1,2": "protocol version 1", "sdk": "served by the SDK"} {
		c, err := read(versions)
		require.NoError(t, err, versions)
		assert.Equal(t, title, c.Description.GetTitle())
	}
	for versions, says := range map[string]string{
		"2,3": "speaks protocol version 2 and this engine speaks 1; upgrade the engine",
		"0":   "speaks protocol version 0 and this engine speaks 1; build the plugin with a newer SDK",
	} {
		_, err := read(versions)
		assert.ErrorIs(t, err, host.ErrVersion, versions)
		assert.ErrorContains(t, err, says)
	}
}

func TestMismatchNamesTheSideToChange(t *testing.T) {
	assert.Equal(t, []int{1}, contract.Spoken())
	for theirs, want := range map[int][2]string{
		4: {"speaks protocol version 4 and this engine speaks 2 and 3", "upgrade the engine"},
		1: {"speaks protocol version 1 and this engine speaks 2 and 3", "build the plugin with a newer SDK"},
	} {
		what, change := contract.Mismatch(theirs, []int{2, 3})
		assert.Equal(t, want, [2]string{what, change})
	}
}

// shortDir is a folder whose path is short enough for a socket.
func shortDir(t *testing.T) string {
	dir, err := os.MkdirTemp("", "pws")
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, os.RemoveAll(dir)) })
	return dir
}

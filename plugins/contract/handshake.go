// Package contract is what the engine and a catalogue plugin agree on: the handshake, the protocol versions, the Go
// interface that both sides hold, and the checks an item has to pass.
//
// On the wire it is the gRPC service pondwright.catalogue.v1.MerchantCatalogueService behind the handshake of
// hashicorp/go-plugin, so a plugin can be written in any language that has gRPC.
package contract

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"
)

// Version is the newest protocol version, the number in the package name pondwright.catalogue.v1. It changes only when an
// old plugin could no longer be understood; anything smaller is a new field that an old plugin leaves unset.
const Version = 1

// pluginName is the one plugin in each set; go-plugin wants it to have a name.
const pluginName = "catalogue"

// Handshake tells a catalogue plugin from any other program. The cookie is a courtesy, not a lock: it lets a plugin that is
// started by hand say what it is.
func Handshake() plugin.HandshakeConfig {
	return plugin.HandshakeConfig{
		MagicCookieKey:   "PONDWRIGHT_CATALOGUE_PLUGIN",
		MagicCookieValue: "9f0c5b1e-catalogue",
	}
}

// Versions lists every protocol version this module speaks, and how each is served and dispensed. The host and the plugin use
// the newest that both have. A version is taken out only when no plugin of it is left.
func Versions(p *Plugin) map[int]plugin.PluginSet {
	return map[int]plugin.PluginSet{Version: {pluginName: p}}
}

// Spoken are the protocol versions this module speaks, the oldest first.
func Spoken() []int { return slices.Sorted(maps.Keys(Versions(nil))) }

// Mismatch puts into words that a plugin settled on a protocol version that is none of ours, and says which side to change. A
// plugin that finds none in common offers its oldest.
func Mismatch(theirs int, ours []int) (what, change string) {
	words := make([]string, len(ours))
	for i, version := range ours {
		words[i] = fmt.Sprint(version)
	}
	what = fmt.Sprintf("speaks protocol version %d and this engine speaks %s", theirs, strings.Join(words, " and "))
	if theirs > slices.Max(ours) {
		return what, "upgrade the engine"
	}
	return what, "build the plugin with a newer SDK"
}

// MaxMessageBytes bounds one message, both ways. gRPC would receive 4 MiB and send without limit, go-plugin's client
// 2 GiB; a page of 500 items takes about 400 kB, so 16 MiB leaves room for any honest plugin and none for a flood.
const MaxMessageBytes = 16 << 20

// ServerOptions sets the message limit on a plugin's server.
func ServerOptions() []grpc.ServerOption {
	return []grpc.ServerOption{grpc.MaxRecvMsgSize(MaxMessageBytes), grpc.MaxSendMsgSize(MaxMessageBytes)}
}

// DialOptions sets the message limit on the host's connection.
func DialOptions() []grpc.DialOption {
	return []grpc.DialOption{grpc.WithDefaultCallOptions(
		grpc.MaxCallRecvMsgSize(MaxMessageBytes), grpc.MaxCallSendMsgSize(MaxMessageBytes))}
}

// Plugin joins a Catalogue to go-plugin. The plugin's side sets the catalogue, the host's side does not.
type Plugin struct {
	plugin.NetRPCUnsupportedPlugin
	Catalogue Catalogue
}

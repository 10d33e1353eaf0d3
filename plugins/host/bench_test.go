//go:build unix

package host

import (
	"log/slog"
	"os"
	"testing"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
)

// The benchmarks read the plugins of the tests beside them.
func benchPlugin(b *testing.B, mode string) Plugin {
	path, err := os.Executable()
	require.NoError(b, err)
	return Plugin{Name: mode, Path: path, Args: []string{"misbehave", mode, b.TempDir()}}.withDefaults()
}

func benchHost(b *testing.B) *Host {
	dir, err := os.MkdirTemp("", "pwb")
	require.NoError(b, err)
	h, err := New(Config{TempDir: dir})
	require.NoError(b, err)
	b.Cleanup(func() { _ = h.Close(); _ = os.RemoveAll(dir) })
	return h
}

// BenchmarkStartAndStop is what a reload costs before the first item: process, handshake with mutual TLS, Describe, stop.
func BenchmarkStartAndStop(b *testing.B) {
	h, p := benchHost(b), benchPlugin(b, "good")
	for b.Loop() {
		_, err := h.Read(b.Context(), p)
		require.NoError(b, err)
	}
}

// BenchmarkTenThousandItems reads a catalogue of 10,000 pumps with curves of 12 points, with every check.
func BenchmarkTenThousandItems(b *testing.B) {
	h, p := benchHost(b), benchPlugin(b, "ten-thousand")
	b.ReportAllocs()
	for b.Loop() {
		c, err := h.Read(b.Context(), p)
		require.NoError(b, err)
		require.Len(b, c.Items, 10_000)
	}
}

// BenchmarkTenThousandItemsUnchecked is the bound of the one above: the same process and the same bytes, taken in and dropped.
func BenchmarkTenThousandItemsUnchecked(b *testing.B) {
	h, p := benchHost(b), benchPlugin(b, "ten-thousand")
	b.ReportAllocs()
	for b.Loop() {
		s, err := h.start(b.Context(), p, slog.New(slog.DiscardHandler))
		require.NoError(b, err)
		bytes := 0
		for item, err := range s.catalogue.Items(b.Context()) {
			require.NoError(b, err)
			bytes += proto.Size(item)
		}
		s.stop(h.grace)
		b.ReportMetric(float64(bytes)/1e6, "MB")
	}
}

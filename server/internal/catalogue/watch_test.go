package catalogue_test

import (
	"context"
	"errors"
	"log/slog"
	"os"
	"path/filepath"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/host"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	"example.com/pondwright/server/internal/catalogue"
)

// fileGate reads a catalogue of one file: it holds the number of its one item and a full stop, and is half-written without.
func fileGate(path string) *gate {
	return &gate{give: func(context.Context, string, int) ([]*eq.Item, error) {
		text, err := os.ReadFile(path)
		number, whole := strings.CutSuffix(string(text), ".")
		if err != nil || !whole {
			return nil, &host.Failure{Plugin: "shop", What: "is half-written", Err: errors.Join(host.ErrContent, err)}
		}
		return []*eq.Item{pump(number, "pump")}, nil
	}}
}

func watched(t *testing.T, watch func(dir string) string) (*gate, *catalogue.Store, string) {
	t.Helper()
	return watchedEvery(t, quick().Look, watch)
}

func watchedEvery(t *testing.T, look time.Duration, watch func(dir string) string) (*gate, *catalogue.Store, string) {
	t.Helper()
	dir := t.TempDir()
	path := filepath.Join(dir, "pumps.csv")
	write(t, path, "OLD.")
	shop := source("shop")
	shop.Watch = []string{watch(dir)}
	g := fileGate(path)
	pace := quick()
	pace.Look = look
	s := catalogue.NewStore(catalogue.Config{Gate: g, Sources: []catalogue.Source{shop}, Logger: slog.New(slog.DiscardHandler), Pace: pace})
	t.Cleanup(s.Close)
	require.NoError(t, s.Start(t.Context()))
	return g, s, path
}

func write(t *testing.T, path, text string) {
	t.Helper()
	require.NoError(t, os.WriteFile(path, []byte(text), 0o600))
}

func theFolder(dir string) string { return dir }

func TestAFileThatChangesIsReadAgain(t *testing.T) {
	for name, change := range map[string]func(t *testing.T, path string){
		"written to": func(t *testing.T, path string) { write(t, path, "NEW.") },
		"put in its place": func(t *testing.T, path string) {
			write(t, path+".new", "NEW.")
			require.NoError(t, os.Rename(path+".new", path))
		},
		"taken away and brought back": func(t *testing.T, path string) {
			require.NoError(t, os.Remove(path))
			time.Sleep(50 * time.Millisecond)
			write(t, path, "NEW.")
		},
	} {
		t.Run(name, func(t *testing.T) {
			_, s, path := watched(t, theFolder)
			change(t, path)
			assert.Eventually(t, func() bool { return s.Snapshot().Item("shop", "NEW") != nil }, patience, time.Millisecond)
			assert.Eventually(t, func() bool { return stateOf(t, s, "shop").Well() }, patience, time.Millisecond)
		})
	}
}

// While somebody writes, what was read last stays in force. Should the half be read all the same, the whole is read after it.
func TestAHalfWrittenFileKeepsTheOldUntilItIsWhole(t *testing.T) {
	_, s, path := watched(t, func(dir string) string { return filepath.Join(dir, "pumps.csv") })
	write(t, path, "NE")
	require.Eventually(t, func() bool { return stateOf(t, s, "shop").Fault != "" }, patience, time.Millisecond, "it came to rest half-written")
	assert.NotNil(t, s.Snapshot().Item("shop", "OLD"))
	write(t, path, "NEW.")
	require.Eventually(t, func() bool { return stateOf(t, s, "shop").Well() }, patience, time.Millisecond)
	assert.NotNil(t, s.Snapshot().Item("shop", "NEW"))
}

// A file that is written to all the time is not read all the time.
func TestAFileInMotionIsLeftAlone(t *testing.T) {
	g, s, path := watchedEvery(t, 50*time.Millisecond, theFolder)
	var stop atomic.Bool
	done := make(chan struct{})
	go func() {
		defer close(done)
		for text := "X"; !stop.Load(); text += "X" {
			_ = os.WriteFile(path, []byte(text), 0o600)
			time.Sleep(time.Millisecond)
		}
	}()
	time.Sleep(time.Second) // twenty looks
	stop.Store(true)
	<-done
	assert.LessOrEqual(t, g.count("shop"), 5, "a busy machine may stop the writer for two looks now and then")
	write(t, path, "NEW.")
	assert.Eventually(t, func() bool { return s.Snapshot().Item("shop", "NEW") != nil }, patience, time.Millisecond)
}

func TestATouchedFileThatHoldsTheSameIsNotReadAgain(t *testing.T) {
	g, _, path := watched(t, theFolder)
	later := time.Now().Add(time.Hour)
	require.NoError(t, os.Chtimes(path, later, later))
	write(t, filepath.Join(filepath.Dir(path), "~$pumps.csv"), "what a spreadsheet program leaves beside an open workbook")
	write(t, filepath.Join(filepath.Dir(path), ".hidden"), "x")
	time.Sleep(100 * time.Millisecond) // twenty looks
	assert.Equal(t, 1, g.count("shop"))
}

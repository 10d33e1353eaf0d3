//go:build unix

package engine_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"log/slog"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/host/misbehave"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/catalogue"
)

// A fault is one way for a plugin to go wrong at its second start, after it was read well once.
type fault struct {
	name    string
	mode    string                                    // that the plugin is in from then on
	breaks  func(t *testing.T, program string)        // done to its file instead
	limits  func(p *host.Plugin)                      // that it is held to
	says    string                                    // part of the one line in the log
	byHand  bool                                      // it does not pass by itself: somebody has to ask for a reading once it is mended
	served  bool                                      // the reading goes well all the same
	behaves func(t *testing.T, s *pb.CatalogueStatus) // what is to be seen of a reading that goes well
	skip    func() string
}

// patience is how long a condition may take to come about on a busy machine.
const patience = 60 * time.Second

// faults are those that the fault suite goes through. The limits of time are far above what a good start takes, since the machine
// may be busy, and short enough to wait for.
var faults = []fault{
	{name: "is not there", breaks: remove, says: "cannot be read to check its SHA-256"},
	{name: "may not be executed", breaks: forbid, says: "cannot be started"},
	{name: "wrong file", breaks: replace, says: "is not the file that was pinned", byHand: true},
	{name: "ends at once", mode: "exit-at-once", says: "ended before the handshake (exit status 3)"},
	{name: "ends at once and leaves a child", mode: "exits-with-child", says: "ended before the handshake (exit status 0)"},
	{name: "hangs at start", mode: "silent", limits: impatient, says: "did not shake hands within 5s"},
	{name: "prints before the handshake", mode: "prints-first", says: `printed "Loading the catalogue ..." to stdout`},
	{name: "prints a line without end", mode: "endless-line", limits: impatient, says: `printed "xxxxx`},
	{name: "wrong handshake", mode: "wrong-core", says: `printed "9|1|unix|/nowhere|grpc"`},
	{name: "wrong protocol version", mode: "version-2", says: "speaks protocol version 2 and this engine speaks 1", byHand: true},
	{name: "socket that leads nowhere", mode: "dead-socket", limits: impatient, says: "cannot be reached, though its process is there"},
	{name: "panics in a call", mode: "panics", says: "panic in the catalogue: no stock today"},
	{name: "hangs in Describe", mode: "hangs-describing", limits: impatient, says: "did not finish Describe within 5s"},
	{name: "hangs in the middle of the stream", mode: "hangs-streaming", limits: impatient, says: "did not finish StreamItems within 5s"},
	{name: "process stands still", mode: "stands-still", limits: impatient, says: "did not finish Describe within 5s"},
	{name: "crashes in the middle of the stream", mode: "exits-streaming", says: "broke off during StreamItems (exit status 3)"},
	{name: "crashes beside the stream", mode: "dies-in-goroutine", says: "broke off during StreamItems (exit status 2)"},
	{name: "floods a million items", mode: "million", says: "sends more than 50000 items", byHand: true},
	{name: "floods without end", mode: "floods-items", says: "sends more than 50000 items", byHand: true},
	{name: "sends a message beyond all bounds", mode: "huge-message", says: "sent too large a message in StreamItems"},
	{name: "describes itself wrongly", mode: "bad-description", says: "describes itself in a way that cannot be used", byHand: true},
	{name: "sends what is not UTF-8", mode: "invalid-utf8", says: "UTF-8"},
	{name: "grows", mode: "grows", limits: small, says: "broke off during Describe", skip: noLimits},
	{name: "NaN, infinite, negative, empty, huge and double", mode: "bad-items", served: true, behaves: quarantines(8)},
	{name: "items it cannot give", mode: "rejects", served: true, behaves: quarantines(5)},
	{name: "prints rubbish later", mode: "prints-later", served: true, behaves: quarantines(0)},
	{name: "leaves a child", mode: "leaves-child", served: true, behaves: quarantines(0)},
	{name: "does not stop when told to", mode: "slow-to-stop", served: true, behaves: quarantines(0)},
}

func impatient(p *host.Plugin) { p.StartTimeout, p.CallTimeout = 5*time.Second, 5*time.Second }

func small(p *host.Plugin) { p.MaxMemory = 400 << 20 }

func noLimits() string {
	if runtime.GOOS != "linux" || misbehave.RaceDetector {
		return "only Linux limits the memory of another process, and the race detector needs more than the limit"
	}
	return ""
}

func remove(t *testing.T, program string) { require.NoError(t, os.Remove(program)) }

func forbid(t *testing.T, program string) { require.NoError(t, os.Chmod(program, 0o600)) }

func replace(t *testing.T, program string) { writeProgram(t, program, "# another file\n") }

func quarantines(n int) func(*testing.T, *pb.CatalogueStatus) {
	return func(t *testing.T, s *pb.CatalogueStatus) { assert.EqualValues(t, n, s.GetQuarantinedCount()) }
}

// writeProgram makes a program that becomes the test binary, so that there is a file to pin, to change and to take away.
func writeProgram(t *testing.T, at, more string) {
	t.Helper()
	fresh := at + ".new"
	require.NoError(t, os.WriteFile(fresh, []byte("#!/bin/sh\n"+more+"exec '"+misbehave.Self()+"' \"$@\"\n"), 0o700))
	require.NoError(t, os.Rename(fresh, at))
}

// TestNoPluginCanHurtTheEngine has one engine serve calls all the while, with a catalogue of its own for each fault. Each is read
// well, goes wrong, and is mended.
func TestNoPluginCanHurtTheEngine(t *testing.T) {
	if misbehave.RaceDetector {
		t.Skip("the limits of time are those of programs at full speed; plugins/host looks for races in the same ways to go wrong")
	}
	log := &logBook{}
	suite := &suite{log: log, dirs: map[string]string{}}
	shop, err := catalogue.CSV("shop", "../../testdata/catalogues/demo")
	require.NoError(t, err)
	sources := []catalogue.Source{shop}
	for _, f := range faults {
		sources = append(sources, suite.source(t, f))
	}
	e, conn := serve(t, engine.Config{Logger: slog.New(slog.NewJSONHandler(log, nil)), Catalogues: sources})
	suite.engine, suite.catalogues, suite.health = e, pb.NewCatalogueServiceClient(conn), healthpb.NewHealthClient(conn)
	stop := load(t, conn)
	t.Run("fault", func(t *testing.T) {
		for _, f := range faults {
			t.Run(f.name, func(t *testing.T) {
				if f.skip != nil && f.skip() != "" {
					t.Skip(f.skip())
				}
				t.Parallel()
				suite.run(t, f)
			})
		}
	})
	calls := stop()
	t.Logf("%d calls were answered meanwhile", calls)
	assert.Greater(t, calls, int64(2*len(faults)))
	assert.True(t, suite.serving(t, "shop"), "a catalogue that nothing was wrong with")
	assert.True(t, suite.serving(t, ""), "the engine as a whole")
}

type suite struct {
	engine     *engine.Engine
	catalogues pb.CatalogueServiceClient
	health     healthpb.HealthClient
	log        *logBook
	dirs       map[string]string // by fault; written to before the faults begin
}

func name(f fault) string { return strings.NewReplacer(" ", "-", ",", "").Replace(f.name) }

// source is the catalogue of a fault, in good health.
func (s *suite) source(t *testing.T, f fault) catalogue.Source {
	t.Helper()
	dir := t.TempDir()
	s.dirs[f.name] = dir
	misbehave.Set(dir, "good")
	program := filepath.Join(dir, "plugin")
	writeProgram(t, program, "")
	sum, err := host.SHA256File(program)
	require.NoError(t, err)
	p := wrongPlugin(name(f), misbehave.Switch, dir)
	p.Path, p.SHA256 = program, sum
	if f.limits != nil {
		f.limits(&p)
	}
	return catalogue.Source{Plugin: p}
}

func (s *suite) run(t *testing.T, f fault) {
	dir, program := s.dirs[f.name], filepath.Join(s.dirs[f.name], "plugin")
	before := s.status(t, f)
	require.True(t, s.serving(t, name(f)), "read well at first")
	require.EqualValues(t, 3, before.GetItemCount())

	if f.breaks != nil {
		f.breaks(t, program)
	} else {
		misbehave.Set(dir, f.mode)
	}
	resp, err := s.catalogues.ReloadCatalogues(t.Context(), &pb.ReloadCataloguesRequest{Catalogues: []string{name(f)}})
	require.NoError(t, err, "a catalogue that cannot be read is no error of the call")
	require.Len(t, resp.GetCatalogues(), 1)
	now := resp.GetCatalogues()[0]
	if f.served {
		assert.Empty(t, now.GetFault())
		f.behaves(t, now)
		assert.True(t, s.serving(t, name(f)))
		s.leavesNothing(t, dir)
		return
	}
	assert.Contains(t, now.GetFault(), f.says)
	assert.EqualValues(t, 3, now.GetItemCount(), "the last good reading stays in force")
	assert.Equal(t, before.GetInForceTime().AsTime(), now.GetInForceTime().AsTime())
	assert.Equal(t, f.byHand, now.GetNextReadingTime() == nil, "the next try")
	s.saysWhyInOneLine(t, f)
	if f.byHand { // else the next try may have begun already
		assert.False(t, s.serving(t, name(f)))
		s.leavesNothing(t, dir)
	}

	writeProgram(t, program, "")
	misbehave.Set(dir, "good")
	if f.byHand {
		_, err = s.catalogues.ReloadCatalogues(t.Context(), &pb.ReloadCataloguesRequest{Catalogues: []string{name(f)}})
		require.NoError(t, err)
	}
	require.Eventually(t, func() bool { return s.serving(t, name(f)) }, patience, 20*time.Millisecond, "well again")
	healed := s.status(t, f)
	assert.Empty(t, healed.GetFault())
	assert.EqualValues(t, 3, healed.GetItemCount())
	s.leavesNothing(t, dir)
}

func (s *suite) status(t *testing.T, f fault) *pb.CatalogueStatus {
	t.Helper()
	resp, err := s.catalogues.ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	require.NoError(t, err)
	for _, c := range resp.GetCatalogues() {
		if c.GetCatalogue() == name(f) {
			return c
		}
	}
	t.Fatal("no such catalogue")
	return nil
}

// serving is what the health service says of a catalogue, or of the engine.
func (s *suite) serving(t *testing.T, catalogue string) bool {
	t.Helper()
	return isServing(t, s.health, catalogue)
}

func isServing(t *testing.T, health healthpb.HealthClient, catalogue string) bool {
	t.Helper()
	service := ""
	if catalogue != "" {
		service = engine.CatalogueHealth(catalogue)
	}
	resp, err := health.Check(context.Background(), &healthpb.HealthCheckRequest{Service: service})
	return assert.NoError(t, err) && resp.GetStatus() == healthpb.HealthCheckResponse_SERVING
}

// leavesNothing checks that every process that was started for a catalogue has ended. A killed one takes a moment to be gone.
func (s *suite) leavesNothing(t *testing.T, dir string) {
	t.Helper()
	assert.Eventually(t, func() bool { return len(misbehave.Living(dir)) == 0 }, patience, 5*time.Millisecond,
		"processes are left behind")
}

// saysWhyInOneLine looks for the line of the failed reading: there is one for each, it names the catalogue and it says why.
func (s *suite) saysWhyInOneLine(t *testing.T, f fault) {
	t.Helper()
	lines := s.log.errors("catalogue not read", name(f))
	require.NotEmpty(t, lines)
	assert.Contains(t, lines[0], f.says)
	assert.NotContains(t, strings.TrimSpace(lines[0]), "\n")
	assert.LessOrEqual(t, len(lines), int(s.status(t, f).GetReadingCount())-1, "one line a failed reading")
}

// load has callers ask without a pause until it is stopped, and fails the test for every call that fails. stop gives how many
// there were.
func load(t *testing.T, conn *grpc.ClientConn) (stop func() int64) {
	t.Helper()
	return loadEvery(t, conn, time.Millisecond)
}

func loadEvery(t *testing.T, conn *grpc.ClientConn, pause time.Duration) (stop func() int64) {
	t.Helper()
	ctx, cancel := context.WithCancel(context.Background())
	var calls atomic.Int64
	var callers sync.WaitGroup
	volume, kits, list := pb.NewVolumeServiceClient(conn), pb.NewKitServiceClient(conn), pb.NewCatalogueServiceClient(conn)
	for _, call := range []func(context.Context) error{
		func(ctx context.Context) error {
			_, err := volume.CalculateVolume(ctx, &pb.CalculateVolumeRequest{Pond: brief().GetPond()})
			return err
		},
		func(ctx context.Context) error {
			resp, err := kits.SuggestKits(ctx, &pb.SuggestKitsRequest{Brief: withCurrency("GBP"), MaxKits: 1})
			if err == nil && len(resp.GetKits()) == 0 {
				err = fmt.Errorf("no kit: %v", resp.GetFindings())
			}
			return err
		},
		func(ctx context.Context) error {
			_, err := list.GetItem(ctx, &pb.GetItemRequest{Catalogue: "shop", ItemNumber: "PU-1230"})
			return err
		},
	} {
		callers.Go(func() {
			for ctx.Err() == nil {
				if err := call(context.Background()); err != nil {
					t.Errorf("a call failed: %v", err)
					return
				}
				calls.Add(1)
				time.Sleep(pause)
			}
		})
	}
	return func() int64 {
		cancel()
		callers.Wait()
		return calls.Load()
	}
}

// withCurrency is the brief for those who have more than one currency to choose from.
func withCurrency(code string) *pb.Brief {
	b := brief()
	b.Running.Currency = code
	return b
}

// A logBook keeps the lines of a log in JSON.
type logBook struct {
	mu   sync.Mutex
	text bytes.Buffer
}

// Write implements io.Writer.
func (b *logBook) Write(line []byte) (int, error) {
	b.mu.Lock()
	defer b.mu.Unlock()
	return b.text.Write(line)
}

// errors are the lines of one message at level ERROR about one catalogue.
func (b *logBook) errors(message, catalogue string) []string {
	b.mu.Lock()
	defer b.mu.Unlock()
	var found []string
	for line := range strings.Lines(b.text.String()) {
		var record struct{ Level, Msg, Catalogue, Fault string }
		if json.Unmarshal([]byte(line), &record) == nil && record.Level == "ERROR" && record.Msg == message && record.Catalogue == catalogue {
			found = append(found, record.Fault)
		}
	}
	return found
}

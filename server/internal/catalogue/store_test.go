package catalogue_test

import (
	"context"
	"errors"
	"log/slog"
	"runtime"
	"sync/atomic"
	"testing"
	"time"
	"weak"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"example.com/pondwright/plugins/host"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	"example.com/pondwright/server/internal/catalogue"
)

const patience = 30 * time.Second

// onePump is what a gate gives when nothing is wrong.
func onePump(context.Context, string, int) ([]*eq.Item, error) {
	return []*eq.Item{pump("P-1", "pump")}, nil
}

// Whoever asks while a catalogue is being read gets the next reading, as the one under way may have begun before the change that
// is asked about; and all who ask meanwhile get the same one.
func TestReloadsThatOverlapBecomeOne(t *testing.T) {
	open := make(chan struct{})
	g := &gate{begun: make(chan string, 10)}
	g.give = func(ctx context.Context, _ string, nth int) ([]*eq.Item, error) {
		if nth == 2 {
			<-open
		}
		return onePump(ctx, "", nth)
	}
	s := newStore(t, g, source("shop"))
	require.NoError(t, s.Start(t.Context()))
	<-g.begun
	first := make(chan error)
	go func() { first <- s.Reload(t.Context()) }()
	<-g.begun // the second reading is under way
	const callers = 50
	var asked atomic.Int32
	done := make(chan error, callers)
	for range callers {
		go func() {
			asked.Add(1)
			done <- s.Reload(t.Context(), "shop")
		}()
	}
	require.Eventually(t, func() bool { return asked.Load() == callers }, patience, time.Millisecond)
	time.Sleep(50 * time.Millisecond) // for the last of them to get from the count into the queue
	close(open)
	require.NoError(t, <-first)
	for range callers {
		require.NoError(t, <-done)
	}
	assert.LessOrEqual(t, g.count("shop"), 4, "one for all who asked meanwhile, and one for a straggler")
	assert.GreaterOrEqual(t, g.count("shop"), 3)
	assert.ErrorIs(t, s.Reload(t.Context(), "none"), catalogue.ErrUnknown)
}

// A caller who gives up neither stops the reading nor keeps others from it.
func TestWhoGivesUpDoesNotStopTheReading(t *testing.T) {
	open := make(chan struct{})
	g := &gate{give: func(ctx context.Context, _ string, nth int) ([]*eq.Item, error) {
		if nth == 2 {
			select {
			case <-open:
			case <-ctx.Done():
				return nil, ctx.Err()
			}
		}
		return []*eq.Item{pump("P-1", "pump"), pump("P-2", "pump")}[:nth], nil
	}}
	s := newStore(t, g, source("shop"))
	require.NoError(t, s.Start(t.Context()))
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	assert.ErrorIs(t, s.Reload(ctx), context.Canceled)
	close(open)
	assert.Eventually(t, func() bool { return len(s.Snapshot().Items) == 2 }, patience, time.Millisecond)
}

// A catalogue that hangs holds up no other.
func TestOneCatalogueDoesNotHoldUpAnother(t *testing.T) {
	g := &gate{give: func(ctx context.Context, name string, nth int) ([]*eq.Item, error) {
		if name == "slow" && nth > 1 {
			<-ctx.Done()
			return nil, ctx.Err()
		}
		return []*eq.Item{pump("P-1", "pump"), pump("P-2", "pump")}[:min(nth, 2)], nil
	}}
	s := newStore(t, g, source("slow"), source("quick"))
	require.NoError(t, s.Start(t.Context()))
	ctx, cancel := context.WithCancel(t.Context())
	defer cancel()
	go func() { _ = s.Reload(ctx) }()
	assert.Eventually(t, func() bool { return s.Snapshot().Item("quick", "P-2") != nil }, patience, time.Millisecond)
	assert.NotNil(t, s.Snapshot().Item("slow", "P-1"))
	assert.True(t, stateOf(t, s, "slow").Reading)
	assert.NoError(t, s.Reload(t.Context(), "quick"))
}

// What may pass by itself is tried again, each time after twice the wait, and given up after so many tries; a reload begins afresh.
func TestWhatMayPassIsTriedAgainAndGivenUpInTheEnd(t *testing.T) {
	var mended atomic.Bool
	g := &gate{give: func(ctx context.Context, _ string, nth int) ([]*eq.Item, error) {
		if nth > 1 && !mended.Load() {
			return nil, &host.Failure{Plugin: "shop", What: "broke off", Err: host.ErrCall}
		}
		return onePump(ctx, "", nth)
	}}
	s := newStore(t, g, source("shop"))
	require.NoError(t, s.Start(t.Context()))
	require.ErrorContains(t, s.Reload(t.Context()), "broke off")
	require.Eventually(t, func() bool { return stateOf(t, s, "shop").GaveUp }, patience, time.Millisecond)
	state := stateOf(t, s, "shop")
	assert.Equal(t, 1+1+5, g.count("shop"), "one that went well, one that failed, five more tries")
	assert.True(t, state.Next.IsZero())
	assert.False(t, state.Well())
	assert.NotNil(t, s.Snapshot().Item("shop", "P-1"), "the last good reading stays in force")
	assert.Contains(t, s.Snapshot().Revisions()[0].GetFault(), "broke off", "and every answer says so")

	require.Error(t, s.Reload(t.Context()))
	assert.False(t, stateOf(t, s, "shop").GaveUp, "asked for: tried again")
	mended.Store(true)
	require.Eventually(t, func() bool { return stateOf(t, s, "shop").Well() }, patience, time.Millisecond)
	assert.Empty(t, s.Snapshot().Revisions()[0].GetFault())
}

func TestWhatWillNotPassIsNotTriedAgain(t *testing.T) {
	g := &gate{give: func(ctx context.Context, _ string, nth int) ([]*eq.Item, error) {
		if nth > 1 {
			return nil, &host.Failure{Plugin: "shop", What: "is another file", Err: host.ErrChecksum}
		}
		return onePump(ctx, "", nth)
	}}
	s := newStore(t, g, source("shop"))
	require.NoError(t, s.Start(t.Context()))
	require.Error(t, s.Reload(t.Context()))
	time.Sleep(100 * time.Millisecond) // five waits of the quick pace take 31 ms
	assert.Equal(t, 2, g.count("shop"))
	assert.True(t, stateOf(t, s, "shop").Next.IsZero())
}

// Each catalogue is read again by its own refresh, give or take a tenth.
func TestRefreshReadsAgain(t *testing.T) {
	g := &gate{give: onePump}
	often, never := source("often"), source("never")
	often.Refresh = 20 * time.Millisecond
	s := newStore(t, g, often, never)
	before := time.Now()
	require.NoError(t, s.Start(t.Context()))
	require.Eventually(t, func() bool { return g.count("often") >= 5 }, patience, time.Millisecond)
	assert.GreaterOrEqual(t, time.Since(before), 4*18*time.Millisecond, "no sooner than a tenth early")
	assert.Equal(t, 1, g.count("never"))
	assert.False(t, stateOf(t, s, "often").Next.IsZero())
	assert.True(t, stateOf(t, s, "never").Next.IsZero())
}

// A call holds the snapshot that it began with, whatever is read meanwhile; once nobody holds it, it is gone.
func TestASnapshotIsWholeAndGoesWhenNobodyHoldsIt(t *testing.T) {
	g := &gate{give: func(ctx context.Context, _ string, nth int) ([]*eq.Item, error) {
		return []*eq.Item{pump("P-1", "pump"), pump("P-2", "pump")}[nth%2 : nth%2+1], nil
	}}
	s := newStore(t, g, source("shop"))
	require.NoError(t, s.Start(t.Context()))
	held := s.Snapshot()
	gone := weak.Make(held)
	require.NoError(t, s.Reload(t.Context()))
	assert.Nil(t, held.Item("shop", "P-1"))
	assert.NotNil(t, held.Item("shop", "P-2"), "the old one is as it was")
	assert.NotNil(t, s.Snapshot().Item("shop", "P-1"))
	assert.Nil(t, s.Snapshot().Item("shop", "P-2"))
	runtime.GC()
	assert.NotNil(t, gone.Value())
	runtime.KeepAlive(held)
	held = nil
	assert.Eventually(t, func() bool { runtime.GC(); return gone.Value() == nil }, patience, 10*time.Millisecond)
}

func TestHealthHearsOfEveryChange(t *testing.T) {
	var well atomic.Bool
	g := &gate{give: func(ctx context.Context, _ string, nth int) ([]*eq.Item, error) {
		if nth == 2 {
			return nil, errors.New("not today")
		}
		return onePump(ctx, "", nth)
	}}
	s := catalogue.NewStore(catalogue.Config{
		Gate: g, Sources: []catalogue.Source{source("shop")}, Logger: slog.New(slog.DiscardHandler), Health: func(_ string, is bool) { well.Store(is) },
	})
	t.Cleanup(s.Close)
	require.NoError(t, s.Start(t.Context()))
	assert.True(t, well.Load())
	require.Error(t, s.Reload(t.Context()))
	assert.False(t, well.Load())
	require.NoError(t, s.Reload(t.Context()))
	assert.True(t, well.Load())
}

func TestAClosedStoreSaysSo(t *testing.T) {
	g := &gate{give: func(ctx context.Context, _ string, nth int) ([]*eq.Item, error) {
		if nth > 1 {
			<-ctx.Done()
			return nil, ctx.Err()
		}
		return onePump(ctx, "", nth)
	}}
	s := newStore(t, g, source("shop"))
	require.NoError(t, s.Start(t.Context()))
	asked := make(chan error)
	go func() { asked <- s.Reload(t.Context()) }()
	require.Eventually(t, func() bool { return g.count("shop") == 2 }, patience, time.Millisecond)
	s.Close()
	assert.ErrorIs(t, <-asked, catalogue.ErrClosed)
	assert.ErrorIs(t, s.Reload(t.Context()), catalogue.ErrClosed)
	assert.NotNil(t, s.Snapshot().Item("shop", "P-1"))
}

func TestSourcesThatCannotBeMeantAreAllNamed(t *testing.T) {
	impatient := source("shop")
	impatient.Refresh = time.Millisecond
	faults := catalogue.CheckSources([]catalogue.Source{source("shop"), source(""), source("a/b"), impatient, source("good-1.x")})
	require.Len(t, faults, 4)
	assert.Contains(t, faults[0], "catalogue 2")
	assert.Contains(t, faults[1], `"a/b"`)
	assert.Contains(t, faults[2], "twice")
	assert.Contains(t, faults[3], "every 1ms")
}

package catalogue

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"sync"
	"time"

	"example.com/pondwright/plugins/host"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
)

// A keeper reads one catalogue, again and again, and keeps its plugin alive where it answers live. All it does is done by one
// goroutine, so that a catalogue is never read twice at once.
type keeper struct {
	source  Source
	gate    Gate
	pace    Pace
	log     *slog.Logger
	publish func()

	wake    chan struct{} // somebody wants a reading
	changed chan struct{} // a watched file has
	down    chan struct{} // a plugin that was kept running has gone

	backOff backOff // used by the keeper's goroutine alone
	stops   sync.WaitGroup

	mu     sync.Mutex
	now    State // but for Reading
	live   *host.Live
	wanted *pass // the reading that has not begun
	busy   bool

	// Live questions; the memories are guarded by mu too.
	asking    chan struct{} // holds one for each in flight
	restUntil time.Time     // when a plugin that has not answered is asked again
	restWhy   string
	stock     memory[*cataloguev1.StockLevel]
	prices    memory[*cataloguev1.PriceQuote]
}

// A pass is one reading that somebody waits for.
type pass struct {
	done chan struct{}
	err  error
}

func newKeeper(source Source, gate Gate, pace Pace, log *slog.Logger, publish func()) *keeper {
	if source.LiveTimeout <= 0 {
		source.LiveTimeout = DefaultLiveTimeout
	}
	return &keeper{
		source: source, gate: gate, pace: pace, log: log.With("catalogue", source.Name()), publish: publish,
		wake: make(chan struct{}, 1), changed: make(chan struct{}, 1), down: make(chan struct{}),
		asking: make(chan struct{}, mostAsking), backOff: backOff{pace: pace}, now: State{Source: source},
	}
}

// want asks for a reading that begins from now on. All who ask before it begins get the same one.
func (k *keeper) want() *pass {
	k.mu.Lock()
	if k.wanted == nil {
		k.wanted = &pass{done: make(chan struct{})}
	}
	p := k.wanted
	k.mu.Unlock()
	select {
	case k.wake <- struct{}{}:
	default:
	}
	return p
}

// run keeps the catalogue until ctx ends.
func (k *keeper) run(ctx context.Context) {
	var helpers sync.WaitGroup
	if len(k.source.Watch) > 0 {
		w := newWatch(k.source.Watch)
		helpers.Go(func() { w.run(ctx, k.pace.Look, k.changed) })
	}
	defer func() {
		k.replaceLive(ctx, nil)
		k.stops.Wait()
		helpers.Wait()
	}()
	timer := time.NewTimer(time.Hour)
	defer timer.Stop()
	for {
		k.set(timer)
		select {
		case <-ctx.Done():
			return
		case <-k.wake:
			k.backOff.afresh()
		case <-k.changed:
			k.log.Info("the files of the catalogue have changed: reading it again")
			k.backOff.afresh()
		case <-timer.C:
			if !k.isDue() {
				continue
			}
			if k.source.Refresh > 0 && k.state().GaveUp {
				k.backOff.afresh()
			}
		case <-k.down:
			k.fell()
			continue
		}
		k.pass(ctx)
	}
}

// set makes a timer run out when the next reading is due.
func (k *keeper) set(timer *time.Timer) {
	next := k.state().Next
	if next.IsZero() {
		timer.Stop()
		return
	}
	timer.Reset(time.Until(next))
}

func (k *keeper) isDue() bool {
	next := k.state().Next
	return !next.IsZero() && !time.Now().Before(next)
}

// pass reads once, for all who have asked so far.
func (k *keeper) pass(ctx context.Context) {
	k.mu.Lock()
	p := k.wanted
	k.wanted, k.busy = nil, true
	k.mu.Unlock()
	err := k.read(ctx)
	k.mu.Lock()
	k.busy = false
	k.mu.Unlock()
	k.publish()
	if p != nil {
		p.err = err
		close(p.done)
	}
}

// read reads the catalogue and takes note of how it went.
func (k *keeper) read(ctx context.Context) error {
	began := time.Now()
	read, live, err := k.gate.Open(ctx, k.source.Plugin)
	took := time.Since(began)
	if err != nil {
		if ctx.Err() == nil {
			k.failed(began, took, err)
		}
		return err
	}
	fresh := newShelf(k.source.Name(), read, began)
	k.replaceLive(ctx, live)
	k.update(func(s *State) {
		s.shelf, s.Fault, s.ReadAt, s.GoodAt, s.Took, s.GaveUp = fresh, "", began, began, took, false
		s.Readings++
		s.Next = k.refreshAt()
		s.Live, s.LiveFault, s.LiveSince = LiveNone, "", time.Time{}
		if live != nil {
			s.Live, s.LiveSince = LiveUp, time.Now()
		}
	})
	k.log.Info("catalogue in force", "revision", fresh.description.GetRevision(), "items", len(fresh.items),
		"quarantined", fresh.out.count, "took", took, "live", live != nil)
	return nil
}

// failed takes note of a reading that went wrong. The last good one stays in force.
func (k *keeper) failed(began time.Time, took time.Duration, err error) {
	wait, again := time.Duration(0), false
	if host.IsTemporary(err) {
		wait, again = k.backOff.next(time.Now())
	}
	gaveUp := host.IsTemporary(err) && !again
	k.update(func(s *State) {
		s.Fault, s.ReadAt, s.Took, s.GaveUp = err.Error(), began, took, gaveUp
		s.Readings++
		s.Next = k.soonest(wait, again)
	})
	k.log.Error("catalogue not read", "last_good_in_force", k.state().shelf != nil, "again", k.outlook(), "fault", err)
}

// fell sees to it that a plugin that was kept running and has gone is started again. A reading that was under way meanwhile
// may have done so already.
func (k *keeper) fell() {
	if k.state().Live != LiveDown {
		return
	}
	wait, again := k.backOff.next(time.Now())
	k.update(func(s *State) { s.GaveUp, s.Next = !again, k.soonest(wait, again) })
	k.log.Error("live answers are down", "again", k.outlook(), "fault", k.state().LiveFault)
}

// soonest is when to read next: after the wait where there is to be a new try, and by the refresh where not.
func (k *keeper) soonest(wait time.Duration, again bool) time.Time {
	if again {
		return time.Now().Add(wait)
	}
	return k.refreshAt()
}

// refreshAt is when the catalogue is read again by itself; zero where it is not.
func (k *keeper) refreshAt() time.Time {
	if k.source.Refresh <= 0 {
		return time.Time{}
	}
	return time.Now().Add(jitter(k.source.Refresh))
}

// outlook says in words when the catalogue is read again.
func (k *keeper) outlook() string {
	s := k.state()
	when := "when asked"
	if len(k.source.Watch) > 0 {
		when += " or when its files change"
	}
	if !s.Next.IsZero() {
		when = fmt.Sprintf("in %s, or %s", time.Until(s.Next).Round(time.Millisecond), when)
	}
	if s.GaveUp {
		return fmt.Sprintf("given up after %d failures within %s: %s", k.pace.Tries+1, k.pace.Window, when)
	}
	return when
}

// replaceLive puts another plugin in the place of the one that was kept running, which is stopped once it has answered.
func (k *keeper) replaceLive(ctx context.Context, next *host.Live) {
	k.mu.Lock()
	old := k.live
	k.live = next
	k.stock.clear()
	k.prices.clear()
	k.restUntil, k.restWhy = time.Time{}, ""
	k.mu.Unlock()
	if old != nil {
		k.stops.Go(func() { k.stopLive(old) })
	}
	if next != nil {
		k.stops.Go(func() { k.guard(ctx, next) })
	}
}

func (k *keeper) stopLive(live *host.Live) {
	patience, cancel := context.WithTimeout(context.Background(), k.source.LiveTimeout)
	defer cancel()
	live.Stop(patience)
}

// guard looks at a plugin that is kept running until it is no longer wanted, and reports when it has gone or hangs.
func (k *keeper) guard(ctx context.Context, live *host.Live) {
	beat := time.NewTicker(k.pace.Beat)
	defer beat.Stop()
	missed := 0
	for {
		select {
		case <-ctx.Done():
			return
		case <-live.Ended():
			k.report(ctx, live, errors.New("its process has ended"))
			return
		case <-beat.C:
		}
		limit, cancel := context.WithTimeout(ctx, k.pace.BeatLimit)
		err := live.Beat(limit)
		cancel()
		if err == nil {
			missed = 0
			continue
		}
		if missed++; missed == k.pace.Missed {
			k.report(ctx, live, fmt.Errorf("it has missed %d heartbeats: %w", missed, err))
			return
		}
	}
}

// report says at once that a plugin is down, ends it for good and has the keeper start another, unless it is one that was
// replaced. Its catalogue stays in force.
func (k *keeper) report(ctx context.Context, live *host.Live, trouble error) {
	why := live.Why(trouble).Error()
	k.mu.Lock()
	current := k.live == live
	if current {
		k.live = nil
		k.now.Live, k.now.LiveFault, k.now.LiveSince = LiveDown, why, time.Now()
	}
	k.mu.Unlock()
	if !current {
		return
	}
	k.publish()
	k.stopLive(live)
	select {
	case k.down <- struct{}{}:
	case <-ctx.Done():
	}
}

// state is how the catalogue is doing.
func (k *keeper) state() State {
	k.mu.Lock()
	defer k.mu.Unlock()
	s := k.now
	s.Reading = k.busy
	return s
}

func (k *keeper) update(change func(*State)) {
	k.mu.Lock()
	defer k.mu.Unlock()
	change(&k.now)
}

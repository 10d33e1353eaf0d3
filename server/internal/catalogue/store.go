package catalogue

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
)

// A Gate reads one catalogue from its plugin, and keeps the plugin running where it answers live; where not, the Live is nil.
type Gate interface {
	Open(ctx context.Context, p host.Plugin) (*host.Catalogue, *host.Live, error)
}

// Config is what a Store needs.
type Config struct {
	Gate    Gate
	Sources []Source
	Logger  *slog.Logger
	// Health hears of every change: whether a catalogue's last reading went well and, where it answers live, its plugin runs.
	// Nil where nobody listens.
	Health  func(catalogue string, well bool)
	Pace    *Pace             // the usual one when nil
	Checker *contract.Checker // of live answers
}

// A Store holds the snapshot in force and replaces it whole. Each catalogue has a keeper, which reads it when it should be
// read, so that one that hangs holds up no other.
type Store struct {
	log     *slog.Logger
	health  func(string, bool)
	checker *contract.Checker // of live answers
	keepers []*keeper         // what comes first first
	current atomic.Pointer[Snapshot]

	publishing sync.Mutex
	ctx        context.Context // ends when the store is closed
	cancel     context.CancelFunc
	running    sync.WaitGroup
}

// NewStore makes a store with nothing read yet.
func NewStore(cfg Config) *Store {
	s := &Store{log: cfg.Logger, health: cfg.Health, checker: cfg.Checker}
	if s.health == nil {
		s.health = func(string, bool) {}
	}
	pace := UsualPace()
	if cfg.Pace != nil {
		pace = *cfg.Pace
	}
	s.ctx, s.cancel = context.WithCancel(context.Background())
	for _, source := range inOrder(cfg.Sources) {
		s.keepers = append(s.keepers, newKeeper(source, cfg.Gate, pace, cfg.Logger, s.publish))
	}
	s.current.Store(newSnapshot(nil, nil))
	return s
}

// Start reads every catalogue, side by side, and returns when each has been read or has failed. From then on until the store
// is closed they are read again as their sources say. The error tells of those that failed; the store runs all the same.
func (s *Store) Start(ctx context.Context) error {
	for _, k := range s.keepers {
		s.running.Go(func() { k.run(s.ctx) })
	}
	return s.Reload(ctx)
}

// Close reads no more, and stops every plugin that is kept running. Questions in flight to one are answered first.
func (s *Store) Close() {
	s.cancel()
	s.running.Wait()
}

// Snapshot is what is in force.
func (s *Store) Snapshot() *Snapshot { return s.current.Load() }

// ErrClosed is a store that is being closed.
var ErrClosed = errors.New("the store of catalogues is closed")

// ErrUnknown is a catalogue that is not configured.
var ErrUnknown = errors.New("no such catalogue")

// Reload reads the catalogues named, or all where none is, side by side, and puts what was read in force. A catalogue that
// cannot be read keeps its last good reading, and the fault is part of the snapshot and of the error. A catalogue that is
// being read already is read once more after that, once for all who ask meanwhile. Who gives up does not stop the reading.
func (s *Store) Reload(ctx context.Context, names ...string) error {
	chosen := s.keepers
	if len(names) > 0 {
		chosen = nil
		for _, name := range names {
			k := s.keeper(name)
			if k == nil {
				return fmt.Errorf("%w: %q", ErrUnknown, name)
			}
			chosen = append(chosen, k)
		}
	}
	passes := make([]*pass, len(chosen))
	for i, k := range chosen {
		passes[i] = k.want()
	}
	var faults []error
	for _, p := range passes {
		select {
		case <-p.done:
			faults = append(faults, p.err)
		case <-ctx.Done():
			return errors.Join(append(faults, context.Cause(ctx))...)
		case <-s.ctx.Done():
			return errors.Join(append(faults, ErrClosed)...)
		}
	}
	return errors.Join(faults...)
}

// Names are those of the catalogues configured, in order.
func (s *Store) Names() []string {
	var all []string
	for _, k := range s.keepers {
		all = append(all, k.source.Name())
	}
	slices.Sort(all)
	return all
}

// States say how each catalogue is doing, in order of name.
func (s *Store) States() []State {
	all := make([]State, len(s.keepers))
	for i, k := range s.keepers {
		all[i] = k.state()
	}
	slices.SortFunc(all, func(a, b State) int { return strings.Compare(a.Source.Name(), b.Source.Name()) })
	return all
}

func (s *Store) keeper(name string) *keeper {
	for _, k := range s.keepers {
		if k.source.Name() == name {
			return k
		}
	}
	return nil
}

// publish puts in force what every keeper holds.
func (s *Store) publish() {
	s.publishing.Lock()
	defer s.publishing.Unlock()
	shelves := make([]*shelf, len(s.keepers))
	faults := map[string]string{}
	for i, k := range s.keepers {
		state := k.state()
		shelves[i] = state.shelf
		if state.Fault != "" {
			faults[state.Source.Name()] = state.Fault
		}
		s.health(state.Source.Name(), state.Well())
	}
	s.current.Store(newSnapshot(shelves, faults))
}

package catalogue

import (
	"context"
	"errors"
	"log/slog"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"example.com/pondwright/plugins/host"
)

// A Reader reads one catalogue from its plugin.
type Reader interface {
	Read(ctx context.Context, p host.Plugin) (*host.Catalogue, error)
}

// A Store holds the snapshot in force and replaces it whole.
type Store struct {
	reader   Reader
	plugins  []host.Plugin
	log      *slog.Logger
	reload   sync.Mutex // one reload at a time
	readings []reading  // by plugin; guarded by reload
	current  atomic.Pointer[Snapshot]
}

// NewStore makes a store with nothing read yet.
func NewStore(reader Reader, plugins []host.Plugin, log *slog.Logger) *Store {
	sorted := slices.SortedFunc(slices.Values(plugins), func(a, b host.Plugin) int { return strings.Compare(a.Name, b.Name) })
	s := &Store{reader: reader, plugins: sorted, log: log, readings: make([]reading, len(sorted))}
	for i, p := range sorted {
		s.readings[i].name = p.Name
	}
	s.current.Store(newSnapshot(s.readings))
	return s
}

// Snapshot is what is in force.
func (s *Store) Snapshot() *Snapshot { return s.current.Load() }

// Reload reads every catalogue, side by side, and puts the new snapshot in force. A catalogue that cannot be read keeps its
// last good reading, and the fault is part of the snapshot and of the error.
func (s *Store) Reload(ctx context.Context) error {
	s.reload.Lock()
	defer s.reload.Unlock()
	faults := make([]error, len(s.plugins))
	var group sync.WaitGroup
	for i, p := range s.plugins {
		group.Go(func() {
			read, err := s.reader.Read(ctx, p)
			if err != nil {
				faults[i] = err
				s.readings[i].fault = err.Error()
				s.log.Error("catalogue not read", "catalogue", p.Name, "last_good_in_force", s.readings[i].good != nil, "fault", err)
				return
			}
			s.readings[i] = reading{name: p.Name, good: read}
		})
	}
	group.Wait()
	snapshot := newSnapshot(s.readings)
	s.current.Store(snapshot)
	for _, c := range snapshot.Catalogues {
		s.log.Info("catalogue in force", "catalogue", c.GetCatalogue(), "revision", c.GetRevision(),
			"items", c.GetItemCount(), "quarantined", snapshot.leftOut[c.GetCatalogue()])
	}
	return errors.Join(faults...)
}

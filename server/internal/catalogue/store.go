package catalogue

import (
	"context"
	"errors"
	"log/slog"
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
	sources  []Source
	log      *slog.Logger
	reload   sync.Mutex // one reload at a time
	readings []reading  // by plugin; guarded by reload
	current  atomic.Pointer[Snapshot]
}

// NewStore makes a store with nothing read yet.
func NewStore(reader Reader, sources []Source, log *slog.Logger) *Store {
	sorted := inOrder(sources)
	s := &Store{reader: reader, sources: sorted, log: log, readings: make([]reading, len(sorted))}
	for i, source := range sorted {
		s.readings[i].name = source.Name()
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
	faults := make([]error, len(s.sources))
	var group sync.WaitGroup
	for i, source := range s.sources {
		group.Go(func() {
			read, err := s.reader.Read(ctx, source.Plugin)
			if err != nil {
				faults[i] = err
				s.readings[i].fault = err.Error()
				s.log.Error("catalogue not read", "catalogue", source.Name(), "last_good_in_force", s.readings[i].good != nil, "fault", err)
				return
			}
			s.readings[i] = reading{name: source.Name(), good: read}
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

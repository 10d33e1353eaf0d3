package catalogue

import (
	"slices"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// Frozen is a store that holds one snapshot for good, so that a call made of several sees the same catalogue from start to end.
func Frozen(s *Snapshot) *Store {
	store := &Store{}
	store.current.Store(s)
	return store
}

// Narrowed is the snapshot with only those items to choose kit from that are kept. What is listed of the catalogues stays.
func (s *Snapshot) Narrowed(keep func(*pb.CataloguedItem) bool) *Snapshot {
	made := *s
	made.Items, made.markets = nil, map[string]*Market{}
	for _, item := range s.Items {
		if keep(item) {
			made.Items = append(made.Items, item)
		}
	}
	for currency, m := range s.markets {
		n := &Market{}
		n.Range.Currency = m.Range.Currency
		n.Range.Pumps, n.Pumps = narrowed(m.Range.Pumps, m.Pumps, keep)
		n.Range.Hoses, n.Hoses = narrowed(m.Range.Hoses, m.Hoses, keep)
		n.Range.Filters, n.Filters = narrowed(m.Range.Filters, m.Filters, keep)
		n.Range.Lamps, n.Lamps = narrowed(m.Range.Lamps, m.Lamps, keep)
		made.markets[currency] = n
	}
	return &made
}

func narrowed[T any](places []T, items []*pb.CataloguedItem, keep func(*pb.CataloguedItem) bool) ([]T, []*pb.CataloguedItem) {
	var kept []T
	for i := range places {
		if keep(items[i]) {
			kept = append(kept, places[i])
		}
	}
	return kept, slices.DeleteFunc(slices.Clone(items), func(i *pb.CataloguedItem) bool { return !keep(i) })
}

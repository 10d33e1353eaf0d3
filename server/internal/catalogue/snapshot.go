// Package catalogue keeps what was read of the merchants' catalogues, as one snapshot that never changes, and sees to it
// that they are read again when they should be.
package catalogue

import (
	"cmp"
	"slices"
	"time"

	"example.com/pondwright/calc/kit"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// A Snapshot is every catalogue as it stood at one moment. It is never written to after it was made, so a call that holds
// one sees the same catalogue from start to end.
type Snapshot struct {
	Items   []*pb.CataloguedItem // in the order of catalogue and item number
	markets map[string]*Market
	shelves []*shelf          // what comes first first: by priority, then name
	byName  map[string]*shelf // the same
	faults  map[string]string // why the last reading failed, by catalogue
}

// A Market is all that is sold in one currency, ready to choose from. What comes first is of the catalogue of the greatest
// priority, so that of equal sets the first to be found is that which is preferred.
type Market struct {
	Range   kit.Range
	Pumps   []*pb.CataloguedItem // by place in the range
	Hoses   []*pb.CataloguedItem
	Filters []*pb.CataloguedItem
	Lamps   []*pb.CataloguedItem
}

// Market gives what is sold in a currency; nil where nothing is.
func (s *Snapshot) Market(currency string) *Market { return s.markets[currency] }

// Currencies lists the currencies there are prices in, in order.
func (s *Snapshot) Currencies() []string {
	codes := make([]string, 0, len(s.markets))
	for code := range s.markets {
		codes = append(codes, code)
	}
	slices.Sort(codes)
	return codes
}

// Item finds an item by its catalogue and its number in it; nil where there is none.
func (s *Snapshot) Item(catalogue, number string) *pb.CataloguedItem {
	if shelf := s.byName[catalogue]; shelf != nil {
		return shelf.byNumber[number]
	}
	return nil
}

// Holders are the items of a number: in the catalogue named, or in every one.
func (s *Snapshot) Holders(catalogue, number string) []*pb.CataloguedItem {
	var holders []*pb.CataloguedItem
	for _, c := range s.shelves {
		if entry := c.byNumber[number]; entry != nil && (catalogue == "" || catalogue == c.name) {
			holders = append(holders, entry)
		}
	}
	return holders
}

// After is the place in Items of the first that comes after an item, whether that is there or not.
func (s *Snapshot) After(catalogue, number string) int {
	at, found := slices.BinarySearchFunc(s.Items, number, func(entry *pb.CataloguedItem, number string) int {
		return cmp.Or(cmp.Compare(entry.GetCatalogue(), catalogue), cmp.Compare(entry.GetItem().GetItemNumber(), number))
	})
	if found {
		at++
	}
	return at
}

// ReadAt is when the reading of a catalogue that is in force began; zero where nothing of it is.
func (s *Snapshot) ReadAt(catalogue string) time.Time {
	if shelf := s.byName[catalogue]; shelf != nil {
		return shelf.readAt
	}
	return time.Time{}
}

// Currency is that of every price of a catalogue; empty where nothing of it is in force.
func (s *Snapshot) Currency(catalogue string) string {
	if shelf := s.byName[catalogue]; shelf != nil {
		return shelf.description.GetCurrency()
	}
	return ""
}

// Quarantined lists the items of a catalogue that are left out, in the order they came, and how many there are, which may be
// more than are listed.
func (s *Snapshot) Quarantined(catalogue string) ([]*pb.QuarantinedItem, int) {
	if shelf := s.byName[catalogue]; shelf != nil {
		return shelf.out.listed, shelf.out.count
	}
	return nil, 0
}

// Revisions says which catalogues are in force, in order of name.
func (s *Snapshot) Revisions() []*pb.CatalogueRevision {
	var made []*pb.CatalogueRevision
	for _, c := range s.shelves {
		made = append(made, &pb.CatalogueRevision{
			Catalogue: c.name, Revision: c.description.GetRevision(), Notice: c.description.GetNotice(),
			Fault: s.faults[c.name], QuarantinedCount: int32(c.out.count),
		})
	}
	slices.SortFunc(made, func(a, b *pb.CatalogueRevision) int { return cmp.Compare(a.GetCatalogue(), b.GetCatalogue()) })
	return made
}

// newSnapshot puts shelves side by side, in the order they are to come. Those that are nil hold nothing yet.
func newSnapshot(shelves []*shelf, faults map[string]string) *Snapshot {
	s := &Snapshot{markets: map[string]*Market{}, byName: map[string]*shelf{}, faults: faults}
	for _, c := range shelves {
		if c == nil {
			continue
		}
		s.shelves = append(s.shelves, c)
		s.byName[c.name] = c
		s.market(c.description.GetCurrency()).join(&c.offers)
	}
	byName := slices.Clone(s.shelves)
	slices.SortFunc(byName, func(a, b *shelf) int { return cmp.Compare(a.name, b.name) })
	for _, c := range byName {
		s.Items = append(s.Items, c.items...)
	}
	return s
}

func (s *Snapshot) market(currency string) *Market {
	m := s.markets[currency]
	if m == nil {
		m = &Market{Range: kit.Range{Currency: currency}}
		s.markets[currency] = m
	}
	return m
}

// join adds what another market holds after what there is.
func (m *Market) join(o *Market) {
	m.Range.Pumps, m.Pumps = append(m.Range.Pumps, o.Range.Pumps...), append(m.Pumps, o.Pumps...)
	m.Range.Hoses, m.Hoses = append(m.Range.Hoses, o.Range.Hoses...), append(m.Hoses, o.Hoses...)
	m.Range.Filters, m.Filters = append(m.Range.Filters, o.Range.Filters...), append(m.Filters, o.Filters...)
	m.Range.Lamps, m.Lamps = append(m.Range.Lamps, o.Range.Lamps...), append(m.Lamps, o.Lamps...)
}

// add puts an item into the range, if it is of a kind that kit is made of and has a price. It tries the item out first, so
// that no question fails on it later.
func (m *Market) add(entry *pb.CataloguedItem) error {
	item := entry.GetItem()
	priced := item.Price != nil
	switch kind := item.GetKind().(type) {
	case *eq.Item_Pump:
		pump, err := wire.Pump(kind.Pump, item.GetPrice())
		if err != nil {
			return err
		}
		pump.Stock = wire.Stock(item)
		if priced {
			m.Range.Pumps, m.Pumps = append(m.Range.Pumps, pump), append(m.Pumps, entry)
		}
	case *eq.Item_Hose:
		hose := wire.Hose(kind.Hose)
		if err := kit.TryHose(hose); err != nil {
			return err
		}
		hose.Stock = wire.Stock(item)
		m.Range.Hoses, m.Hoses = append(m.Range.Hoses, hose), append(m.Hoses, entry)
	case *eq.Item_Filter:
		filter := wire.Filter(kind.Filter, item.GetPrice())
		if err := kit.TryFilter(filter); err != nil {
			return err
		}
		filter.Stock = wire.Stock(item)
		if priced {
			m.Range.Filters, m.Filters = append(m.Range.Filters, filter), append(m.Filters, entry)
		}
	case *eq.Item_LampUnit:
		lamp := wire.Lamp(kind.LampUnit, item.GetPrice())
		if err := kit.TryLamp(lamp); err != nil {
			return err
		}
		lamp.Stock, lamp.Light = wire.Stock(item), lightOf(lamp.Unit)
		if priced {
			m.Range.Lamps, m.Lamps = append(m.Range.Lamps, lamp), append(m.Lamps, entry)
		}
	}
	return nil
}

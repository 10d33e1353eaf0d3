// Package catalogue keeps what was read of the merchants' catalogues, as one snapshot that never changes.
package catalogue

import (
	"cmp"
	"slices"

	"example.com/pondwright/calc/kit"
	"example.com/pondwright/plugins/host"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/wire"
)

// A Snapshot is every catalogue as it stood at one moment. It is never written to after it was made, so a call that holds
// one sees the same catalogue from start to end.
type Snapshot struct {
	Catalogues []*pb.CatalogueStatus // in the order of their names
	Items      []*pb.CataloguedItem  // in the order of catalogue and item number
	markets    map[string]*Market
	leftOut    map[string]int // quarantined items, listed or not, by catalogue
}

// A Market is all that is sold in one currency, ready to choose from.
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

// Revisions says which catalogues are in force.
func (s *Snapshot) Revisions() []*pb.CatalogueRevision {
	var made []*pb.CatalogueRevision
	for _, c := range s.Catalogues {
		if c.GetRevision() != "" {
			made = append(made, &pb.CatalogueRevision{
				Catalogue: c.GetCatalogue(), Revision: c.GetRevision(), Notice: c.GetNotice(),
				Fault: c.GetFault(), QuarantinedCount: int32(len(c.GetQuarantined())),
			})
		}
	}
	return made
}

// reading is the last good reading of one catalogue, and the fault of the last that failed.
type reading struct {
	name  string
	good  *host.Catalogue
	fault string
}

// newSnapshot freezes readings. An item that passed the checks of the contract and still cannot be calculated with joins
// the quarantine.
func newSnapshot(readings []reading) *Snapshot {
	s := &Snapshot{markets: map[string]*Market{}, leftOut: map[string]int{}}
	for _, r := range readings {
		status := &pb.CatalogueStatus{Catalogue: r.name, Fault: r.fault}
		s.Catalogues = append(s.Catalogues, status)
		if r.good == nil {
			continue
		}
		d := r.good.Description
		status.Title, status.Revision, status.Currency, status.Notice = d.GetTitle(), d.GetRevision(), d.GetCurrency(), d.GetNotice()
		var out quarantine
		for _, q := range r.good.Quarantined {
			out.add(q.ItemNumber, reasons(q.Problems)...)
		}
		for _, item := range r.good.Items {
			entry := &pb.CataloguedItem{Catalogue: r.name, Item: item}
			if err := s.market(d.GetCurrency()).add(entry); err != nil {
				out.add(item.GetItemNumber(), err.Error())
				continue
			}
			s.Items = append(s.Items, entry)
			status.ItemCount++
		}
		status.Quarantined, s.leftOut[r.name] = out.list(), out.count
	}
	slices.SortFunc(s.Catalogues, func(a, b *pb.CatalogueStatus) int { return cmp.Compare(a.GetCatalogue(), b.GetCatalogue()) })
	slices.SortFunc(s.Items, byNumber)
	return s
}

func byNumber(a, b *pb.CataloguedItem) int {
	return cmp.Or(
		cmp.Compare(a.GetCatalogue(), b.GetCatalogue()), cmp.Compare(a.GetItem().GetItemNumber(), b.GetItem().GetItemNumber()),
	)
}

func (s *Snapshot) market(currency string) *Market {
	m := s.markets[currency]
	if m == nil {
		m = &Market{Range: kit.Range{Currency: currency}}
		s.markets[currency] = m
	}
	return m
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
		if priced {
			m.Range.Pumps, m.Pumps = append(m.Range.Pumps, pump), append(m.Pumps, entry)
		}
	case *eq.Item_Hose:
		hose := wire.Hose(kind.Hose)
		if err := kit.TryHose(hose); err != nil {
			return err
		}
		m.Range.Hoses, m.Hoses = append(m.Range.Hoses, hose), append(m.Hoses, entry)
	case *eq.Item_Filter:
		filter := wire.Filter(kind.Filter, item.GetPrice())
		if err := kit.TryFilter(filter); err != nil {
			return err
		}
		if priced {
			m.Range.Filters, m.Filters = append(m.Range.Filters, filter), append(m.Filters, entry)
		}
	case *eq.Item_LampUnit:
		lamp := wire.Lamp(kind.LampUnit, item.GetPrice())
		if err := kit.TryLamp(lamp); err != nil {
			return err
		}
		if priced {
			m.Range.Lamps, m.Lamps = append(m.Range.Lamps, lamp), append(m.Lamps, entry)
		}
	}
	return nil
}

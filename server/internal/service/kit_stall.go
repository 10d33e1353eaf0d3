package service

import (
	"fmt"
	"slices"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/kit"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/server/internal/wire"
)

// A stall is what one question is answered from: a market, and behind its items those that the asker has or names.
type stall struct {
	kit.Range
	entries  [kit.Kinds][]*pb.CataloguedItem // by place in the range
	snapshot *catalogue.Snapshot
	currency string
}

func newStall(s *catalogue.Snapshot, m *catalogue.Market, currency string) *stall {
	return &stall{
		Range: m.Range, snapshot: s, currency: currency,
		entries: [kit.Kinds][]*pb.CataloguedItem{kit.PumpKind: m.Pumps, kit.HoseKind: m.Hoses, kit.FilterKind: m.Filters, kit.LampKind: m.Lamps},
	}
}

// at is the item at a place; nil for −1.
func (s *stall) at(k kit.Kind, place int) *pb.CataloguedItem {
	if place < 0 {
		return nil
	}
	return s.entries[k][place]
}

// find reads a choice. The fault names the field of the choice.
func (s *stall) find(k kit.Kind, c *pb.ItemChoice) (*pb.CataloguedItem, error) {
	entry, field := &pb.CataloguedItem{Item: c.GetItem()}, "item"
	if r := c.GetReference(); r != nil {
		field = "reference"
		var found []*pb.CataloguedItem
		for _, e := range s.snapshot.Items {
			if e.GetItem().GetItemNumber() == r.GetItemNumber() && (r.GetCatalogue() == "" || r.GetCatalogue() == e.GetCatalogue()) {
				found = append(found, e)
			}
		}
		switch {
		case len(found) == 0:
			return nil, input.Error{
				Field: "reference.item_number", Problem: fmt.Sprintf("no catalogue in force has an item %q", r.GetItemNumber()),
				Change: "look the number up with ListItems, or describe the item",
			}
		case len(found) > 1:
			return nil, input.Error{
				Field: "reference.catalogue", Problem: fmt.Sprintf("%d catalogues have an item %q", len(found), r.GetItemNumber()), Change: "say which",
			}
		}
		entry = found[0]
	}
	if !is(k, entry.GetItem()) {
		return nil, input.Error{
			Field: field, Problem: fmt.Sprintf("%q is not a %s", entry.GetItem().GetItemNumber(), k), Change: fmt.Sprintf("name a %s here", k),
		}
	}
	return entry, nil
}

// is reports whether an item is of a kind.
func is(k kit.Kind, item *eq.Item) bool {
	switch k {
	case kit.PumpKind:
		return item.GetPump() != nil
	case kit.HoseKind:
		return item.GetHose() != nil
	case kit.FilterKind:
		return item.GetFilter() != nil
	default:
		return item.GetLampUnit() != nil
	}
}

// read turns an item into one of a range, as if it were owned; see kit.Range.With.
func read(k kit.Kind, item *eq.Item) (kit.Owned, error) {
	switch k {
	case kit.PumpKind:
		pump, err := wire.Pump(item.GetPump(), item.GetPrice())
		return kit.Owned{Pump: &pump}, err
	case kit.HoseKind:
		hose := wire.Hose(item.GetHose())
		return kit.Owned{Hose: &hose}, kit.TryHose(hose)
	case kit.FilterKind:
		filter := wire.Filter(item.GetFilter(), item.GetPrice())
		return kit.Owned{Filter: &filter}, kit.TryFilter(filter)
	default:
		lamp := wire.Lamp(item.GetLampUnit(), item.GetPrice())
		return kit.Owned{Lamp: &lamp}, kit.TryLamp(lamp)
	}
}

// own puts an item that is owned behind the others, and gives its place.
func (s *stall) own(k kit.Kind, c *pb.ItemChoice) (int, error) {
	entry, err := s.find(k, c)
	if err != nil {
		return 0, err
	}
	return s.put(k, entry, true)
}

// name gives the place of an item that is named, behind the others where it is not for sale in this market.
func (s *stall) name(k kit.Kind, c *pb.ItemChoice) (int, error) {
	entry, err := s.find(k, c)
	if err != nil {
		return 0, err
	}
	if place := slices.Index(s.entries[k], entry); place >= 0 {
		return place, nil
	}
	return s.put(k, entry, false)
}

// put puts an item behind the others: free of charge where it is owned, at its price where it is not.
func (s *stall) put(k kit.Kind, entry *pb.CataloguedItem, owned bool) (int, error) {
	item, err := read(k, entry.GetItem())
	if err != nil {
		return 0, err
	}
	r, keep := s.With(item)
	place := keep.Of(k)
	if !owned {
		switch k {
		case kit.PumpKind:
			r.Pumps[place].Price = item.Pump.Price
		case kit.HoseKind:
			r.Hoses[place].PricePerMetre = item.Hose.PricePerMetre
		case kit.FilterKind:
			r.Filters[place].Price = item.Filter.Price
		default:
			r.Lamps[place].Price = item.Lamp.Price
		}
	}
	s.Range = r
	s.entries[k] = append(slices.Clip(s.entries[k]), entry)
	return place, nil
}

package web

import (
	"net/url"
	"strings"

	"example.com/pondwright/clients/till/recall"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A set names items by catalogue and number, "demo/PU-1230", by their kind.
type set struct {
	Items map[string]string
	Owned map[string]bool
}

// kindNames are how the kinds are called at the counter.
var kindNames = map[string]string{
	"pump": "pump", "hose": "hose", "filter": "filter", "lamp": "lamp unit", "pump2": "second pump", "hose2": "hose of the second pump",
}

var itemKinds = map[string]eq.ItemKind{
	"pump": eq.ItemKind_ITEM_KIND_PUMP, "hose": eq.ItemKind_ITEM_KIND_HOSE,
	"filter": eq.ItemKind_ITEM_KIND_FILTER, "lamp": eq.ItemKind_ITEM_KIND_LAMP_UNIT,
	"pump2": eq.ItemKind_ITEM_KIND_PUMP, "hose2": eq.ItemKind_ITEM_KIND_HOSE,
}

// single are the kinds of a set of one pump.
var single = recall.Kinds[:4]

func setFrom(q url.Values) set {
	s := set{Items: map[string]string{}, Owned: map[string]bool{}}
	for _, kind := range recall.Kinds {
		if item := strings.TrimSpace(q.Get("set-" + kind)); item != "" && len(item) <= 200 {
			s.Items[kind] = item
			s.Owned[kind] = q.Get("own-"+kind) != ""
		}
	}
	return s
}

// put adds the set to an address.
func (s set) put(q url.Values) {
	for kind, item := range s.Items {
		q.Set("set-"+kind, item)
		if s.Owned[kind] {
			q.Set("own-"+kind, "1")
		}
	}
}

// kept is the part of the set that the customer has already, which stays whatever else is chosen.
func (s set) kept() set {
	k := set{Items: map[string]string{}, Owned: map[string]bool{}}
	for _, kind := range single {
		if s.Owned[kind] {
			k.Items[kind], k.Owned[kind] = s.Items[kind], true
		}
	}
	return k
}

// Kept lists it, for the page.
func (s set) Kept() []fact {
	var facts []fact
	for _, kind := range single {
		if item := s.kept().Items[kind]; item != "" {
			_, number, found := strings.Cut(item, "/")
			if !found {
				number = item
			}
			facts = append(facts, fact{Label: kind, Value: item, More: capital(kindNames[kind]) + " " + number})
		}
	}
	return facts
}

func reference(item string) *pb.ItemChoice {
	catalogue, number, found := strings.Cut(item, "/")
	if !found {
		catalogue, number = "", item
	}
	return &pb.ItemChoice{Choice: &pb.ItemChoice_Reference{Reference: &pb.ItemReference{Catalogue: catalogue, ItemNumber: number}}}
}

// fill puts what is owned into the brief and the rest into a chosen set.
func (s set) fill(b *pb.QuickBrief) *pb.ChosenSet {
	c := &pb.ChosenSet{}
	for kind, item := range s.Items {
		choice := reference(item)
		if s.Owned[kind] {
			if b.Owned == nil {
				b.Owned = &pb.Owned{}
			}
			switch kind {
			case "pump":
				b.Owned.Pump = choice
			case "hose":
				b.Owned.Hose = choice
			case "filter":
				b.Owned.Filter = choice
			case "lamp":
				b.Owned.LampUnit = choice
			}
			continue
		}
		switch kind {
		case "pump":
			c.Pump = choice
		case "hose":
			c.Hose = choice
		case "filter":
			c.Filter = choice
		case "lamp":
			c.LampUnit = choice
		}
	}
	switch {
	case s.Items["pump2"] != "" && s.Items["hose2"] != "":
		c.SecondPump = &pb.ChosenSecondPump{Arrangement: &pb.ChosenSecondPump_Fall{
			Fall: &pb.FallPump{Pump: reference(s.Items["pump2"]), Hose: reference(s.Items["hose2"])},
		}}
	case s.Items["pump2"] != "":
		c.SecondPump = &pb.ChosenSecondPump{Arrangement: &pb.ChosenSecondPump_SideBySide{SideBySide: true}}
	}
	return c
}

// setOf names the items of a kit.
func setOf(k *pb.Kit) set {
	s := set{Items: map[string]string{}, Owned: map[string]bool{}}
	for kind, item := range itemsOf(k) {
		if item.GetItem() != nil && item.GetCatalogue() != "" {
			s.Items[kind] = item.GetCatalogue() + "/" + item.GetItem().GetItemNumber()
		}
	}
	for _, owned := range k.GetOwned() {
		for _, kind := range single {
			if itemKinds[kind] == owned && s.Items[kind] != "" {
				s.Owned[kind] = true
			}
		}
	}
	return s
}

func itemsOf(k *pb.Kit) map[string]*pb.CataloguedItem {
	return map[string]*pb.CataloguedItem{"pump": k.GetPump(), "hose": k.GetHose(), "filter": k.GetFilter(), "lamp": k.GetLampUnit(),
		"pump2": k.GetSecondPump().GetPump(), "hose2": k.GetSecondPump().GetHose()}
}

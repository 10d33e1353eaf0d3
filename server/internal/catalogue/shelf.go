package catalogue

import (
	"slices"
	"strings"
	"time"

	"example.com/pondwright/plugins/host"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// A shelf is one catalogue as it was read, made ready to answer from. It is never written to after it was made, and goes from
// one snapshot to the next until its catalogue is read again.
type shelf struct {
	name        string
	description *cataloguev1.DescribeResponse
	items       []*pb.CataloguedItem // by number
	byNumber    map[string]*pb.CataloguedItem
	offers      Market
	out         quarantine
	words       index
	readAt      time.Time
}

// newShelf freezes a reading. An item that passed the checks of the contract and still cannot be calculated with joins the
// quarantine.
func newShelf(name string, read *host.Catalogue, readAt time.Time) *shelf {
	s := &shelf{name: name, description: read.Description, byNumber: make(map[string]*pb.CataloguedItem, len(read.Items)), readAt: readAt}
	for _, q := range read.Quarantined {
		s.out.add(name, q.ItemNumber, reasons(q.Problems)...)
	}
	for _, item := range read.Items {
		entry := &pb.CataloguedItem{Catalogue: name, Item: item}
		if err := s.offers.add(entry); err != nil {
			s.out.add(name, item.GetItemNumber(), err.Error())
			continue
		}
		s.items = append(s.items, entry)
		s.byNumber[item.GetItemNumber()] = entry
	}
	slices.SortFunc(s.items, func(a, b *pb.CataloguedItem) int {
		return strings.Compare(a.GetItem().GetItemNumber(), b.GetItem().GetItemNumber())
	})
	s.words = newIndex(s.items)
	return s
}

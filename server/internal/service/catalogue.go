package service

import (
	"context"
	"slices"
	"strings"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"example.com/pondwright/plugins/contract"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/server/internal/intercept"
	"example.com/pondwright/server/internal/wire"
)

const (
	defaultPage  = 100
	defaultFound = 20
)

type catalogues struct {
	pb.UnimplementedCatalogueServiceServer
	engine *Engine
}

// ListItems pages by the last item sent, so that a page turned over a reload neither repeats nor skips what both hold.
func (s catalogues) ListItems(_ context.Context, req *pb.ListItemsRequest) (*pb.ListItemsResponse, error) {
	after, err := readToken(req.GetPageToken(), 2)
	if err != nil {
		return nil, err
	}
	snapshot := s.engine.Store.Snapshot()
	keeps := itemFilter{snapshot: snapshot, kind: req.GetKind(), catalogue: req.GetCatalogue(), limits: req.GetLimits()}
	items := snapshot.Items
	if after != nil {
		items = items[snapshot.After(after[0], after[1]):]
	}
	resp := &pb.ListItemsResponse{}
	size := pageSize(req.GetPageSize(), defaultPage)
	for _, entry := range items {
		if !keeps.item(entry) {
			continue
		}
		if len(resp.Items) == size {
			last := resp.Items[size-1]
			resp.NextPageToken = token(last.GetCatalogue(), last.GetItem().GetItemNumber())
			break
		}
		resp.Items = append(resp.Items, entry)
	}
	return resp, nil
}

func (s catalogues) GetItem(_ context.Context, req *pb.GetItemRequest) (*pb.GetItemResponse, error) {
	snapshot := s.engine.Store.Snapshot()
	entry, fault := s.find(snapshot, req.GetCatalogue(), req.GetItemNumber())
	if fault != nil {
		return nil, notFound(fault)
	}
	name := entry.GetCatalogue()
	resp := &pb.GetItemResponse{Item: entry, Currency: snapshot.Currency(name), Age: wire.CatalogueAge(snapshot.ReadAt(name), time.Now())}
	revisions := snapshot.Revisions()
	if at := slices.IndexFunc(revisions, func(r *pb.CatalogueRevision) bool { return r.GetCatalogue() == name }); at >= 0 {
		resp.Revision = revisions[at]
	}
	return resp, nil
}

// SearchItems pages by the last item sent, as ListItems does.
func (s catalogues) SearchItems(_ context.Context, req *pb.SearchItemsRequest) (*pb.SearchItemsResponse, error) {
	after, err := readToken(req.GetPageToken(), 3)
	if err != nil {
		return nil, err
	}
	if !catalogue.HasWords(req.GetWords()) {
		return nil, intercept.BadRequest([]*errdetails.BadRequest_FieldViolation{{
			Field: "words", Description: "holds neither a letter nor a digit to search by", Reason: "NO_WORDS",
		}})
	}
	snapshot := s.engine.Store.Snapshot()
	keeps := itemFilter{snapshot: snapshot, kind: req.GetKind(), limits: req.GetLimits()}
	hits := slices.DeleteFunc(snapshot.Search(req.GetWords(), req.GetCatalogue()), func(h catalogue.Hit) bool { return !keeps.item(h.Item) })
	resp := &pb.SearchItemsResponse{Found: int32(len(hits))}
	if after != nil {
		from, err := snapshot.Beyond(hits, after[0], after[1], after[2])
		if err != nil {
			return nil, badToken()
		}
		hits = hits[from:]
	}
	size := pageSize(req.GetPageSize(), defaultFound)
	for _, h := range hits[:min(size, len(hits))] {
		resp.Items = append(resp.Items, h.Item)
	}
	if len(hits) > size {
		last := hits[size-1]
		resp.NextPageToken = token(last.Rank(), last.Item.GetCatalogue(), last.Item.GetItem().GetItemNumber())
	}
	return resp, nil
}

// find finds an item by its number, in the catalogue named or in the only one that has it, or says what is wrong with the
// question.
func (s catalogues) find(snapshot *catalogue.Snapshot, name, number string) (*pb.CataloguedItem, *errdetails.BadRequest_FieldViolation) {
	refuse := func(field, text, reason string) *errdetails.BadRequest_FieldViolation {
		return &errdetails.BadRequest_FieldViolation{Field: field, Description: text, Reason: reason}
	}
	if names := s.engine.Store.Names(); name != "" && !slices.Contains(names, name) {
		return nil, unknown("catalogue", names)
	}
	holders := snapshot.Holders(name, number)
	switch len(holders) {
	case 0:
		return nil, refuse("item_number", "no catalogue in force has it: search for it, and look among the quarantined", "UNKNOWN_ITEM")
	case 1:
		return holders[0], nil
	}
	var in []string
	for _, h := range holders {
		in = append(in, h.GetCatalogue())
	}
	return nil, refuse("catalogue", "several catalogues have an item of that number: say which of "+strings.Join(in, ", "), "AMBIGUOUS_ITEM")
}

// notFound is the error of a question for one item that is not there; of one that is not clear it is that of a bad request.
func notFound(fault *errdetails.BadRequest_FieldViolation) error {
	err := intercept.BadRequest([]*errdetails.BadRequest_FieldViolation{fault})
	if fault.GetReason() != "UNKNOWN_ITEM" {
		return err
	}
	p := status.Convert(err).Proto()
	p.Code = int32(codes.NotFound)
	return status.FromProto(p).Err()
}

func unknownCatalogue(names []string) string {
	if len(names) == 0 {
		return "is not configured, and neither is any other"
	}
	return "is not configured: it can be " + strings.Join(names, ", ")
}

// An itemFilter is what an item has to be to be listed.
type itemFilter struct {
	snapshot  *catalogue.Snapshot
	kind      eq.ItemKind
	catalogue string
	limits    *pb.ItemLimits
}

func (f itemFilter) item(entry *pb.CataloguedItem) bool {
	if f.catalogue != "" && f.catalogue != entry.GetCatalogue() {
		return false
	}
	if f.kind != eq.ItemKind_ITEM_KIND_UNSPECIFIED && f.kind != contract.KindOf(entry.GetItem()) {
		return false
	}
	return f.limits == nil || f.within(entry)
}

func (f itemFilter) within(entry *pb.CataloguedItem) bool {
	l, item := f.limits, entry.GetItem()
	if l.GetCurrency() != "" && l.GetCurrency() != f.snapshot.Currency(entry.GetCatalogue()) {
		return false
	}
	if l.PriceFrom != nil || l.PriceTo != nil {
		if !between(wire.UnitPrice(item), l.PriceFrom, l.PriceTo) {
			return false
		}
	}
	if l.BoreFromMm != nil || l.BoreToMm != nil {
		if !between(wire.BoreMM(item), l.BoreFromMm, l.BoreToMm) {
			return false
		}
	}
	if l.CarriesFlowLPerH != nil {
		if most := wire.MostFlowLPerH(item); most == nil || *most < l.GetCarriesFlowLPerH() {
			return false
		}
	}
	return !l.GetInStock() || wire.StockOf(item.InStock) == pb.StockState_STOCK_STATE_IN_STOCK
}

// between says whether a value is known and keeps to the limits that are set.
func between(value, from, to *float64) bool {
	return value != nil && (from == nil || *value >= *from) && (to == nil || *value <= *to)
}

package service

import (
	"context"
	"encoding/base64"
	"strings"

	"google.golang.org/genproto/googleapis/rpc/errdetails"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/intercept"
)

const defaultPage = 100

type catalogues struct {
	pb.UnimplementedCatalogueServiceServer
	engine *Engine
}

func (s catalogues) ListCatalogues(context.Context, *pb.ListCataloguesRequest) (*pb.ListCataloguesResponse, error) {
	return &pb.ListCataloguesResponse{Catalogues: s.engine.Store.Snapshot().Catalogues}, nil
}

// ListItems pages by the last item sent, so that a page turned over a reload neither repeats nor skips what both hold.
func (s catalogues) ListItems(_ context.Context, req *pb.ListItemsRequest) (*pb.ListItemsResponse, error) {
	after, err := readToken(req.GetPageToken())
	if err != nil {
		return nil, err
	}
	size := int(req.GetPageSize())
	if size == 0 {
		size = defaultPage
	}
	resp := &pb.ListItemsResponse{}
	for _, entry := range s.engine.Store.Snapshot().Items {
		if !matches(req, entry) || key(entry) <= after {
			continue
		}
		if len(resp.Items) == size {
			resp.NextPageToken = base64.RawURLEncoding.EncodeToString([]byte(key(resp.Items[size-1])))
			break
		}
		resp.Items = append(resp.Items, entry)
	}
	return resp, nil
}

func matches(req *pb.ListItemsRequest, entry *pb.CataloguedItem) bool {
	return (req.GetCatalogue() == "" || req.GetCatalogue() == entry.GetCatalogue()) &&
		(req.GetKind() == eq.ItemKind_ITEM_KIND_UNSPECIFIED || req.GetKind() == kindOf(entry.GetItem()))
}

func kindOf(item *eq.Item) eq.ItemKind {
	switch item.GetKind().(type) {
	case *eq.Item_Pump:
		return eq.ItemKind_ITEM_KIND_PUMP
	case *eq.Item_Filter:
		return eq.ItemKind_ITEM_KIND_FILTER
	case *eq.Item_LampUnit:
		return eq.ItemKind_ITEM_KIND_LAMP_UNIT
	case *eq.Item_Hose:
		return eq.ItemKind_ITEM_KIND_HOSE
	case *eq.Item_Liner:
		return eq.ItemKind_ITEM_KIND_LINER
	default:
		return eq.ItemKind_ITEM_KIND_UNSPECIFIED
	}
}

// key orders items as the snapshot does. Neither part can hold a control character.
func key(entry *pb.CataloguedItem) string {
	return entry.GetCatalogue() + "\x00" + entry.GetItem().GetItemNumber()
}

func readToken(token string) (string, error) {
	if token == "" {
		return "", nil
	}
	text, err := base64.RawURLEncoding.DecodeString(token)
	if err != nil || !strings.Contains(string(text), "\x00") {
		return "", intercept.BadRequest([]*errdetails.BadRequest_FieldViolation{{
			Field: "page_token", Description: "is not a token of this engine; send the next_page_token of the page before, or none",
			Reason: "PAGE_TOKEN",
		}})
	}
	return string(text), nil
}

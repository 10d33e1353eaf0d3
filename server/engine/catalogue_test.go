package engine_test

import (
	"bytes"
	"log/slog"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/catalogue"
)

// twoShops is an engine with the demo catalogue twice, under two names and priorities.
func twoShops(t *testing.T, first, second int) (pb.CatalogueServiceClient, pb.KitServiceClient) {
	t.Helper()
	var sources []catalogue.Source
	for name, priority := range map[string]int{"north": first, "south": second} {
		s, err := catalogue.CSV(name, "../../testdata/catalogues/demo")
		require.NoError(t, err)
		s.Priority = priority
		sources = append(sources, s)
	}
	_, conn := serve(t, engine.Config{Logger: slog.New(slog.DiscardHandler), Catalogues: sources})
	return pb.NewCatalogueServiceClient(conn), pb.NewKitServiceClient(conn)
}

// Of two merchants with the same items at the same price the preferred one gets the sale, and the calculation is the same.
func TestOfEqualOffersThePreferredCatalogueWins(t *testing.T) {
	var answers []*pb.SuggestKitsResponse
	for want, priority := range map[string][2]int{"north": {5, 1}, "south": {1, 5}} {
		_, kits := twoShops(t, priority[0], priority[1])
		resp, err := kits.SuggestKits(t.Context(), &pb.SuggestKitsRequest{Brief: brief(), MaxKits: 5})
		require.NoError(t, err)
		require.NotEmpty(t, resp.GetKits())
		for _, k := range resp.GetKits() {
			for _, item := range []*pb.CataloguedItem{k.GetPump(), k.GetHose(), k.GetFilter(), k.GetLampUnit()} {
				if item != nil {
					assert.Equal(t, want, item.GetCatalogue())
				}
			}
		}
		answers = append(answers, resp)
	}
	require.Equal(t, len(answers[0].GetKits()), len(answers[1].GetKits()))
	for i, k := range answers[0].GetKits() {
		other := answers[1].GetKits()[i]
		assert.Equal(t, k.GetPump().GetItem().GetItemNumber(), other.GetPump().GetItem().GetItemNumber())
		assert.True(t, proto.Equal(k.GetCost(), other.GetCost()))
	}
}

func TestGetItemByCatalogueAndNumber(t *testing.T) {
	client, _ := twoShops(t, 0, 0)
	got, err := client.GetItem(t.Context(), &pb.GetItemRequest{Catalogue: "south", ItemNumber: "PU-1230"})
	require.NoError(t, err)
	assert.Equal(t, "south", got.GetItem().GetCatalogue())
	assert.Equal(t, "PU-1230", got.GetItem().GetItem().GetItemNumber())
	assert.Equal(t, "GBP", got.GetCurrency())
	assert.Equal(t, "south", got.GetRevision().GetCatalogue())
	assert.Contains(t, got.GetRevision().GetNotice(), "nvented")
	assert.WithinDuration(t, time.Now(), got.GetAge().GetReadTime().AsTime(), time.Minute)

	_, err = client.GetItem(t.Context(), &pb.GetItemRequest{ItemNumber: "PU-1230"})
	assert.Equal(t, []string{"catalogue"}, fields(t, err))
	assert.ErrorContains(t, err, "north, south")
	_, err = client.GetItem(t.Context(), &pb.GetItemRequest{Catalogue: "south", ItemNumber: "none"})
	assert.Equal(t, codes.NotFound, status.Code(err))
	_, err = client.GetItem(t.Context(), &pb.GetItemRequest{Catalogue: "east", ItemNumber: "PU-1230"})
	assert.Equal(t, []string{"catalogue"}, fields(t, err))
}

func TestItemsAreListedWithinLimits(t *testing.T) {
	client, _ := twoShops(t, 0, 0)
	list := func(req *pb.ListItemsRequest) []*pb.CataloguedItem {
		t.Helper()
		req.PageSize = 1000
		resp, err := client.ListItems(t.Context(), req)
		require.NoError(t, err)
		require.Empty(t, resp.GetNextPageToken())
		return resp.GetItems()
	}
	all := list(&pb.ListItemsRequest{})
	for name, c := range map[string]struct {
		limits *pb.ItemLimits
		keeps  func(item *eq.Item) bool
	}{
		"price": {&pb.ItemLimits{PriceFrom: proto.Float64(50), PriceTo: proto.Float64(120)}, func(i *eq.Item) bool {
			p := i.GetPrice()
			switch k := i.GetKind().(type) {
			case *eq.Item_Hose:
				p = k.Hose.GetPricePerM()
			case *eq.Item_Liner:
				p = k.Liner.GetPricePerM2()
			case *eq.Item_Medium:
				p = k.Medium.GetPricePerL()
			}
			return p >= 50 && p <= 120
		}},
		"bore": {&pb.ItemLimits{BoreFromMm: proto.Float64(30), BoreToMm: proto.Float64(50)}, func(i *eq.Item) bool {
			bore := i.GetHose().GetBoreMm() + i.GetFitting().GetBoreMm() + i.GetPump().GetOutletBoreMm()
			return bore >= 30 && bore <= 50
		}},
		"flow": {&pb.ItemLimits{CarriesFlowLPerH: proto.Float64(8000)}, func(i *eq.Item) bool {
			most := i.GetFilter().GetMaxFlowLPerH() + i.GetLampUnit().GetMaxFlowLPerH()
			if c := i.GetPump().GetCurve(); len(c) > 0 {
				most = c[len(c)-1].GetFlowLPerH()
			}
			return most >= 8000
		}},
		"currency": {&pb.ItemLimits{Currency: "GBP"}, func(*eq.Item) bool { return true }},
		"another":  {&pb.ItemLimits{Currency: "EUR"}, func(*eq.Item) bool { return false }},
		"in stock": {&pb.ItemLimits{InStock: true}, func(i *eq.Item) bool { return i.GetInStock() > 0 }},
	} {
		t.Run(name, func(t *testing.T) {
			var want []string
			for _, entry := range all {
				if c.keeps(entry.GetItem()) {
					want = append(want, entry.GetCatalogue()+"/"+entry.GetItem().GetItemNumber())
				}
			}
			var got []string
			for _, entry := range list(&pb.ListItemsRequest{Limits: c.limits}) {
				got = append(got, entry.GetCatalogue()+"/"+entry.GetItem().GetItemNumber())
			}
			assert.Equal(t, want, got)
			if name == "price" || name == "bore" || name == "flow" {
				assert.NotEmpty(t, got)
				assert.Less(t, len(got), len(all))
			}
		})
	}
	for _, entry := range list(&pb.ListItemsRequest{Catalogue: "south", Kind: eq.ItemKind_ITEM_KIND_HOSE}) {
		assert.Equal(t, "south", entry.GetCatalogue())
		assert.NotNil(t, entry.GetItem().GetHose())
	}
	_, err := client.ListItems(t.Context(), &pb.ListItemsRequest{Limits: &pb.ItemLimits{
		PriceFrom: proto.Float64(2), PriceTo: proto.Float64(1), BoreFromMm: proto.Float64(2), BoreToMm: proto.Float64(1), Currency: "pounds",
	}})
	assert.ErrorContains(t, err, "price_from must not be greater than price_to")
	assert.ErrorContains(t, err, "bore_from_mm must not be greater than bore_to_mm")
	assert.ErrorContains(t, err, "limits.currency")
}

// Pages of a search hold together what one long page holds, in the same order.
func TestSearchIsPaged(t *testing.T) {
	client, _ := twoShops(t, 0, 3)
	whole, err := client.SearchItems(t.Context(), &pb.SearchItemsRequest{Words: "pump", PageSize: 200})
	require.NoError(t, err)
	require.Greater(t, len(whole.GetItems()), 30)
	require.Empty(t, whole.GetNextPageToken())
	assert.EqualValues(t, len(whole.GetItems()), whole.GetFound())
	assert.Equal(t, "south", whole.GetItems()[0].GetCatalogue(), "the preferred first")
	req := &pb.SearchItemsRequest{Words: "pump", PageSize: 7}
	var paged []*pb.CataloguedItem
	for first := true; first || req.GetPageToken() != ""; first = false {
		page, err := client.SearchItems(t.Context(), req)
		require.NoError(t, err)
		assert.Equal(t, whole.GetFound(), page.GetFound())
		paged, req.PageToken = append(paged, page.GetItems()...), page.GetNextPageToken()
	}
	require.Len(t, paged, len(whole.GetItems()))
	for i, entry := range paged {
		assert.True(t, proto.Equal(whole.GetItems()[i], entry))
	}
	cheap, err := client.SearchItems(t.Context(), &pb.SearchItemsRequest{
		Words: "pump", Kind: eq.ItemKind_ITEM_KIND_PUMP, Catalogue: "north", Limits: &pb.ItemLimits{PriceTo: proto.Float64(60)},
	})
	require.NoError(t, err)
	require.NotEmpty(t, cheap.GetItems())
	for _, entry := range cheap.GetItems() {
		assert.Equal(t, "north", entry.GetCatalogue())
		assert.LessOrEqual(t, entry.GetItem().GetPrice(), 60.0)
	}
	_, err = client.SearchItems(t.Context(), &pb.SearchItemsRequest{Words: "..."})
	assert.Equal(t, []string{"words"}, fields(t, err))
	_, err = client.SearchItems(t.Context(), &pb.SearchItemsRequest{Words: "pump", PageToken: "bm90aGluZw"})
	assert.Equal(t, []string{"page_token"}, fields(t, err))
}

func TestQuarantinedItemsArePaged(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "shop")
	require.NoError(t, os.CopyFS(dir, os.DirFS("../../testdata/catalogues/demo")))
	hoses, err := os.ReadFile(filepath.Join(dir, "hoses.csv"))
	require.NoError(t, err)
	rows := strings.Split(strings.TrimSpace(string(hoses)), "\n")
	for i := range rows[1:] {
		rows[i+1] = strings.ReplaceAll(strings.ReplaceAll(rows[i+1], "smooth", "slippery"), "corrugated", "slippery")
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "hoses.csv"), []byte(strings.Join(rows, "\n")), 0o600))
	var sources []catalogue.Source
	for _, name := range []string{"one", "two"} {
		s, err := catalogue.CSV(name, dir)
		require.NoError(t, err)
		sources = append(sources, s)
	}
	_, conn := serve(t, engine.Config{Logger: slog.New(slog.DiscardHandler), Catalogues: sources})
	client := pb.NewCatalogueServiceClient(conn)
	bad := len(rows) - 1
	require.Greater(t, bad, 5)

	req := &pb.ListQuarantinedRequest{PageSize: 4}
	var got []string
	for first := true; first || req.GetPageToken() != ""; first = false {
		page, err := client.ListQuarantined(t.Context(), req)
		require.NoError(t, err)
		assert.EqualValues(t, 2*bad, page.GetQuarantinedCount())
		for _, item := range page.GetItems() {
			got = append(got, item.GetCatalogue()+"/"+item.GetItemNumber())
			assert.Contains(t, item.GetReasons()[0], "column wall")
		}
		req.PageToken = page.GetNextPageToken()
	}
	require.Len(t, got, 2*bad)
	assert.Len(t, slices.Compact(slices.Sorted(slices.Values(got))), 2*bad)
	assert.True(t, slices.IsSortedFunc(got, func(a, b string) int { return strings.Compare(a[:3], b[:3]) }))

	two, err := client.ListQuarantined(t.Context(), &pb.ListQuarantinedRequest{Catalogue: "two"})
	require.NoError(t, err)
	assert.Len(t, two.GetItems(), bad)
	_, err = client.ListQuarantined(t.Context(), &pb.ListQuarantinedRequest{Catalogue: "three"})
	assert.Equal(t, []string{"catalogue"}, fields(t, err))
}

// What is handed out can be filled in and read: the headings of the CSV files make a catalogue without items once the catalogue
// itself has its row, and the workbook has a sheet for each file.
func TestTemplatesCanBeFilledIn(t *testing.T) {
	client, _ := twoShops(t, 0, 0)
	files, err := client.GetTemplates(t.Context(), &pb.GetTemplatesRequest{})
	require.NoError(t, err)
	dir := t.TempDir()
	var tables []string
	for _, f := range files.GetFiles() {
		content := f.GetContent()
		if f.GetName() == "catalogue.csv" {
			content = append(slices.Clone(content), "My range,EUR,\n"...)
		}
		if table, ok := strings.CutSuffix(f.GetName(), ".csv"); ok {
			tables = append(tables, table)
			assert.Equal(t, "text/csv; charset=utf-8", f.GetMediaType())
		}
		require.NoError(t, os.WriteFile(filepath.Join(dir, f.GetName()), content, 0o600))
	}
	require.Contains(t, tables, "pumps")
	source, err := catalogue.CSV("mine", dir)
	require.NoError(t, err)
	_, conn := serve(t, engine.Config{Logger: slog.New(slog.DiscardHandler), Catalogues: []catalogue.Source{source}})
	read, err := pb.NewCatalogueServiceClient(conn).ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	require.NoError(t, err)
	assert.Empty(t, read.GetCatalogues()[0].GetFault())
	assert.Equal(t, "My range", read.GetCatalogues()[0].GetTitle())

	book, err := client.GetTemplates(t.Context(), &pb.GetTemplatesRequest{Form: pb.TemplateForm_TEMPLATE_FORM_WORKBOOK})
	require.NoError(t, err)
	require.Len(t, book.GetFiles(), 2, "the guide and the workbook")
	opened, err := excelize.OpenReader(bytes.NewReader(book.GetFiles()[1].GetContent()))
	require.NoError(t, err)
	sheets := opened.GetSheetList()
	for _, table := range tables {
		assert.Contains(t, sheets, table)
	}
}

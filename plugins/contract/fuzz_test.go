package contract_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Whatever bytes a plugin sends as an item, checking it does not panic, every complaint has words, and an item that passes has
// a kind, a number of its own and no number that is none.
func FuzzItem(f *testing.F) {
	for _, item := range good() {
		content, err := proto.Marshal(item)
		require.NoError(f, err)
		f.Add(content)
	}
	f.Add([]byte("\x0a\x01A\x12\x01B\xa2\x06\x00")) // a kind that is not known, field 100
	c := newChecker(f)
	f.Fuzz(func(t *testing.T, content []byte) {
		item := &equipmentv1.Item{}
		if proto.Unmarshal(content, item) != nil {
			t.Skip()
		}
		problems := c.Check(item)
		for _, p := range problems {
			require.NotEmpty(t, p.Reason)
		}
		if len(problems) > 0 {
			return
		}
		require.NotNil(t, item.GetKind())
		require.NotEmpty(t, item.GetItemNumber())
		eachDouble(item.ProtoReflect(), "", func(m protoreflect.Message, field protoreflect.FieldDescriptor, path string) {
			if x := m.Get(field).Float(); math.IsNaN(x) || math.IsInf(x, 0) {
				t.Fatalf("%s is %g and passes", path, x)
			}
		})
	})
}

// Whatever bytes a plugin sends as live answers, an answer that passes tells of items that were asked for, each once and within
// bounds.
func FuzzLiveAnswers(f *testing.F) {
	asked := []string{"A", "B"}
	for _, m := range []proto.Message{
		&cataloguev1.CheckStockResponse{Levels: []*cataloguev1.StockLevel{{ItemNumber: "A", OnHand: proto.Int32(3), MoreOnDate: proto.String("2027-03-01")}}},
		&cataloguev1.QuotePricesResponse{Quotes: []*cataloguev1.PriceQuote{{ItemNumber: "B", Price: proto.Float64(1), ValidUntil: proto.String("2027-03-01T17:00:00Z")}}},
	} {
		content, err := proto.Marshal(m)
		require.NoError(f, err)
		f.Add(content)
	}
	c := newChecker(f)
	f.Fuzz(func(t *testing.T, content []byte) {
		var stock cataloguev1.CheckStockResponse
		if proto.Unmarshal(content, &stock) == nil && len(c.CheckStock(asked, stock.GetLevels())) == 0 {
			require.LessOrEqual(t, len(stock.GetLevels()), len(asked))
			for _, level := range stock.GetLevels() {
				require.Contains(t, asked, level.GetItemNumber())
				require.GreaterOrEqual(t, level.GetOnHand(), int32(0))
			}
		}
		var prices cataloguev1.QuotePricesResponse
		if proto.Unmarshal(content, &prices) == nil && len(c.CheckPrices(asked, prices.GetQuotes())) == 0 {
			require.LessOrEqual(t, len(prices.GetQuotes()), len(asked))
			for _, quote := range prices.GetQuotes() {
				require.Contains(t, asked, quote.GetItemNumber())
				require.NotNil(t, quote.Price)
				require.GreaterOrEqual(t, quote.GetPrice(), 0.0)
			}
		}
	})
}

package contract_test

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// counter answers both live questions, and counts the calls.
type counter struct {
	stock
	asked []int
	err   error
}

func (c *counter) Stock(_ context.Context, numbers []string) ([]*cataloguev1.StockLevel, error) {
	c.asked = append(c.asked, len(numbers))
	var levels []*cataloguev1.StockLevel
	for _, number := range numbers {
		levels = append(levels, &cataloguev1.StockLevel{ItemNumber: number, OnHand: proto.Int32(0), MoreOnDate: proto.String("2027-03-01")})
	}
	return levels, c.err
}

func (c *counter) Prices(_ context.Context, customer string, numbers []string) ([]*cataloguev1.PriceQuote, error) {
	if customer == "nobody" {
		return nil, status.Error(codes.NotFound, "no customer nobody")
	}
	return []*cataloguev1.PriceQuote{{ItemNumber: numbers[0], Price: proto.Float64(75), ValidUntil: proto.String("2027-03-01T17:00:00Z")}}, c.err
}

func TestLiveQuestionsTravel(t *testing.T) {
	c := contract.NewClient(serve(t, &counter{}))
	d, err := c.Describe(t.Context())
	require.NoError(t, err)
	assert.True(t, contract.Can(d, cataloguev1.Capability_CAPABILITY_LIVE_STOCK), "claimed for the author by the methods there are")
	assert.True(t, contract.Can(d, cataloguev1.Capability_CAPABILITY_LIVE_PRICE))
	levels, err := c.Stock(t.Context(), []string{"A", "B"})
	require.NoError(t, err)
	require.Len(t, levels, 2)
	require.NotNil(t, levels[1].OnHand, "none on hand is not the same as not known")
	assert.Zero(t, levels[1].GetOnHand())
	quotes, err := c.Prices(t.Context(), "C-7", []string{"A"})
	require.NoError(t, err)
	require.Len(t, quotes, 1)
	assert.Equal(t, 75.0, quotes[0].GetPrice())
	_, err = c.Prices(t.Context(), "nobody", []string{"A"})
	assert.Equal(t, codes.NotFound, status.Code(err))
}

func TestCatalogueWithoutLiveAnswersSaysSo(t *testing.T) {
	c := contract.NewClient(serve(t, stock{}))
	d, err := c.Describe(t.Context())
	require.NoError(t, err)
	assert.Empty(t, d.GetCapabilities())
	_, err = c.Stock(t.Context(), []string{"A"})
	assert.Equal(t, codes.Unimplemented, status.Code(err))
	_, err = c.Prices(t.Context(), "", []string{"A"})
	assert.Equal(t, codes.Unimplemented, status.Code(err))
}

func TestManyItemsAreAskedForInSeveralCalls(t *testing.T) {
	asked := &counter{}
	conn := serve(t, asked)
	var numbers []string
	for i := range 1201 {
		numbers = append(numbers, fmt.Sprint(i))
	}
	levels, err := contract.NewClient(conn).Stock(t.Context(), numbers)
	require.NoError(t, err)
	assert.Len(t, levels, 1201)
	assert.Equal(t, []int{500, 500, 201}, asked.asked)

	service := cataloguev1.NewMerchantCatalogueServiceClient(conn)
	for _, some := range [][]string{nil, numbers[:501]} {
		_, err := service.CheckStock(t.Context(), &cataloguev1.CheckStockRequest{ItemNumbers: some})
		assert.Equal(t, codes.InvalidArgument, status.Code(err))
		_, err = service.QuotePrices(t.Context(), &cataloguev1.QuotePricesRequest{ItemNumbers: some})
		assert.Equal(t, codes.InvalidArgument, status.Code(err))
	}
}

func TestErrorOfALiveAnswerKeepsItsMeaning(t *testing.T) {
	c := contract.NewClient(serve(t, &counter{err: errors.New("the stock system is being restored")}))
	_, err := c.Stock(t.Context(), []string{"A"})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
	assert.ErrorContains(t, err, "the stock system is being restored")
	_, err = c.Prices(t.Context(), "", []string{"A"})
	assert.Equal(t, codes.FailedPrecondition, status.Code(err))
}

func TestLiveAnswersAreChecked(t *testing.T) {
	c := newChecker(t)
	asked := []string{"A", "B"}
	for says, level := range map[string]*cataloguev1.StockLevel{
		"levels[1].on_hand: must be greater than or equal to 0":       {ItemNumber: "B", OnHand: proto.Int32(-1)},
		`levels[1].item_number: "A" is there twice`:                   {ItemNumber: "A"},
		`levels[1].item_number: "X" was not asked for`:                {ItemNumber: "X"},
		"levels[1].item_number: must be at least 1":                   {},
		"levels[1].more_on_date: does not match":                      {ItemNumber: "B", MoreOnDate: proto.String("next week")},
		`levels[1].more_on_date: "2027-02-30" is not a day, as 2027-`: {ItemNumber: "B", MoreOnDate: proto.String("2027-02-30")},
	} {
		problems := c.CheckStock(asked, []*cataloguev1.StockLevel{{ItemNumber: "A", OnHand: proto.Int32(3)}, level})
		assert.Len(t, problems, 1, says)
		assert.True(t, slices.ContainsFunc(problems, func(p contract.Problem) bool { return strings.HasPrefix(p.String(), says) }), "%s: %v", says, problems)
	}
	for says, quote := range map[string]*cataloguev1.PriceQuote{
		"quotes[0].price: value is required":                                     {ItemNumber: "A"},
		"quotes[0].price: must be greater than or equal to 0":                    {ItemNumber: "A", Price: proto.Float64(-5)},
		`quotes[0].valid_until: "2027-02-30T00:00:00Z" is not a moment in UTC, `: {ItemNumber: "A", Price: proto.Float64(5), ValidUntil: proto.String("2027-02-30T00:00:00Z")},
		"quotes[0].valid_until: does not match":                                  {ItemNumber: "A", Price: proto.Float64(5), ValidUntil: proto.String("2027-02-03")},
	} {
		problems := c.CheckPrices(asked, []*cataloguev1.PriceQuote{quote})
		assert.Len(t, problems, 1, says)
		assert.True(t, slices.ContainsFunc(problems, func(p contract.Problem) bool { return strings.HasPrefix(p.String(), says) }), "%s: %v", says, problems)
	}
	assert.Empty(t, c.CheckPrices(asked, []*cataloguev1.PriceQuote{{ItemNumber: "B", Price: proto.Float64(0)}}))
	assert.Empty(t, c.CheckStock(asked, nil))
}

// What comes later than this engine does it no harm: a live question that it does not know is passed over, and of an item only
// the kind that it does not know is left out.
func TestWhatIsNewerThanTheEngine(t *testing.T) {
	c := newChecker(t)
	assert.Empty(t, c.CheckDescription(&cataloguev1.DescribeResponse{
		Title: "Range (invented)", Revision: "1", Currency: "EUR", Kinds: []equipmentv1.ItemKind{99}, Capabilities: []cataloguev1.Capability{99},
	}))
	var item equipmentv1.Item
	require.NoError(t, proto.Unmarshal([]byte("\x0a\x01A\x12\x01B\xa2\x06\x00"), &item)) // its kind is field 100
	problems := c.Check(&item)
	require.Len(t, problems, 1)
	assert.Equal(t, "kind: none given, or one newer than this engine", problems[0].String())
}

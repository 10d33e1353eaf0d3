package contract

import (
	"context"
	"fmt"
	"slices"
	"time"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
)

// StockKeeper is a Catalogue that can say at any moment what is on hand. It is asked from many goroutines at once.
type StockKeeper interface {
	// Stock says how many there are of items, by their numbers, in any order. One that it does not know is left out.
	Stock(ctx context.Context, itemNumbers []string) ([]*cataloguev1.StockLevel, error)
}

// Pricer is a Catalogue that can say at any moment what an item costs a customer. It is asked from many goroutines at once.
type Pricer interface {
	// Prices says what items cost, in the currency of the catalogue and in any order. One that it does not know or has no
	// price for is left out. No customer number asks for the price anyone pays; a status of codes.NotFound says that there is
	// no such customer.
	Prices(ctx context.Context, customerNumber string, itemNumbers []string) ([]*cataloguev1.PriceQuote, error)
}

// Remote is a catalogue at the other end of a connection. What it is not able to answer comes back as codes.Unimplemented.
type Remote interface {
	Catalogue
	StockKeeper
	Pricer
}

// Can says whether a catalogue claims a live question in its description.
func Can(d *cataloguev1.DescribeResponse, c cataloguev1.Capability) bool {
	return slices.Contains(d.GetCapabilities(), c)
}

// MostAsked bounds the items of one live question, as the proto does. A Remote asks for more in several calls.
const MostAsked = 500

// capabilities are the live questions that a catalogue answers, by the methods it has.
func capabilities(c Catalogue) []cataloguev1.Capability {
	var able []cataloguev1.Capability
	if _, ok := c.(StockKeeper); ok {
		able = append(able, cataloguev1.Capability_CAPABILITY_LIVE_STOCK)
	}
	if _, ok := c.(Pricer); ok {
		able = append(able, cataloguev1.Capability_CAPABILITY_LIVE_PRICE)
	}
	return able
}

// CheckStock implements the service.
func (s *server) CheckStock(ctx context.Context, req *cataloguev1.CheckStockRequest) (*cataloguev1.CheckStockResponse, error) {
	keeper, ok := s.catalogue.(StockKeeper)
	if !ok {
		return nil, status.Error(codes.Unimplemented, "this catalogue does not say what is on hand: see capabilities in Describe")
	}
	if err := askable(req.GetItemNumbers()); err != nil {
		return nil, err
	}
	levels, err := keeper.Stock(ctx, req.GetItemNumbers())
	if err != nil {
		return nil, wireError(err)
	}
	return &cataloguev1.CheckStockResponse{Levels: levels}, nil
}

// QuotePrices implements the service.
func (s *server) QuotePrices(ctx context.Context, req *cataloguev1.QuotePricesRequest) (*cataloguev1.QuotePricesResponse, error) {
	pricer, ok := s.catalogue.(Pricer)
	if !ok {
		return nil, status.Error(codes.Unimplemented, "this catalogue does not quote prices: see capabilities in Describe")
	}
	if err := askable(req.GetItemNumbers()); err != nil {
		return nil, err
	}
	quotes, err := pricer.Prices(ctx, req.GetCustomerNumber(), req.GetItemNumbers())
	if err != nil {
		return nil, wireError(err)
	}
	return &cataloguev1.QuotePricesResponse{Quotes: quotes}, nil
}

// askable holds a question to the bounds that its proto states.
func askable(numbers []string) error {
	if n := len(numbers); n < 1 || n > MostAsked {
		return status.Errorf(codes.InvalidArgument, "item_numbers: %d given, ask for 1 to %d", n, MostAsked)
	}
	return nil
}

// Stock implements StockKeeper.
func (c client) Stock(ctx context.Context, itemNumbers []string) ([]*cataloguev1.StockLevel, error) {
	var levels []*cataloguev1.StockLevel
	for some := range slices.Chunk(itemNumbers, MostAsked) {
		answer, err := c.service.CheckStock(ctx, &cataloguev1.CheckStockRequest{ItemNumbers: some})
		if err != nil {
			return nil, err
		}
		levels = append(levels, answer.GetLevels()...)
	}
	return levels, nil
}

// Prices implements Pricer.
func (c client) Prices(ctx context.Context, customerNumber string, itemNumbers []string) ([]*cataloguev1.PriceQuote, error) {
	var quotes []*cataloguev1.PriceQuote
	for some := range slices.Chunk(itemNumbers, MostAsked) {
		answer, err := c.service.QuotePrices(ctx, &cataloguev1.QuotePricesRequest{ItemNumbers: some, CustomerNumber: customerNumber})
		if err != nil {
			return nil, err
		}
		quotes = append(quotes, answer.GetQuotes()...)
	}
	return quotes, nil
}

// CheckStock lists everything wrong with an answer to a question for these items.
func (c *Checker) CheckStock(asked []string, levels []*cataloguev1.StockLevel) []Problem {
	a := newAnswer("levels", asked)
	for i, level := range levels {
		if sound := a.add(i, level.GetItemNumber(), c.checkMessage(level)); sound && level.MoreOnDate != nil {
			a.moment(i, "more_on_date", time.DateOnly, level.GetMoreOnDate(), "a day, as 2027-03-01")
		}
	}
	return a.problems
}

// CheckPrices lists everything wrong with an answer to a question for these items.
func (c *Checker) CheckPrices(asked []string, quotes []*cataloguev1.PriceQuote) []Problem {
	a := newAnswer("quotes", asked)
	for i, quote := range quotes {
		if sound := a.add(i, quote.GetItemNumber(), c.checkMessage(quote)); sound && quote.ValidUntil != nil {
			a.moment(i, "valid_until", time.RFC3339, quote.GetValidUntil(), "a moment in UTC, as 2027-03-01T17:00:00Z")
		}
	}
	return a.problems
}

// answer gathers what is wrong with an answer, line by line. Each item asked for may be told once, and no other.
type answer struct {
	list     string
	open     map[string]bool
	problems []Problem
}

func newAnswer(list string, asked []string) *answer {
	a := &answer{list: list, open: make(map[string]bool, len(asked))}
	for _, number := range asked {
		a.open[number] = true
	}
	return a
}

func (a *answer) complain(i int, field, reason string) {
	a.problems = append(a.problems, Problem{Field: join(fmt.Sprintf("%s[%d]", a.list, i), field), Reason: reason})
}

// add takes one line, and says whether it keeps to the rules of the proto.
func (a *answer) add(i int, number string, problems []Problem) bool {
	for _, p := range problems {
		a.complain(i, p.Field, p.Reason)
	}
	switch open, asked := a.open[number]; {
	case number == "": // said already
	case !asked:
		a.complain(i, "item_number", fmt.Sprintf("%q was not asked for: leave it out", number))
	case !open:
		a.complain(i, "item_number", fmt.Sprintf("%q is there twice: tell each item once", number))
	default:
		a.open[number] = false
	}
	return len(problems) == 0
}

// moment wants a day of the calendar, not only digits in the right places.
func (a *answer) moment(i int, field, layout, text, want string) {
	if _, err := time.Parse(layout, text); err != nil {
		a.complain(i, field, fmt.Sprintf("%q is not %s", text, want))
	}
}

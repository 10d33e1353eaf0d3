package service

import (
	"context"
	"errors"
	"fmt"
	"time"

	"google.golang.org/genproto/googleapis/rpc/errdetails"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/server/internal/intercept"
	"example.com/pondwright/server/internal/wire"
)

// unknownThere is said of an item that the catalogue holds and the merchant's own system does not.
const unknownThere = "the merchant's own system does not know the item"

// CheckStock asks each catalogue once for all of its items, side by side.
func (s catalogues) CheckStock(ctx context.Context, req *pb.CheckStockRequest) (*pb.CheckStockResponse, error) {
	snapshot := s.engine.Store.Snapshot()
	wanted, err := lookUp(s, snapshot, req.GetItems())
	if err != nil {
		return nil, err
	}
	told, err := askEach(wanted, func(name string, numbers []string) (catalogue.Told[*cataloguev1.StockLevel], error) {
		return s.engine.Store.Stock(ctx, name, numbers)
	})
	if err != nil {
		return nil, err
	}
	if err := gone(ctx); err != nil {
		return nil, err
	}
	resp, now := &pb.CheckStockResponse{}, time.Now()
	for _, entry := range wanted {
		name, number := entry.GetCatalogue(), entry.GetItem().GetItemNumber()
		answer := &pb.StockAnswer{Catalogue: name, ItemNumber: number}
		line, fault, live := told.of(name, number)
		if live {
			answer.OnHand, answer.MoreOnDate = line.What.OnHand, line.What.GetMoreOnDate()
			answer.Origin = liveOrigin(line.At, now)
		} else {
			answer.OnHand = entry.GetItem().InStock
			answer.Origin = readOrigin(snapshot.ReadAt(name), now, fault)
		}
		answer.State = wire.StockOf(answer.OnHand)
		resp.Items = append(resp.Items, answer)
	}
	return resp, nil
}

// QuotePrices asks each catalogue once for all of its items, side by side.
func (s catalogues) QuotePrices(ctx context.Context, req *pb.QuotePricesRequest) (*pb.QuotePricesResponse, error) {
	snapshot := s.engine.Store.Snapshot()
	wanted, err := lookUp(s, snapshot, req.GetItems())
	if err != nil {
		return nil, err
	}
	told, err := askEach(wanted, func(name string, numbers []string) (catalogue.Told[*cataloguev1.PriceQuote], error) {
		return s.engine.Store.Prices(ctx, name, req.GetCustomerNumber(), numbers)
	})
	if err != nil {
		return nil, err
	}
	if err := gone(ctx); err != nil {
		return nil, err
	}
	resp, now := &pb.QuotePricesResponse{}, time.Now()
	for i, entry := range wanted {
		name, number := entry.GetCatalogue(), entry.GetItem().GetItemNumber()
		answer := &pb.PriceAnswer{Catalogue: name, ItemNumber: number, Currency: snapshot.Currency(name)}
		line, fault, live := told.of(name, number)
		if live {
			answer.UnitPrice, answer.ValidUntil = line.What.Price, line.What.GetValidUntil()
			answer.Origin = liveOrigin(line.At, now)
		} else {
			answer.UnitPrice = wire.UnitPrice(entry.GetItem())
			answer.Origin = readOrigin(snapshot.ReadAt(name), now, fault)
		}
		if answer.UnitPrice != nil {
			quantity := 1.0
			if asked := req.GetItems()[i]; asked.Quantity != nil {
				quantity = asked.GetQuantity()
			}
			total := quantity * answer.GetUnitPrice()
			answer.Price = &total
		}
		resp.Items = append(resp.Items, answer)
	}
	return resp, nil
}

// lookUp finds every item asked about, and names all that cannot be found at once.
func lookUp[Q interface {
	GetCatalogue() string
	GetItemNumber() string
}](s catalogues, snapshot *catalogue.Snapshot, questions []Q) ([]*pb.CataloguedItem, error) {
	var found []*pb.CataloguedItem
	var faults []*errdetails.BadRequest_FieldViolation
	for i, q := range questions {
		entry, fault := s.find(snapshot, q.GetCatalogue(), q.GetItemNumber())
		if fault != nil {
			fault.Field = fmt.Sprintf("items[%d].%s", i, fault.GetField())
			faults = append(faults, fault)
		}
		found = append(found, entry)
	}
	if len(faults) > 0 {
		return nil, intercept.BadRequest(faults)
	}
	return found, nil
}

// toldBy is what each catalogue said.
type toldBy[T any] map[string]catalogue.Told[T]

// of is what was said of one item; where nothing was, why not.
func (t toldBy[T]) of(name, number string) (line catalogue.Line[T], fault string, live bool) {
	told := t[name]
	line, live = told.Items[number]
	if !live && told.Asked && told.Fault == "" {
		return line, unknownThere, false
	}
	return line, told.Fault, live
}

// askEach asks every catalogue that holds one of some items, side by side.
func askEach[T any](items []*pb.CataloguedItem, ask func(name string, numbers []string) (catalogue.Told[T], error)) (toldBy[T], error) {
	numbers := map[string][]string{}
	seen := map[string]bool{}
	for _, entry := range items {
		name, number := entry.GetCatalogue(), entry.GetItem().GetItemNumber()
		if key := token(name, number); !seen[key] {
			seen[key] = true
			numbers[name] = append(numbers[name], number)
		}
	}
	type answer struct {
		name string
		told catalogue.Told[T]
		err  error
	}
	answers := make(chan answer, len(numbers))
	for name, some := range numbers {
		go func() {
			told, err := ask(name, some)
			answers <- answer{name, told, err}
		}()
	}
	told := toldBy[T]{}
	var failed error
	for range numbers {
		a := <-answers
		switch {
		case errors.Is(a.err, catalogue.ErrNoCustomer):
			failed = intercept.BadRequest([]*errdetails.BadRequest_FieldViolation{{
				Field: "customer_number", Reason: "UNKNOWN_CUSTOMER",
				Description: fmt.Sprintf("the merchant of catalogue %q has no customer of that number; leave it out for the price anyone pays", a.name),
			}})
		case a.err != nil:
			failed = errors.Join(failed, a.err)
		}
		told[a.name] = a.told
	}
	return told, failed
}

func liveOrigin(at, now time.Time) *pb.AnswerOrigin {
	return &pb.AnswerOrigin{Kind: pb.AnswerKind_ANSWER_KIND_LIVE, Time: wire.Time(at), AgeS: max(0, now.Sub(at).Seconds())}
}

func readOrigin(at, now time.Time, fault string) *pb.AnswerOrigin {
	return &pb.AnswerOrigin{
		Kind: pb.AnswerKind_ANSWER_KIND_CATALOGUE, Time: wire.Time(at), AgeS: max(0, now.Sub(at).Seconds()), Fault: fault,
	}
}

package conformance

import (
	"context"
	"sync"
	"testing"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
)

// stranger is the number of an item, and of a customer, that no merchant has.
const stranger = "no such number (conformance)"

// atOnce is how many live questions are asked side by side.
const atOnce = 8

// live asks what the catalogue claims to answer, and what it does not claim.
func (w wire) live(t *testing.T, known *host.Catalogue) {
	checker, err := contract.NewChecker()
	if err != nil {
		t.Fatal(err)
	}
	numbers := []string{stranger}
	for _, item := range known.Items[:min(len(known.Items), contract.MostAsked-1)] {
		numbers = append(numbers, item.GetItemNumber())
	}
	remote := contract.NewClient(w.conn)
	stock := func(ctx context.Context) ([]contract.Problem, error) {
		levels, err := remote.Stock(ctx, numbers)
		return append(checker.CheckStock(numbers[1:], levels), noAnswer(len(levels))...), err
	}
	prices := func(ctx context.Context) ([]contract.Problem, error) {
		quotes, err := remote.Prices(ctx, "", numbers)
		return append(checker.CheckPrices(numbers[1:], quotes), noAnswer(len(quotes))...), err
	}
	d := known.Description
	hold(t, "CheckStock", contract.Can(d, cataloguev1.Capability_CAPABILITY_LIVE_STOCK), stock)
	claims := contract.Can(d, cataloguev1.Capability_CAPABILITY_LIVE_PRICE)
	hold(t, "QuotePrices", claims, prices)
	if !claims {
		return
	}
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	if _, err := remote.Prices(ctx, stranger, numbers[1:]); err != nil && status.Code(err) != codes.NotFound {
		t.Errorf("QuotePrices for a customer that does not exist: %v; answer with the price that anyone pays, or with NOT_FOUND", err)
	}
}

// noAnswer is said of an answer that tells of none of the catalogue's own items.
func noAnswer(lines int) []contract.Problem {
	if lines > 0 {
		return nil
	}
	return []contract.Problem{{Reason: "tells of none of the items in the catalogue"}}
}

// hold asks a live question from several sides at once where it is claimed, and expects UNIMPLEMENTED where it is not.
func hold(t *testing.T, call string, claimed bool, ask func(context.Context) ([]contract.Problem, error)) {
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	if !claimed {
		if _, err := ask(ctx); status.Code(err) != codes.Unimplemented {
			t.Errorf("%s is not claimed in Describe and answers %s: claim it, or answer UNIMPLEMENTED", call, status.Code(err))
		}
		return
	}
	var askers sync.WaitGroup
	for range atOnce {
		askers.Go(func() {
			problems, err := ask(ctx)
			if err != nil {
				t.Errorf("%s is claimed in Describe and fails: %v", call, err)
				return
			}
			for _, p := range problems {
				t.Errorf("%s: %s", call, p)
			}
		})
	}
	askers.Wait()
	gone, cancel := context.WithCancel(t.Context())
	cancel()
	if _, err := ask(gone); err == nil {
		t.Errorf("%s answered a caller that had gone", call)
	}
}

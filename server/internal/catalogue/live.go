package catalogue

import (
	"context"
	"errors"
	"fmt"
	"time"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
)

const (
	// remembered is how long an answer is given again without asking: a customer at a till looks at one page for longer.
	remembered = 5 * time.Second
	// mostRemembered bounds what is kept of one catalogue.
	mostRemembered = 5000
	// rest is how long a plugin that has not answered is left alone, so that not every caller waits for it.
	rest = 5 * time.Second
	// mostAsking is how many questions one plugin is asked at once.
	mostAsking = 16
)

// Told is what a merchant's own system said of some items.
type Told[T any] struct {
	Items map[string]Line[T] // by number; one that the merchant does not know is not there
	Asked bool               // whether the catalogue answers such questions at all
	Fault string             // why not everything was answered; empty where it was
}

// A Line is what was said of one item, and when.
type Line[T any] struct {
	What T
	At   time.Time
}

// ErrNoCustomer is a customer number that the merchant does not know.
var ErrNoCustomer = errors.New("no such customer")

// Stock asks the merchant's own system how many there are of items. It never takes longer than the source's limit for live
// questions, and fails only where the catalogue is not configured.
func (s *Store) Stock(ctx context.Context, catalogue string, numbers []string) (Told[*cataloguev1.StockLevel], error) {
	k := s.keeper(catalogue)
	if k == nil {
		return Told[*cataloguev1.StockLevel]{}, fmt.Errorf("%w: %q", ErrUnknown, catalogue)
	}
	return ask(ctx, k, &k.stock, question[*cataloguev1.StockLevel]{
		able: cataloguev1.Capability_CAPABILITY_LIVE_STOCK, name: "CheckStock",
		put: func(ctx context.Context, c contract.Remote, some []string) ([]*cataloguev1.StockLevel, []contract.Problem, error) {
			levels, err := c.Stock(ctx, some)
			return levels, s.checker.CheckStock(some, levels), err
		},
		number: (*cataloguev1.StockLevel).GetItemNumber,
	}, numbers)
}

// Prices asks the merchant's own system what items cost a customer; an empty number asks for the price anyone pays. It fails
// with ErrNoCustomer where the merchant has no such customer, and else as Stock does.
func (s *Store) Prices(ctx context.Context, catalogue, customer string, numbers []string) (Told[*cataloguev1.PriceQuote], error) {
	k := s.keeper(catalogue)
	if k == nil {
		return Told[*cataloguev1.PriceQuote]{}, fmt.Errorf("%w: %q", ErrUnknown, catalogue)
	}
	return ask(ctx, k, &k.prices, question[*cataloguev1.PriceQuote]{
		able: cataloguev1.Capability_CAPABILITY_LIVE_PRICE, name: "QuotePrices", about: customer,
		put: func(ctx context.Context, c contract.Remote, some []string) ([]*cataloguev1.PriceQuote, []contract.Problem, error) {
			quotes, err := c.Prices(ctx, customer, some)
			return quotes, s.checker.CheckPrices(some, quotes), err
		},
		number: (*cataloguev1.PriceQuote).GetItemNumber,
	}, numbers)
}

// A question is one kind of live question.
type question[T any] struct {
	able   cataloguev1.Capability
	name   string
	about  string // the customer
	put    func(ctx context.Context, c contract.Remote, numbers []string) ([]T, []contract.Problem, error)
	number func(T) string
}

// ask answers from memory what was said a moment ago, and puts the rest to the plugin in one question.
func ask[T any](ctx context.Context, k *keeper, m *memory[T], q question[T], numbers []string) (Told[T], error) {
	told := Told[T]{Items: map[string]Line[T]{}}
	live, can, fault := k.mayAsk(q.able)
	if !can {
		return told, nil
	}
	told.Asked = true
	open := k.recall(func() []string { return m.recall(q.about, numbers, told.Items) })
	if len(open) == 0 {
		return told, nil
	}
	if live == nil {
		told.Fault = fault
		return told, nil
	}
	said, err := put(ctx, k, live, q, open)
	switch {
	case status.Code(err) == codes.NotFound:
		return told, ErrNoCustomer
	case err != nil:
		told.Fault = err.Error()
		return told, nil
	}
	now := time.Now()
	k.mu.Lock()
	defer k.mu.Unlock()
	known := make(map[string]bool, len(said))
	for _, what := range said {
		line := Line[T]{what, now}
		number := q.number(what)
		known[number], told.Items[number] = true, line
		m.keep(q.about, number, entry[T]{line: line, known: true})
	}
	for _, number := range open {
		if !known[number] {
			m.keep(q.about, number, entry[T]{line: Line[T]{At: now}})
		}
	}
	return told, nil
}

// put asks a plugin once, within its limit. The error tells the caller of the engine why there is no answer.
func put[T any](ctx context.Context, k *keeper, live *host.Live, q question[T], numbers []string) ([]T, error) {
	limit := k.source.LiveTimeout
	within, cancel := context.WithTimeout(ctx, limit)
	defer cancel()
	select {
	case k.asking <- struct{}{}:
		defer func() { <-k.asking }()
	case <-within.Done():
		return nil, errors.New("too many questions wait for the merchant's own system already")
	}
	var said []T
	var problems []contract.Problem
	err := live.Ask(within, func(ctx context.Context, c contract.Remote) (err error) {
		said, problems, err = q.put(ctx, c, numbers)
		return err
	})
	switch {
	case err == nil && len(problems) == 0:
		return said, nil
	case status.Code(err) == codes.NotFound:
		return nil, err
	case err == nil:
		k.log.Warn("live answer cannot be used", "question", q.name, "problems", contract.Join(problems[:min(len(problems), 10)]))
		return nil, errors.New("the merchant's own system answered in a way that cannot be used")
	case ctx.Err() != nil: // the caller has gone, which is no fault of the plugin
		return nil, errors.New("the caller did not wait for the merchant's own system")
	case within.Err() != nil, status.Code(err) == codes.DeadlineExceeded:
		err = fmt.Errorf("the merchant's own system did not answer within %s", limit)
	case errors.Is(err, host.ErrStopped), status.Code(err) == codes.Unavailable:
		err = errors.New("the merchant's own system is down")
	default:
		k.log.Warn("live question failed", "question", q.name, "fault", status.Convert(err).Message())
		err = errors.New("the merchant's own system answered with an error")
	}
	k.leaveAlone(live, err)
	return nil, err
}

// mayAsk gives the plugin to ask, if it is up and left in peace; can is whether the catalogue answers such questions at all.
func (k *keeper) mayAsk(able cataloguev1.Capability) (live *host.Live, can bool, fault string) {
	k.mu.Lock()
	defer k.mu.Unlock()
	switch {
	case k.now.shelf == nil || !contract.Can(k.now.shelf.description, able):
		return nil, false, ""
	case k.live == nil:
		return nil, true, "the merchant's own system is down"
	case time.Now().Before(k.restUntil):
		return nil, true, k.restWhy
	}
	return k.live, true, ""
}

// leaveAlone gives a plugin that has not answered a rest.
func (k *keeper) leaveAlone(live *host.Live, why error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.live == live {
		k.restUntil, k.restWhy = time.Now().Add(rest), why.Error()
	}
}

func (k *keeper) recall(from func() []string) []string {
	k.mu.Lock()
	defer k.mu.Unlock()
	return from()
}

// A memory holds what was answered a moment ago.
type memory[T any] struct {
	held map[memoryKey]entry[T]
}

type memoryKey struct{ about, number string }

// An entry is an answer, or that the merchant does not know the item.
type entry[T any] struct {
	line  Line[T]
	known bool
}

// recall puts what is remembered of items where it belongs, and gives the others.
func (m *memory[T]) recall(about string, numbers []string, into map[string]Line[T]) (open []string) {
	for _, number := range numbers {
		e, ok := m.held[memoryKey{about, number}]
		switch {
		case !ok || time.Since(e.line.At) > remembered:
			open = append(open, number)
		case e.known:
			into[number] = e.line
		}
	}
	return open
}

func (m *memory[T]) keep(about, number string, e entry[T]) {
	if m.held == nil || len(m.held) >= mostRemembered {
		m.held = map[memoryKey]entry[T]{}
	}
	m.held[memoryKey{about, number}] = e
}

func (m *memory[T]) clear() { m.held = nil }

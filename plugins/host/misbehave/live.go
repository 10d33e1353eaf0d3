//go:build unix

package misbehave

import (
	"context"
	"math"
	"os"
	"syscall"
	"time"

	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/sdk"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
)

// What a live shelf answers, other than what is in its items.
const (
	LiveOnHand  = 7
	LivePrice   = 8.5
	NoCustomer  = "nobody"
	liveRevised = "2027-03-01"
)

// liveShelf is a shelf that answers live questions, with a place to go wrong in.
type liveShelf struct {
	shelf
	asked  func() // before each answer
	onHand int32
	price  float64
}

func newLiveShelf(asked func()) *liveShelf {
	return &liveShelf{shelf: shelf{items: pumps(3)}, asked: asked, onHand: LiveOnHand, price: LivePrice}
}

// Stock implements contract.StockKeeper. Of the last item nothing is known.
func (s *liveShelf) Stock(_ context.Context, numbers []string) ([]*cataloguev1.StockLevel, error) {
	s.before()
	var levels []*cataloguev1.StockLevel
	for _, number := range numbers {
		if number != "P-00003" {
			levels = append(levels, &cataloguev1.StockLevel{ItemNumber: number, OnHand: &s.onHand, MoreOnDate: proto.String(liveRevised)})
		}
	}
	return levels, nil
}

// Prices implements contract.Pricer.
func (s *liveShelf) Prices(_ context.Context, customer string, numbers []string) ([]*cataloguev1.PriceQuote, error) {
	s.before()
	if customer == NoCustomer {
		return nil, status.Error(codes.NotFound, "no such customer")
	}
	var quotes []*cataloguev1.PriceQuote
	for _, number := range numbers {
		quotes = append(quotes, &cataloguev1.PriceQuote{ItemNumber: number, Price: &s.price})
	}
	return quotes, nil
}

func (s *liveShelf) before() {
	if s.asked != nil {
		s.asked()
	}
}

// live is a plugin that does something before each live answer.
func live(asked func()) func(string) {
	return func(string) { sdk.Serve(newLiveShelf(asked)) }
}

// liveLies answers what cannot be.
func liveLies(string) {
	s := newLiveShelf(nil)
	s.onHand, s.price = -1, math.NaN()
	sdk.Serve(s)
}

// liveDies ends a moment after it was read, each time.
func liveDies(string) {
	s := newLiveShelf(nil)
	s.then = func() { time.AfterFunc(300*time.Millisecond, func() { os.Exit(6) }) }
	sdk.Serve(s)
}

// standStill stops the whole process, as a debugger does.
func standStill() {
	_ = syscall.Kill(os.Getpid(), syscall.SIGSTOP)
	time.Sleep(time.Hour)
}

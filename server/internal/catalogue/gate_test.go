package catalogue_test

import (
	"context"
	"log/slog"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/host"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	"example.com/pondwright/server/internal/catalogue"
)

// A gate stands in for plugins: what it gives and how it fails is set by the test.
type gate struct {
	mu    sync.Mutex
	reads map[string]int
	begun chan string                                                         // hears of each reading as it begins; nil where nobody listens
	give  func(ctx context.Context, name string, nth int) ([]*eq.Item, error) // the nth reading of a catalogue, from 1
}

func (g *gate) Open(ctx context.Context, p host.Plugin) (*host.Catalogue, *host.Live, error) {
	g.mu.Lock()
	if g.reads == nil {
		g.reads = map[string]int{}
	}
	g.reads[p.Name]++
	nth := g.reads[p.Name]
	g.mu.Unlock()
	if g.begun != nil {
		g.begun <- p.Name
	}
	items, err := g.give(ctx, p.Name, nth)
	if err != nil {
		return nil, nil, err
	}
	return &host.Catalogue{
		Name: p.Name, Items: items,
		Description: &cataloguev1.DescribeResponse{Title: "Test range (invented)", Revision: "1", Currency: "EUR"},
	}, nil, nil
}

func (g *gate) count(name string) int {
	g.mu.Lock()
	defer g.mu.Unlock()
	return g.reads[name]
}

// quick is a pace for tests: what takes seconds on a server takes milliseconds here.
func quick() *catalogue.Pace {
	p := catalogue.UsualPace()
	p.FirstWait, p.MostWait, p.Window, p.Look = time.Millisecond, 20*time.Millisecond, time.Hour, 5*time.Millisecond
	return &p
}

func newStore(t *testing.T, g *gate, sources ...catalogue.Source) *catalogue.Store {
	t.Helper()
	s := catalogue.NewStore(catalogue.Config{Gate: g, Sources: sources, Logger: slog.New(slog.DiscardHandler), Pace: quick()})
	t.Cleanup(s.Close)
	return s
}

func source(name string) catalogue.Source {
	return catalogue.Source{Plugin: host.Plugin{Name: name, Path: "/nowhere"}}
}

// stateOf is how one catalogue is doing.
func stateOf(t *testing.T, s *catalogue.Store, name string) catalogue.State {
	t.Helper()
	for _, state := range s.States() {
		if state.Source.Name() == name {
			return state
		}
	}
	require.Fail(t, "no such catalogue", name)
	return catalogue.State{}
}

// pump is an item that can be calculated with.
func pump(number, description string) *eq.Item {
	point := func(flow, head float64) *eq.CurvePoint { return &eq.CurvePoint{FlowLPerH: &flow, HeadM: &head} }
	return &eq.Item{
		ItemNumber: number, Description: description, Price: proto.Float64(100),
		Kind: &eq.Item_Pump{Pump: &eq.Pump{
			PowerW: proto.Float64(60), Curve: []*eq.CurvePoint{point(0, 3), point(2500, 2.2), point(5000, 1)},
		}},
	}
}

// Package conformance is the test that every catalogue has to pass to be of use to the engine. The author of a plugin calls it
// from a test of their own:
//
//	func TestCatalogue(t *testing.T) { conformance.Catalogue(t, myCatalogue) }
//	func TestPlugin(t *testing.T)    { conformance.Plugin(t, host.Plugin{Name: "mine", Path: built}) }
//
// The first runs in the test's own process, through real gRPC, and is the one to find faults with; the second starts an
// executable in any language as the engine will.
package conformance

import (
	"context"
	"iter"
	"log/slog"
	"net"
	"testing"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/test/bufconn"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Catalogue tests a catalogue within this process.
func Catalogue(t *testing.T, c contract.Catalogue) {
	t.Helper()
	h := newHost(t)
	conn := overGRPC(t, c)
	remote := contract.NewClient(conn)
	limits := host.Plugin{Name: t.Name()}
	known := suite(t, func(ctx context.Context) (*host.Catalogue, error) { return h.ReadDirect(ctx, limits, remote) })
	newWire(conn).suite(t, known)
	t.Run("it stops when the reader stops", func(t *testing.T) { stopsEarly(t, c) })
}

// Plugin tests an executable.
func Plugin(t *testing.T, p host.Plugin) {
	t.Helper()
	h := newHost(t)
	known := suite(t, func(ctx context.Context) (*host.Catalogue, error) { return h.Read(ctx, p) })
	newWire(start(t, p)).suite(t, known)
}

// suite is what holds for a catalogue however it is reached. It gives the first reading.
func suite(t *testing.T, read func(context.Context) (*host.Catalogue, error)) *host.Catalogue {
	t.Helper()
	first, err := read(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	t.Run("every item can be used", func(t *testing.T) {
		for _, q := range first.Quarantined {
			t.Errorf("item %q, number %d in the stream: %s", q.ItemNumber, q.Position, contract.Join(q.Problems))
		}
		if len(first.Items) == 0 {
			t.Error("there is no item in it")
		}
	})
	t.Run("it names the kinds it holds", func(t *testing.T) { namesKinds(t, first) })
	t.Run("it reads the same again", func(t *testing.T) {
		again, err := read(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		sameUnlessRevised(t, first, again)
	})
	return first
}

// namesKinds holds what a catalogue says it holds against what it holds.
func namesKinds(t *testing.T, c *host.Catalogue) {
	said := make(map[equipmentv1.ItemKind]bool)
	for _, kind := range c.Description.GetKinds() {
		said[kind] = true
	}
	for _, item := range c.Items {
		if kind := contract.KindOf(item); !said[kind] {
			t.Errorf("item %q is %s, which Describe does not name", item.GetItemNumber(), kind)
			return
		}
	}
}

// sameUnlessRevised wants equal items under equal revisions, and another revision only where an item is another.
func sameUnlessRevised(t *testing.T, first, again *host.Catalogue) {
	if before, after := first.Description.GetRevision(), again.Description.GetRevision(); before != after {
		if same(first.Items, again.Items) {
			t.Errorf("the revision went from %q to %q and no item changed: make it of the items, not of the clock or a count", before, after)
		}
		return
	}
	if len(first.Items) != len(again.Items) {
		t.Fatalf("revision %q had %d items and then %d", first.Description.GetRevision(), len(first.Items), len(again.Items))
	}
	for i := range first.Items {
		if !proto.Equal(first.Items[i], again.Items[i]) {
			t.Errorf("item %q changed and the revision %q did not", first.Items[i].GetItemNumber(), first.Description.GetRevision())
		}
	}
}

// stopsEarly breaks off after one item and in the middle, reads with a context that is done, and reads over a connection that is
// cancelled while items are on their way.
func stopsEarly(t *testing.T, c contract.Catalogue) {
	finishes(t, "Items did not return", func() {
		whole := 0
		for range c.Items(t.Context()) {
			whole++
		}
		for _, most := range []int{1, (whole + 1) / 2} {
			read := 0
			for range c.Items(t.Context()) {
				if read++; read >= most {
					break
				}
			}
		}
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		for range c.Items(ctx) {
			break
		}
	})
	noted := watched{c, make(chan struct{}, 1)}
	ctx, cancel := context.WithCancel(t.Context())
	for range contract.NewClient(overGRPC(t, noted)).Items(ctx) {
		cancel()
	}
	cancel()
	finishes(t, "Items went on when its caller had gone", func() { <-noted.over })
}

// finishes wants something to come to its end.
func finishes(t *testing.T, otherwise string, do func()) {
	done := make(chan struct{})
	go func() {
		defer close(done)
		do()
	}()
	select {
	case <-done:
	case <-time.After(patience):
		t.Error(otherwise)
	}
}

// watched tells when a reading of a catalogue is over.
type watched struct {
	contract.Catalogue
	over chan struct{}
}

// Items implements contract.Catalogue.
func (w watched) Items(ctx context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) {
		defer func() { w.over <- struct{}{} }()
		w.Catalogue.Items(ctx)(yield)
	}
}

// overGRPC serves a catalogue in memory and gives the other end of the connection.
func overGRPC(t *testing.T, c contract.Catalogue) *grpc.ClientConn {
	t.Helper()
	listener := bufconn.Listen(1 << 20)
	server := grpc.NewServer(contract.ServerOptions()...)
	contract.Register(server, c)
	go func() { _ = server.Serve(listener) }() // returns when the test stops it
	t.Cleanup(server.Stop)
	options := append(contract.DialOptions(),
		grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(ctx context.Context, _ string) (net.Conn, error) { return listener.DialContext(ctx) }))
	conn, err := grpc.NewClient("passthrough:///catalogue", options...)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = conn.Close() })
	return conn
}

func newHost(t *testing.T) *host.Host {
	t.Helper()
	h, err := host.New(host.Config{Logger: testLogger(t)})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { _ = h.Close() })
	return h
}

// testLogger writes to the test's own log, which is shown when it fails. The process may still write when the test is over.
func testLogger(t *testing.T) *slog.Logger {
	return slog.New(slog.NewTextHandler(t.Output(), nil))
}

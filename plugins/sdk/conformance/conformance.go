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
	remote := overGRPC(t, c)
	limits := host.Plugin{Name: t.Name()}
	suite(t, func(ctx context.Context) (*host.Catalogue, error) { return h.ReadDirect(ctx, limits, remote) })
	t.Run("stops when the reader stops", func(t *testing.T) { stopsEarly(t, c) })
}

// Plugin tests an executable.
func Plugin(t *testing.T, p host.Plugin) {
	t.Helper()
	h := newHost(t)
	suite(t, func(ctx context.Context) (*host.Catalogue, error) { return h.Read(ctx, p) })
}

// suite is what holds for a catalogue however it is reached.
func suite(t *testing.T, read func(context.Context) (*host.Catalogue, error)) {
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

// sameUnlessRevised wants equal items under equal revisions.
func sameUnlessRevised(t *testing.T, first, again *host.Catalogue) {
	if first.Description.GetRevision() != again.Description.GetRevision() {
		t.Logf("the revision went from %q to %q between two readings: it should change only when an item does",
			first.Description.GetRevision(), again.Description.GetRevision())
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

// stopsEarly breaks off after one item, and reads with a context that is done.
func stopsEarly(t *testing.T, c contract.Catalogue) {
	done := make(chan struct{})
	go func() {
		defer close(done)
		for range c.Items(t.Context()) {
			break
		}
		ctx, cancel := context.WithCancel(t.Context())
		cancel()
		for range c.Items(ctx) {
			break
		}
	}()
	select {
	case <-done:
	case <-time.After(10 * time.Second):
		t.Error("Items did not return")
	}
}

// overGRPC serves a catalogue in memory and gives the other end of the connection.
func overGRPC(t *testing.T, c contract.Catalogue) contract.Catalogue {
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
	return contract.NewClient(conn)
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

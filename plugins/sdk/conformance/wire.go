package conformance

import (
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/hashicorp/go-hclog"
	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// patience is how long anything may take that should take no time at all.
const patience = 10 * time.Second

// wire is a catalogue by its calls, one at a time and with any arguments, where the host makes only those it needs.
type wire struct {
	conn    grpc.ClientConnInterface
	service cataloguev1.MerchantCatalogueServiceClient
}

func newWire(conn grpc.ClientConnInterface) wire {
	return wire{conn, cataloguev1.NewMerchantCatalogueServiceClient(conn)}
}

// suite is what holds for the calls of a catalogue that has these items.
func (w wire) suite(t *testing.T, known *host.Catalogue) {
	t.Run("a page is no longer than asked for", func(t *testing.T) { w.pages(t, known) })
	t.Run("it answers after a reading was broken off", func(t *testing.T) { w.breaksOff(t) })
	t.Run("it answers the live questions that it claims", func(t *testing.T) { w.live(t, known) })
}

// pages reads with pages of several sizes, which makes no difference to what is read.
func (w wire) pages(t *testing.T, known *host.Catalogue) {
	for _, size := range []int32{1, 7, 1000} {
		ctx, cancel := context.WithTimeout(t.Context(), time.Minute)
		defer cancel()
		stream, err := w.service.StreamItems(ctx, &cataloguev1.StreamItemsRequest{PageSize: size})
		if err != nil {
			t.Fatal(err)
		}
		var items []*equipmentv1.Item
		for {
			page, err := stream.Recv()
			if errors.Is(err, io.EOF) {
				break
			}
			if err != nil {
				t.Fatal(err)
			}
			if n := len(page.GetItems()) + len(page.GetRejected()); n > int(size) {
				t.Errorf("a page has %d items where page_size asks for no more than %d", n, size)
			}
			items = append(items, page.GetItems()...)
		}
		d, err := w.service.Describe(ctx, &cataloguev1.DescribeRequest{})
		if err != nil {
			t.Fatal(err)
		}
		if d.GetRevision() == known.Description.GetRevision() && !same(items, known.Items) {
			t.Errorf("pages of %d give other items than the first reading, under the same revision", size)
		}
	}
}

// breaksOff cancels a reading in its middle and expects the catalogue to go on as if nothing had been.
func (w wire) breaksOff(t *testing.T) {
	for range 3 {
		ctx, cancel := context.WithTimeout(t.Context(), patience)
		stream, err := w.service.StreamItems(ctx, &cataloguev1.StreamItemsRequest{PageSize: 1})
		if err == nil {
			_, err = stream.Recv()
		}
		cancel()
		if err != nil {
			t.Fatal(err)
		}
	}
	ctx, cancel := context.WithTimeout(t.Context(), patience)
	defer cancel()
	if _, err := w.service.Describe(ctx, &cataloguev1.DescribeRequest{}); err != nil {
		t.Errorf("Describe after three readings that were broken off: %v", err)
	}
}

// same says whether two readings gave the same items, in whatever order: a plugin may send them as it likes.
func same(a, b []*equipmentv1.Item) bool {
	if len(a) != len(b) {
		return false
	}
	byNumber := make(map[string]*equipmentv1.Item, len(a))
	for _, item := range a {
		byNumber[item.GetItemNumber()] = item
	}
	for _, item := range b {
		if !proto.Equal(item, byNumber[item.GetItemNumber()]) {
			return false
		}
	}
	return true
}

// start runs an executable and gives the connection to it. The host has started it before and found nothing to say about how
// it starts.
func start(t *testing.T, p host.Plugin) grpc.ClientConnInterface {
	t.Helper()
	dir, err := os.MkdirTemp("", "pwc") // not the test's own folder, whose path can be too long for a socket
	if err != nil {
		t.Fatal(err)
	}
	cmd := exec.Command(p.Path, p.Args...)
	cmd.Env = append(os.Environ(), "PLUGIN_UNIX_SOCKET_DIR="+dir) // as the host gives it
	client := plugin.NewClient(&plugin.ClientConfig{
		HandshakeConfig:  contract.Handshake(),
		VersionedPlugins: contract.Versions(&contract.Plugin{}),
		Cmd:              cmd,
		AllowedProtocols: []plugin.Protocol{plugin.ProtocolGRPC},
		GRPCDialOptions:  contract.DialOptions(),
		AutoMTLS:         !p.PlainSocket,
		StartTimeout:     max(p.StartTimeout, patience),
		UnixSocketConfig: &plugin.UnixSocketConfig{TempDir: dir},
		Stderr:           t.Output(),
		Logger:           hclog.NewNullLogger(),
	})
	t.Cleanup(func() {
		client.Kill()
		_ = os.RemoveAll(dir)
	})
	protocol, err := client.Client()
	if err != nil {
		t.Fatal(err)
	}
	remote, ok := protocol.(*plugin.GRPCClient)
	if !ok {
		t.Fatalf("the plugin speaks %T and not gRPC", protocol)
	}
	return remote.Conn
}

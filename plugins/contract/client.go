package contract

import (
	"context"
	"errors"
	"fmt"
	"io"
	"iter"

	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// NewClient is the catalogue at the other end of a connection. It checks nothing: see Checker.
func NewClient(conn grpc.ClientConnInterface) Remote {
	return client{cataloguev1.NewMerchantCatalogueServiceClient(conn)}
}

// GRPCClient is called by go-plugin in the host.
func (*Plugin) GRPCClient(_ context.Context, _ *plugin.GRPCBroker, conn *grpc.ClientConn) (any, error) {
	return NewClient(conn), nil
}

// Dispense takes the catalogue out of a connected plugin.
func Dispense(p plugin.ClientProtocol) (Remote, error) {
	raw, err := p.Dispense(pluginName)
	if err != nil {
		return nil, err
	}
	c, ok := raw.(Remote)
	if !ok {
		return nil, fmt.Errorf("the plugin is a %T, not a catalogue", raw)
	}
	return c, nil
}

type client struct {
	service cataloguev1.MerchantCatalogueServiceClient
}

// Describe implements Catalogue.
func (c client) Describe(ctx context.Context) (*cataloguev1.DescribeResponse, error) {
	return c.service.Describe(ctx, &cataloguev1.DescribeRequest{})
}

// Items implements Catalogue. The stream is closed when the reader stops, at the end or before.
func (c client) Items(ctx context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) {
		ctx, cancel := context.WithCancel(ctx)
		defer cancel()
		stream, err := c.service.StreamItems(ctx, &cataloguev1.StreamItemsRequest{PageSize: pageSize})
		if err != nil {
			yield(nil, err)
			return
		}
		for {
			page, err := stream.Recv()
			if errors.Is(err, io.EOF) {
				return
			}
			if err != nil {
				yield(nil, err)
				return
			}
			for _, item := range page.GetItems() {
				if !yield(item, nil) {
					return
				}
			}
			for _, m := range page.GetRejected() {
				if !yield(nil, rejectedOf(m)) {
					return
				}
			}
		}
	}
}

package contract

import (
	"context"
	"errors"
	"fmt"

	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Items a message. Measured with 10,000 items of 805 bytes over a socket, pages of 100 to 500 are all equally fast and
// pages of one are a third slower, so a plugin sends 250 unless the host asks for another number.
const (
	pageSize    = 250
	maxPageSize = 500
	// A page is sent early once it holds this much, so that large items cannot outgrow MaxMessageBytes together.
	pageBytes = 1 << 20
)

// maxErrorBytes bounds the text of an error on the wire, which travels in a header.
const maxErrorBytes = 16 << 10

// Register serves a catalogue on a gRPC server.
func Register(s grpc.ServiceRegistrar, c Catalogue) {
	cataloguev1.RegisterMerchantCatalogueServiceServer(s, &server{catalogue: c})
}

// GRPCServer is called by go-plugin in the plugin.
func (p *Plugin) GRPCServer(_ *plugin.GRPCBroker, s *grpc.Server) error {
	if p.Catalogue == nil {
		return errors.New("a catalogue is needed to serve")
	}
	Register(s, p.Catalogue)
	return nil
}

type server struct {
	cataloguev1.UnimplementedMerchantCatalogueServiceServer
	catalogue Catalogue
}

// Describe implements the service. The live questions are those that the catalogue has methods for; its author need not
// name them.
func (s *server) Describe(ctx context.Context, _ *cataloguev1.DescribeRequest) (*cataloguev1.DescribeResponse, error) {
	d, err := s.catalogue.Describe(ctx)
	if err != nil {
		return nil, wireError(err)
	}
	if d = proto.CloneOf(d); d == nil {
		d = &cataloguev1.DescribeResponse{} // which the engine refuses with what is missing in it
	}
	for _, able := range capabilities(s.catalogue) {
		if !Can(d, able) {
			d.Capabilities = append(d.Capabilities, able)
		}
	}
	return d, nil
}

// StreamItems implements the service.
func (s *server) StreamItems(req *cataloguev1.StreamItemsRequest, stream grpc.ServerStreamingServer[cataloguev1.StreamItemsResponse]) error {
	p := page{limit: int(req.GetPageSize()), message: &cataloguev1.StreamItemsResponse{}, send: stream.Send}
	if p.limit <= 0 {
		p.limit = pageSize
	}
	p.limit = min(p.limit, maxPageSize)
	for item, err := range s.catalogue.Items(stream.Context()) {
		var rejected *Rejected
		switch {
		case errors.As(err, &rejected):
			err = p.reject(rejected)
		case err != nil:
			err = wireError(err)
		default:
			err = p.add(item)
		}
		if err != nil {
			return err
		}
	}
	return p.flush()
}

// page gathers items until there are enough for a message.
type page struct {
	limit   int
	bytes   int
	message *cataloguev1.StreamItemsResponse
	send    func(*cataloguev1.StreamItemsResponse) error
}

func (p *page) add(item *equipmentv1.Item) error {
	if item == nil {
		return status.Error(codes.Internal, "the plugin yielded neither an item nor an error")
	}
	p.message.Items = append(p.message.Items, item)
	return p.grown(item)
}

func (p *page) reject(r *Rejected) error {
	m := r.message()
	p.message.Rejected = append(p.message.Rejected, m)
	return p.grown(m)
}

// grown sends the page if what was added has filled it.
func (p *page) grown(by proto.Message) error {
	p.bytes += proto.Size(by)
	if p.length() < p.limit && p.bytes < pageBytes {
		return nil
	}
	return p.flush()
}

func (p *page) length() int { return len(p.message.Items) + len(p.message.Rejected) }

func (p *page) flush() error {
	if p.length() == 0 {
		return nil
	}
	err := p.send(p.message)
	p.message, p.bytes = &cataloguev1.StreamItemsResponse{}, 0
	return err
}

// wireError keeps a status as it is and gives any other error one that says the catalogue has to be mended.
func wireError(err error) error {
	if s, ok := status.FromError(err); ok {
		return s.Err()
	}
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return status.FromContextError(err).Err()
	}
	text := err.Error()
	if len(text) > maxErrorBytes {
		text = fmt.Sprintf("%s ... (%d bytes more)", text[:maxErrorBytes], len(text)-maxErrorBytes)
	}
	return status.Error(codes.FailedPrecondition, text)
}

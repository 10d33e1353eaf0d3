package contract_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"iter"
	"net"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/status"
	"google.golang.org/grpc/test/bufconn"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// stock is a catalogue of any items and errors.
type stock struct {
	describe error
	items    iter.Seq2[*equipmentv1.Item, error]
}

func (s stock) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	return &cataloguev1.DescribeResponse{Title: "Test range (invented)"}, s.describe
}

func (s stock) Items(context.Context) iter.Seq2[*equipmentv1.Item, error] { return s.items }

// serve puts a catalogue behind real gRPC and gives the connection to it.
func serve(t *testing.T, c contract.Catalogue) *grpc.ClientConn {
	t.Helper()
	listener := bufconn.Listen(1 << 20)
	server := grpc.NewServer(contract.ServerOptions()...)
	contract.Register(server, c)
	go func() { _ = server.Serve(listener) }()
	t.Cleanup(server.Stop)
	conn, err := grpc.NewClient("passthrough:///catalogue", append(contract.DialOptions(),
		grpc.WithTransportCredentials(insecure.NewCredentials()),
		grpc.WithContextDialer(func(ctx context.Context, _ string) (net.Conn, error) { return listener.DialContext(ctx) }))...)
	require.NoError(t, err)
	t.Cleanup(func() { assert.NoError(t, conn.Close()) })
	return conn
}

func hoses(n int, descriptionBytes int) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) {
		for i := range n {
			if !yield(&equipmentv1.Item{ItemNumber: fmt.Sprint(i), Description: strings.Repeat("x", descriptionBytes)}, nil) {
				return
			}
		}
	}
}

func TestItemsTravelInPages(t *testing.T) {
	for _, page := range []struct {
		asked, items, bytes int
		want                []int
	}{
		{0, 600, 10, []int{250, 250, 100}},
		{100, 250, 10, []int{100, 100, 50}},
		{1000, 600, 10, []int{500, 100}},
		{0, 0, 0, nil},
		{0, 5, 600_000, []int{2, 2, 1}}, // a page is full at 1 MiB, however few items that is
	} {
		conn := serve(t, stock{items: hoses(page.items, page.bytes)})
		stream, err := cataloguev1.NewMerchantCatalogueServiceClient(conn).
			StreamItems(t.Context(), &cataloguev1.StreamItemsRequest{PageSize: int32(page.asked)})
		require.NoError(t, err)
		var got []int
		for {
			m, err := stream.Recv()
			if err != nil {
				break
			}
			got = append(got, len(m.GetItems()))
		}
		assert.Equal(t, page.want, got)
	}
}

func TestRejectedItemTravelsWithItsReasonsAndLeavesTheOthersAlone(t *testing.T) {
	sent := &contract.Rejected{ItemNumber: "B", Description: "pump", Problems: []contract.Problem{
		{Field: "pumps.csv row 3, column price", Reason: "is empty"}, {Reason: "no curve"},
	}}
	c := contract.NewClient(serve(t, stock{items: func(yield func(*equipmentv1.Item, error) bool) {
		_ = yield(&equipmentv1.Item{ItemNumber: "A"}, nil) && yield(nil, fmt.Errorf("row 3: %w", sent)) && yield(&equipmentv1.Item{ItemNumber: "C"}, nil)
	}}))
	var numbers []string
	var rejects []*contract.Rejected
	for item, err := range c.Items(t.Context()) {
		var rejected *contract.Rejected
		if errors.As(err, &rejected) {
			rejects = append(rejects, rejected)
			continue
		}
		require.NoError(t, err)
		numbers = append(numbers, item.GetItemNumber())
	}
	assert.Equal(t, []string{"A", "C"}, numbers)
	assert.Equal(t, []*contract.Rejected{sent}, rejects)
}

func TestRejectedItemsFillPagesToo(t *testing.T) {
	conn := serve(t, stock{items: func(yield func(*equipmentv1.Item, error) bool) {
		for i := range 250 {
			item, err := &equipmentv1.Item{}, error(nil)
			if i%3 > 0 {
				item, err = nil, &contract.Rejected{}
			}
			if !yield(item, err) {
				return
			}
		}
	}})
	stream, err := cataloguev1.NewMerchantCatalogueServiceClient(conn).StreamItems(t.Context(), &cataloguev1.StreamItemsRequest{PageSize: 100})
	require.NoError(t, err)
	for _, want := range []int{100, 100, 50} {
		m, err := stream.Recv()
		require.NoError(t, err)
		assert.Equal(t, want, len(m.GetItems())+len(m.GetRejected()))
	}
	_, err = stream.Recv()
	assert.ErrorIs(t, err, io.EOF)
}

func TestErrorsKeepTheirMeaningOnTheWire(t *testing.T) {
	for _, e := range []struct {
		err  error
		code codes.Code
		text string
	}{
		{errors.New("pumps.csv: is missing"), codes.FailedPrecondition, "pumps.csv: is missing"},
		{status.Error(codes.Unavailable, "stock system is down"), codes.Unavailable, "stock system is down"},
		{context.DeadlineExceeded, codes.DeadlineExceeded, "deadline"},
		{errors.New(strings.Repeat("x", 100_000)), codes.FailedPrecondition, "(83616 bytes more)"},
	} {
		c := contract.NewClient(serve(t, stock{describe: e.err, items: func(yield func(*equipmentv1.Item, error) bool) {
			yield(nil, e.err)
		}}))
		_, err := c.Describe(t.Context())
		assert.Equal(t, e.code, status.Code(err))
		assert.ErrorContains(t, err, e.text)
		for _, err := range c.Items(t.Context()) {
			assert.Equal(t, e.code, status.Code(err))
		}
	}
}

func TestNothingYieldedIsAnError(t *testing.T) {
	c := contract.NewClient(serve(t, stock{items: func(yield func(*equipmentv1.Item, error) bool) { yield(nil, nil) }}))
	for _, err := range c.Items(t.Context()) {
		assert.Equal(t, codes.Internal, status.Code(err))
	}
}

func TestReaderMayStop(t *testing.T) {
	c := contract.NewClient(serve(t, stock{items: hoses(100_000, 100)}))
	for range 3 {
		for item, err := range c.Items(t.Context()) {
			require.NoError(t, err)
			assert.Equal(t, "0", item.GetItemNumber())
			break
		}
	}
}

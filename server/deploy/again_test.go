package deploy_test

import (
	"context"
	"net"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/credentials/insecure"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/status"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/deploy"
)

// dying begins its first answer and is lost before it has ended.
type dying struct {
	pb.UnimplementedCatalogueServiceServer
	asked atomic.Int32
}

func (d *dying) begin(ctx context.Context) error {
	if d.asked.Add(1) > 1 {
		return nil
	}
	if err := grpc.SendHeader(ctx, metadata.MD{}); err != nil {
		return err
	}
	return status.Error(codes.Unavailable, "connection reset by peer")
}

// ListCatalogues implements pb.CatalogueServiceServer.
func (d *dying) ListCatalogues(ctx context.Context, _ *pb.ListCataloguesRequest) (*pb.ListCataloguesResponse, error) {
	return &pb.ListCataloguesResponse{}, d.begin(ctx)
}

// ReloadCatalogues implements pb.CatalogueServiceServer.
func (d *dying) ReloadCatalogues(ctx context.Context, _ *pb.ReloadCataloguesRequest) (*pb.ReloadCataloguesResponse, error) {
	return &pb.ReloadCataloguesResponse{}, d.begin(ctx)
}

func ask(t *testing.T, options ...grpc.DialOption) (*dying, pb.CatalogueServiceClient) {
	t.Helper()
	d, server := &dying{}, grpc.NewServer()
	pb.RegisterCatalogueServiceServer(server, d)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	go func() { _ = server.Serve(l) }()
	t.Cleanup(server.Stop)
	options = append(options, grpc.WithTransportCredentials(insecure.NewCredentials()), grpc.WithDefaultServiceConfig(deploy.ServiceConfig))
	conn, err := grpc.NewClient(l.Addr().String(), options...)
	require.NoError(t, err)
	t.Cleanup(func() { _ = conn.Close() })
	return d, pb.NewCatalogueServiceClient(conn)
}

func TestAReplicaLostInTheMiddleOfItsAnswerIsAskedAgain(t *testing.T) {
	_, client := ask(t)
	_, err := client.ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	assert.Equal(t, codes.Unavailable, status.Code(err), "the service config alone does not ask again")

	d, client := ask(t, grpc.WithUnaryInterceptor(deploy.Again()))
	_, err = client.ListCatalogues(t.Context(), &pb.ListCataloguesRequest{})
	require.NoError(t, err)
	assert.EqualValues(t, 2, d.asked.Load())

	d, client = ask(t, grpc.WithUnaryInterceptor(deploy.Again()))
	_, err = client.ReloadCatalogues(t.Context(), &pb.ReloadCataloguesRequest{})
	assert.Equal(t, codes.Unavailable, status.Code(err))
	assert.EqualValues(t, 1, d.asked.Load(), "a reading is not asked for twice")
}

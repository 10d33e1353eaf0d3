package operate_test

import (
	"context"
	"net"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	metricspb "go.opentelemetry.io/proto/otlp/collector/metrics/v1"
	tracepb "go.opentelemetry.io/proto/otlp/collector/trace/v1"
	"google.golang.org/grpc"
	channelzpb "google.golang.org/grpc/channelz/grpc_channelz_v1"
	"google.golang.org/grpc/credentials/insecure"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/operate/rig"
)

// collector is one that notes the names of what it is sent.
// Reference: OpenTelemetry protocol 1.11, its services as the OpenTelemetry project publishes them.
type collector struct {
	tracepb.UnimplementedTraceServiceServer
	metricspb.UnimplementedMetricsServiceServer
	mu             sync.Mutex
	spans, figures []string
}

type spans struct{ *collector }

// Export implements tracepb.TraceServiceServer.
func (c spans) Export(_ context.Context, req *tracepb.ExportTraceServiceRequest) (*tracepb.ExportTraceServiceResponse, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, r := range req.GetResourceSpans() {
		for _, s := range r.GetScopeSpans() {
			for _, span := range s.GetSpans() {
				c.spans = append(c.spans, span.GetName())
			}
		}
	}
	return &tracepb.ExportTraceServiceResponse{}, nil
}

type figures struct{ *collector }

// Export implements metricspb.MetricsServiceServer.
func (c figures) Export(_ context.Context, req *metricspb.ExportMetricsServiceRequest) (*metricspb.ExportMetricsServiceResponse, error) {
	c.mu.Lock()
	defer c.mu.Unlock()
	for _, r := range req.GetResourceMetrics() {
		for _, s := range r.GetScopeMetrics() {
			for _, m := range s.GetMetrics() {
				c.figures = append(c.figures, m.GetName())
			}
		}
	}
	return &metricspb.ExportMetricsServiceResponse{}, nil
}

// Calls reach a collector as spans and figures, and probes do not.
func TestCallsReachACollector(t *testing.T) {
	c := &collector{}
	server := grpc.NewServer()
	tracepb.RegisterTraceServiceServer(server, spans{c})
	metricspb.RegisterMetricsServiceServer(server, figures{c})
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	go func() { _ = server.Serve(l) }()
	t.Cleanup(server.Stop)

	r := rig.Start(t, nil, func(s *config.Settings) {
		s.Telemetry.OTLP, s.Telemetry.Sample, s.Telemetry.Interval = "http://"+l.Addr().String(), 1, 200*time.Millisecond
	})
	conn := r.Dial(t, nil)
	_, err = healthpb.NewHealthClient(conn).Check(t.Context(), &healthpb.HealthCheckRequest{})
	require.NoError(t, err)
	_, err = pb.NewHydraulicsServiceClient(conn).SolveDuty(t.Context(), dutyQuestion())
	require.NoError(t, err)
	require.Eventually(t, func() bool {
		c.mu.Lock()
		defer c.mu.Unlock()
		return len(c.spans) > 0 && slices.Contains(c.figures, "rpc.server.call.duration")
	}, time.Minute, 50*time.Millisecond, "%v %v", &c.spans, &c.figures)
	c.mu.Lock()
	defer c.mu.Unlock()
	assert.Equal(t, []string{"pondwright.v1.HydraulicsService/SolveDuty"}, c.spans)
}

// The operator's port answers channelz, which tells of the engine's own server.
func TestTheOperatorSeesTheServersChannels(t *testing.T) {
	r := rig.Start(t, nil, func(s *config.Settings) { s.Admin.Listen = "127.0.0.1:0" })
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	go func() { _ = r.ServeOperator(l) }()
	conn, err := grpc.NewClient(l.Addr().String(), grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(t, err)
	t.Cleanup(func() { _ = conn.Close() })
	servers, err := channelzpb.NewChannelzClient(conn).GetServers(t.Context(), &channelzpb.GetServersRequest{})
	require.NoError(t, err)
	assert.NotEmpty(t, servers.GetServer())
}

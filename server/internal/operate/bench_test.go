package operate_test

import (
	"context"
	"net"
	"slices"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/operate/rig"
)

// echo answers at once with what was calculated before: messages as large, and nothing done.
type echo struct {
	pb.UnimplementedHydraulicsServiceServer
	answer *pb.SolveDutyResponse
}

// SolveDuty implements pb.HydraulicsServiceServer.
func (e echo) SolveDuty(context.Context, *pb.SolveDutyRequest) (*pb.SolveDutyResponse, error) {
	return e.answer, nil
}

// BenchmarkDutyBesideABareCall asks for the duty of a pump in turn with the smallest call of the same server, and with a call of
// the same messages of a server that calculates nothing and has nothing around it, so that noise falls on all alike. It reports the middle of each and their ratios.
func BenchmarkDutyBesideABareCall(b *testing.B) {
	r := rig.Start(b, nil, func(s *config.Settings) { s.Admin.Listen = "127.0.0.1:0" })
	guarded := r.Dial(b, nil)
	bareServer := grpc.NewServer()
	answer, err := pb.NewHydraulicsServiceClient(guarded).SolveDuty(b.Context(), dutyQuestion())
	require.NoError(b, err)
	pb.RegisterHydraulicsServiceServer(bareServer, echo{answer: answer})
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(b, err)
	go func() { _ = bareServer.Serve(l) }()
	b.Cleanup(bareServer.Stop)
	bare, err := grpc.NewClient(l.Addr().String(), grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(b, err)
	b.Cleanup(func() { _ = bare.Close() })

	duty, question := pb.NewHydraulicsServiceClient(guarded), dutyQuestion()
	calls := []func() error{
		func() error { _, err := duty.SolveDuty(b.Context(), question); return err },
		func() error {
			_, err := healthpb.NewHealthClient(guarded).Check(b.Context(), &healthpb.HealthCheckRequest{})
			return err
		},
		func() error {
			_, err := pb.NewHydraulicsServiceClient(bare).SolveDuty(b.Context(), question)
			return err
		},
	}
	took := make([][]time.Duration, len(calls))
	for b.Loop() {
		for i, call := range calls {
			began := time.Now()
			require.NoError(b, call())
			took[i] = append(took[i], time.Since(began))
		}
	}
	for i := range took {
		slices.Sort(took[i])
	}
	middle := func(i int) float64 { return float64(took[i][len(took[i])/2].Microseconds()) }
	b.ReportMetric(middle(0), "duty-µs")
	b.ReportMetric(middle(1), "smallest-µs")
	b.ReportMetric(middle(2), "bare-µs")
	b.ReportMetric(middle(0)/middle(1), "duty/smallest")
	b.ReportMetric(middle(0)/middle(2), "duty/bare")
}

// dutyQuestion is of an invented pump behind 8 m of hose.
func dutyQuestion() *pb.SolveDutyRequest {
	pump := &eq.Pump{}
	for _, p := range [][2]float64{{0, 3}, {1000, 2.83}, {2000, 2.42}, {3000, 1.8}, {4000, 0.99}, {5000, 0}} {
		pump.Curve = append(pump.Curve, &eq.CurvePoint{FlowLPerH: new(p[0]), HeadM: new(p[1])})
	}
	return &pb.SolveDutyRequest{
		Pump: pump, LiftM: new(1.2), Run: &pb.HoseRun{LengthM: 8, Size: &pb.HoseRun_BoreMm{BoreMm: 25}, FittingsInWords: "3 slow bends"},
	}
}

package engine_test

import (
	"net"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/credentials/insecure"

	pb "example.com/pondwright/proto/pondwright/v1"
)

// Curves per second through the engine, against the same stream with the check removed, turn about in one run so that whatever else
// the machine does falls on both. Client and server share the processors.
func BenchmarkCurvesAgainstTheBareStream(b *testing.B) {
	_, conn := start(b)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(b, err)
	server := grpc.NewServer()
	pb.RegisterCurveServiceServer(server, unchecked{})
	go server.Serve(l)
	defer server.Stop()
	bareConn, err := grpc.NewClient(l.Addr().String(), grpc.WithTransportCredentials(insecure.NewCredentials()))
	require.NoError(b, err)
	defer bareConn.Close()

	const n, perMessage = 20000, 200
	var messages []*pb.CheckCurvesRequest
	for at := 0; at < n; at += perMessage {
		var items []*pb.CurveItem
		for i := at; i < at+perMessage; i++ {
			items = append(items, curveItem(i))
		}
		messages = append(messages, &pb.CheckCurvesRequest{Curves: items})
	}
	full, bare := pb.NewCurveServiceClient(conn), pb.NewCurveServiceClient(bareConn)
	pumpCurves(b, full, messages)
	pumpCurves(b, bare, messages)
	var checked, passed time.Duration
	rounds := 0
	for b.Loop() {
		begun := time.Now()
		pumpCurves(b, full, messages)
		checked += time.Since(begun)
		begun = time.Now()
		pumpCurves(b, bare, messages)
		passed += time.Since(begun)
		rounds++
	}
	b.ReportMetric(float64(n*rounds)/checked.Seconds(), "curves/s")
	b.ReportMetric(float64(n*rounds)/passed.Seconds(), "bare/s")
	b.ReportMetric(passed.Seconds()/checked.Seconds(), "of-bare")
}

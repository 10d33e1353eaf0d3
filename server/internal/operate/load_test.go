package operate_test

import (
	"context"
	"errors"
	"io"
	"os"
	"runtime"
	"slices"
	"sync"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/status"

	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/operate/rig"
)

// loadTime is how long the load lasts: five minutes by hand with PONDWRIGHT_LOAD=5m.
func loadTime(t testing.TB) time.Duration {
	said := os.Getenv("PONDWRIGHT_LOAD")
	if said == "" {
		return 3 * time.Second
	}
	d, err := time.ParseDuration(said)
	require.NoError(t, err, "PONDWRIGHT_LOAD is a time such as 5m")
	return min(d, 10*time.Minute)
}

// ledger keeps what became of the calls of each kind.
type ledger struct {
	mu     sync.Mutex
	took   map[string][]time.Duration
	busy   int
	broken []error
}

func (l *ledger) enter(kind string, took time.Duration, err error) {
	l.mu.Lock()
	defer l.mu.Unlock()
	switch {
	case err == nil:
		l.took[kind] = append(l.took[kind], took)
	case promisedRefusal(err):
		l.busy++
	case len(l.broken) < 10:
		l.broken = append(l.broken, err)
	}
}

// promisedRefusal is the one error that a busy server may give: it says when to come again.
func promisedRefusal(err error) bool {
	s := status.Convert(err)
	return s.Code() == codes.ResourceExhausted && slices.ContainsFunc(s.Details(), func(d any) bool {
		_, ok := d.(*errdetails.RetryInfo)
		return ok
	})
}

func (l *ledger) p99(kind string) time.Duration {
	slices.Sort(l.took[kind])
	return l.took[kind][len(l.took[kind])*99/100]
}

// A server with more callers than it takes at once answers the rest at once that it is busy, makes no other error, and holds no more
// memory at the end than after a quarter of the time.
func TestMoreCallersThanItTakesAtOnce(t *testing.T) {
	r := rig.Start(t, nil, func(s *config.Settings) { s.Limits.Calls, s.Limits.CallsPerClient = 2, 2 })
	const callers = 16 // on two cores more than enough to keep both at work
	span := loadTime(t)
	kept := ledger{took: map[string][]time.Duration{}}
	ctx, cancel := context.WithTimeout(t.Context(), span)
	defer cancel()
	var heapEarly runtime.MemStats
	var going sync.WaitGroup
	for n := range callers {
		mix := mixed(r.Dial(t, nil))
		going.Go(func() {
			for i := n; ctx.Err() == nil; i++ {
				one := mix[i%len(mix)]
				began := time.Now()
				err := one.call(context.WithoutCancel(ctx)) // those under way at the end are waited for
				kept.enter(one.kind, time.Since(began), err)
				if err != nil {
					time.Sleep(2 * time.Millisecond) // less than it asks for, so that it stays busy
				}
			}
		})
	}
	time.Sleep(span / 4)
	runtime.GC()
	runtime.ReadMemStats(&heapEarly)
	going.Wait()

	assert.Empty(t, kept.broken, "no error but that it is busy")
	assert.Positive(t, kept.busy, "it was driven to its limit")
	ledgerBytes := uint64(0)
	for kind, took := range kept.took {
		t.Logf("%-14s %8d answered, p50 %v, p99 %v, %.1f times the bare call's", kind, len(took), took[len(took)/2].Round(time.Microsecond),
			kept.p99(kind).Round(time.Microsecond), float64(kept.p99(kind))/float64(kept.p99(bareCall)))
		ledgerBytes += uint64(8 * cap(took))
	}
	runtime.GC()
	var heapLate runtime.MemStats
	runtime.ReadMemStats(&heapLate)
	t.Logf("%d turned away in %v; heap %d kB early, %d kB late, of which %d kB are this test's own notes",
		kept.busy, span, heapEarly.HeapAlloc>>10, heapLate.HeapAlloc>>10, ledgerBytes>>10)
	// A leak of 100 bytes a call would show; garbage of the pools does not.
	assert.Less(t, heapLate.HeapAlloc, heapEarly.HeapAlloc+ledgerBytes+8<<20, "memory is flat")
}

const bareCall = "bare call"

type oneKind struct {
	kind string
	call func(context.Context) error
}

// mixed is what tills, landscapers and checkers ask, in about the shares they do, with the smallest call beside it as the measure.
func mixed(conn *grpc.ClientConn) []oneKind {
	duty := oneKind{"duty", func(ctx context.Context) error {
		_, err := pb.NewHydraulicsServiceClient(conn).SolveDuty(ctx, dutyQuestion())
		return err
	}}
	bare := oneKind{bareCall, func(ctx context.Context) error {
		_, err := healthpb.NewHealthClient(conn).Check(ctx, &healthpb.HealthCheckRequest{})
		return err
	}}
	return []oneKind{
		duty, bare, duty, bare, duty,
		{"volume", func(ctx context.Context) error {
			_, err := pb.NewVolumeServiceClient(conn).CalculateVolume(ctx, &pb.CalculateVolumeRequest{Pond: brief().GetPond()})
			return err
		}}, bare,
		{"kits", func(ctx context.Context) error {
			_, err := pb.NewKitServiceClient(conn).SuggestKits(ctx, &pb.SuggestKitsRequest{Brief: brief()})
			return err
		}}, duty,
		{"items", func(ctx context.Context) error {
			_, err := pb.NewCatalogueServiceClient(conn).ListItems(ctx, &pb.ListItemsRequest{PageSize: 20})
			return err
		}},
		{"curves", func(ctx context.Context) error { return checkTen(ctx, conn) }},
	}
}

// checkTen sends ten curves in one stream.
func checkTen(ctx context.Context, conn *grpc.ClientConn) error {
	stream, err := pb.NewCurveServiceClient(conn).CheckCurves(ctx)
	if err != nil {
		return err
	}
	req := &pb.CheckCurvesRequest{}
	for range 10 {
		req.Curves = append(req.Curves, &pb.CurveItem{Pump: dutyQuestion().GetPump()})
	}
	if err := errors.Join(stream.Send(req), stream.CloseSend()); err != nil && !errors.Is(err, io.EOF) {
		return err
	}
	for {
		if _, err := stream.Recv(); errors.Is(err, io.EOF) {
			return nil
		} else if err != nil {
			return err
		}
	}
}

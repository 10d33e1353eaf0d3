package engine_test

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"
	"google.golang.org/protobuf/proto"

	eq "example.com/pondwright/proto/pondwright/equipment/v1"
	pb "example.com/pondwright/proto/pondwright/v1"
)

// curveItem makes a sound curve: H = H₀ (1 - xⁿ) with the unevenness of a measurement and flows that are not evenly spaced, of many
// sizes and exponents, with power that rises with flow.
func curveItem(i int) *pb.CurveItem {
	size := 1 + 0.37*float64(i%37) + 0.001*float64(i%1009)
	p := &eq.Pump{}
	for k := range 8 {
		x, uneven := float64(k)/7, 0.007*math.Sin(float64(i*7+k*13))
		if k == 0 || k == 7 {
			uneven = 0
		} else {
			x += 0.06 * math.Sin(float64(i*11+k*5))
		}
		n := 1.3 + 1.3*math.Mod(0.618034*float64(i), 1)
		q, h, w := math.Round(3000*size*x), math.Round(100*(2+0.05*size)*(1-math.Pow(x, n)+uneven))/100, math.Round(10*45*size*(0.7+0.3*x))/10
		p.Curve = append(p.Curve, &eq.CurvePoint{FlowLPerH: &q, HeadM: &h, PowerW: &w})
	}
	return &pb.CurveItem{ItemNumber: fmt.Sprintf("PU-%06d", i), Pump: p}
}

func curveItems(from, to int) []*pb.CurveItem {
	var items []*pb.CurveItem
	for i := from; i < to; i++ {
		item := curveItem(i)
		switch i % 50 {
		case 7: // axes swapped
			for _, c := range item.Pump.Curve {
				c.FlowLPerH, c.HeadM = c.HeadM, c.FlowLPerH
			}
		case 23: // no number at all, which must not end the stream
			*item.Pump.Curve[3].HeadM = math.NaN()
		case 31:
			item.Pump.Curve[4].FlowLPerH = nil
		}
		items = append(items, item)
	}
	return items
}

type curveStream = grpc.BidiStreamingClient[pb.CheckCurvesRequest, pb.CheckCurvesResponse]

// exchange sends messages one by one, and waits for the answer of each.
func exchange(t *testing.T, stream curveStream, requests ...*pb.CheckCurvesRequest) (results []*pb.CurveResult, cursor []*pb.CurveCursor) {
	t.Helper()
	for _, req := range requests {
		require.NoError(t, stream.Send(req))
		if len(req.GetCurves()) == 0 {
			continue
		}
		for {
			resp, err := stream.Recv()
			require.NoError(t, err)
			results = append(results, resp.GetResults()...)
			if resp.GetCursor() == nil {
				break
			}
			cursor = append(cursor, resp.GetCursor())
			if resp.GetCursor().GetLast() {
				break
			}
		}
	}
	return results, cursor
}

func finished(t *testing.T, stream curveStream) *pb.CurveReview {
	t.Helper()
	require.NoError(t, stream.CloseSend())
	last, err := stream.Recv()
	require.NoError(t, err)
	require.NotNil(t, last.GetReview())
	assert.NotEmpty(t, last.GetProvenance().GetEngineVersion())
	_, err = stream.Recv()
	require.ErrorIs(t, err, io.EOF)
	return last.GetReview()
}

func TestCurvesAreCheckedInOrderAndAStreamCanBeTakenUpAgain(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCurveServiceClient(conn)
	whole, err := client.CheckCurves(t.Context())
	require.NoError(t, err)
	var requests []*pb.CheckCurvesRequest
	for at := 0; at < 1000; at += 100 {
		requests = append(requests, &pb.CheckCurvesRequest{Curves: curveItems(at, at+100)})
	}
	requests[0].Options = &pb.CurveCheckOptions{CurvesPerCursor: 400}
	results, cursors := exchange(t, whole, requests...)
	review := finished(t, whole)
	assert.EqualValues(t, 1000, review.GetCurveCount())
	assert.EqualValues(t, 1000, review.GetSoundCount()+review.GetNoteCount()+review.GetCautionCount()+review.GetStopCount())
	assert.NotEmpty(t, review.GetCoverage().GetDuties())
	place := int32(-1)
	for _, r := range results {
		assert.Greater(t, r.GetPlace(), place)
		place = r.GetPlace()
		assert.Equal(t, fmt.Sprintf("PU-%06d", place), r.GetItemNumber())
	}
	codesOf := func(place int32) (all []string) {
		for _, r := range results {
			for _, d := range r.GetDefects() {
				if r.GetPlace() == place {
					all = append(all, d.GetCode())
				}
			}
		}
		return all
	}
	assert.Contains(t, codesOf(107), "AXES_SWAPPED")
	assert.Contains(t, codesOf(123), "NUMBER_MISSING")
	assert.Contains(t, codesOf(131), "NUMBER_MISSING")

	require.EqualValues(t, 400, cursors[0].GetCurveCount())
	again, err := client.CheckCurves(t.Context())
	require.NoError(t, err)
	resumed := []*pb.CheckCurvesRequest{{Options: requests[0].Options}}
	for _, part := range cursors {
		resumed = append(resumed, &pb.CheckCurvesRequest{Resume: part})
		if part.GetLast() {
			break
		}
	}
	rest, _ := exchange(t, again, append(resumed, requests[4:]...)...)
	assert.True(t, proto.Equal(review, finished(t, again)), "the review is that of the whole")
	for len(results) > 0 && results[0].GetPlace() < 400 {
		results = results[1:]
	}
	require.Len(t, rest, len(results))
	for i := range rest {
		assert.True(t, proto.Equal(results[i], rest[i]), "%v %v", results[i], rest[i])
	}
}

func TestAStreamSaysWhatIsWrongWithItself(t *testing.T) {
	_, conn := start(t)
	client := pb.NewCurveServiceClient(conn)
	for name, req := range map[string]*pb.CheckCurvesRequest{
		"options.grade":             {Options: &pb.CurveCheckOptions{Grade: "9Z"}},
		"options.curves_per_cursor": {Options: &pb.CurveCheckOptions{CurvesPerCursor: -1}},
		"curves":                    {Curves: make([]*pb.CurveItem, 1001)},
		"resume":                    {Resume: &pb.CurveCursor{Part: []byte("not a cursor"), Last: true}},
	} {
		for i := range req.GetCurves() {
			req.Curves[i] = &pb.CurveItem{}
		}
		stream, err := client.CheckCurves(t.Context())
		require.NoError(t, err)
		require.NoError(t, stream.Send(req))
		_, err = stream.Recv()
		assert.Equal(t, codes.InvalidArgument, status.Code(err), name)
		assert.Contains(t, status.Convert(err).Message(), name+":")
	}
	// A stream of nothing is a catalogue of nothing.
	stream, err := client.CheckCurves(t.Context())
	require.NoError(t, err)
	assert.Zero(t, finished(t, stream).GetCurveCount())
}

// An empty curve, a curve of nothing but nonsense and one with more points than any has are defects of theirs.
func TestNothingInACurveEndsTheStream(t *testing.T) {
	_, conn := start(t)
	stream, err := pb.NewCurveServiceClient(conn).CheckCurves(t.Context())
	require.NoError(t, err)
	many := &eq.Pump{}
	for i := range 5000 {
		q, h := float64(i), float64(5000-i)/1000
		many.Curve = append(many.Curve, &eq.CurvePoint{FlowLPerH: &q, HeadM: &h})
	}
	nonsense := math.Inf(-1)
	results, _ := exchange(t, stream, &pb.CheckCurvesRequest{Curves: []*pb.CurveItem{
		{}, {ItemNumber: "a", Pump: many}, {ItemNumber: "b", Pump: &eq.Pump{PowerW: &nonsense, Curve: []*eq.CurvePoint{{HeadM: &nonsense}, nil, {}}}}, curveItem(1),
	}})
	require.Len(t, results, 3)
	for i, code := range []string{"TOO_FEW_POINTS", "TOO_MANY_POINTS", "NUMBER_MISSING"} {
		var all []string
		for _, d := range results[i].GetDefects() {
			all = append(all, d.GetCode())
		}
		assert.Contains(t, all, code)
	}
	finished(t, stream)
}

func TestAStreamCanBeCancelledAtOnce(t *testing.T) {
	_, conn := start(t)
	ctx, cancel := context.WithCancel(t.Context())
	stream, err := pb.NewCurveServiceClient(conn).CheckCurves(ctx)
	require.NoError(t, err)
	exchange(t, stream, &pb.CheckCurvesRequest{Curves: curveItems(0, 100)})
	cancel()
	for err = nil; err == nil; {
		_, err = stream.Recv()
	}
	assert.Equal(t, codes.Canceled, status.Code(err))
}

// The demo catalogue is sound: what the batch check finds in it would be a false alarm.
func TestTheDemoCataloguePassesInSilence(t *testing.T) {
	_, conn := start(t)
	resp, err := pb.NewCurveServiceClient(conn).ReviewCatalogue(t.Context(), &pb.ReviewCatalogueRequest{})
	require.NoError(t, err)
	for _, r := range resp.GetResults() {
		for _, d := range r.GetDefects() {
			t.Errorf("%s: %s %s", r.GetItemNumber(), d.GetCode(), d.GetSentence())
		}
	}
	assert.Greater(t, resp.GetReview().GetCurveCount(), int32(30))
	assert.Equal(t, resp.GetReview().GetCurveCount(), resp.GetReview().GetEfficiencyPercent().GetCurveCount())
	_, err = pb.NewCurveServiceClient(conn).ReviewCatalogue(t.Context(), &pb.ReviewCatalogueRequest{Catalogue: "elsewhere"})
	assert.Equal(t, codes.NotFound, status.Code(err))
}

// Memory does not grow with the stream: ten times the curves take no more than the tables of one size, which a hundred thousand
// curves do not fill either.
func TestMemoryStaysFlat(t *testing.T) {
	if testing.Short() {
		t.Skip("checks 20,000 curves")
	}
	_, conn := start(t)
	live := func(n int) uint64 {
		stream, err := pb.NewCurveServiceClient(conn).CheckCurves(t.Context())
		require.NoError(t, err)
		for at := 0; at < n; at += 1000 {
			exchange(t, stream, &pb.CheckCurvesRequest{Curves: curveItems(at, at+1000)})
		}
		runtime.GC()
		var m runtime.MemStats
		runtime.ReadMemStats(&m)
		finished(t, stream)
		return m.HeapAlloc
	}
	few, many := live(2000), live(20000)
	const tables = 40 << 20 // imprints and item numbers of the last 131,072 curves, about 200 bytes each
	t.Logf("%d KiB in use after 2,000 curves and %d KiB after 20,000", few>>10, many>>10)
	assert.Less(t, many, few+tables)
}

// pump sends n curves as fast as the other side takes them.
func pumpCurves(b *testing.B, client pb.CurveServiceClient, messages []*pb.CheckCurvesRequest) {
	stream, err := client.CheckCurves(b.Context())
	require.NoError(b, err)
	done := make(chan error, 1)
	go func() {
		for {
			_, err := stream.Recv()
			if errors.Is(err, io.EOF) {
				err = nil
			} else if err == nil {
				continue
			}
			done <- err
			return
		}
	}()
	for _, m := range messages {
		require.NoError(b, stream.Send(m))
	}
	require.NoError(b, stream.CloseSend())
	require.NoError(b, <-done)
}

// unchecked is the same stream with the check removed: it reads every message and answers it.
type unchecked struct {
	pb.UnimplementedCurveServiceServer
}

func (unchecked) CheckCurves(stream grpc.BidiStreamingServer[pb.CheckCurvesRequest, pb.CheckCurvesResponse]) error {
	n := int32(0)
	for {
		req, err := stream.Recv()
		if errors.Is(err, io.EOF) {
			return stream.Send(&pb.CheckCurvesResponse{CurveCount: n, Review: &pb.CurveReview{}})
		}
		if err != nil {
			return err
		}
		n += int32(len(req.GetCurves()))
		if err := stream.Send(&pb.CheckCurvesResponse{CurveCount: n}); err != nil {
			return err
		}
	}
}

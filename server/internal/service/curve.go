package service

import (
	"context"
	"errors"
	"fmt"
	"io"
	"runtime"
	"slices"
	"sync"
	"sync/atomic"

	"google.golang.org/genproto/googleapis/rpc/errdetails"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"example.com/pondwright/calc/defect"
	"example.com/pondwright/calc/pump"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/intercept"
	"example.com/pondwright/server/internal/wire"
)

// Bounds of one message and of a cursor, those of the proto.
const (
	mostCurves      = 1000
	mostCursorBytes = 16 << 20
	usualGrade      = "usual"
)

type curves struct {
	pb.UnimplementedCurveServiceServer
	engine *Engine
}

// A curveCheck is one stream of curves.
type curveCheck struct {
	engine  *Engine
	options *pb.CurveCheckOptions
	checker *defect.Checker
	read    wire.CurveItems
	cursor  []byte // parts of one that is coming in
	resumed bool
	since   int // curves since the last cursor
}

// CheckCurves implements pb.CurveServiceServer. One message is in hand and one is being read: whoever sends faster than the engine
// checks is held back by the transport.
func (s curves) CheckCurves(stream grpc.BidiStreamingServer[pb.CheckCurvesRequest, pb.CheckCurvesResponse]) error {
	check := &curveCheck{engine: s.engine}
	for incoming := range readAhead(stream) {
		if errors.Is(incoming.err, io.EOF) {
			return check.finish(stream)
		}
		if incoming.err != nil {
			return incoming.err
		}
		if err := check.begin(incoming.req); err != nil {
			return err
		}
		if len(incoming.req.GetCurves()) == 0 {
			continue
		}
		if err := check.answer(stream, incoming.req.GetCurves()); err != nil {
			return err
		}
	}
	return gone(stream.Context())
}

type received struct {
	req *pb.CheckCurvesRequest
	err error
}

// readAhead reads the next message while one is being checked. It ends with the stream, whose context does when the call returns.
func readAhead(stream grpc.BidiStreamingServer[pb.CheckCurvesRequest, pb.CheckCurvesResponse]) <-chan received {
	ahead := make(chan received)
	go func() {
		defer close(ahead)
		for {
			req, err := stream.Recv()
			select {
			case ahead <- received{req, err}:
			case <-stream.Context().Done():
				return
			}
			if err != nil {
				return
			}
		}
	}()
	return ahead
}

// begin takes up what a message says of the stream itself.
func (c *curveCheck) begin(req *pb.CheckCurvesRequest) error {
	if c.checker == nil {
		checker, err := newCurveChecker(req.GetOptions())
		if err != nil {
			return err
		}
		c.checker, c.options = checker, req.GetOptions()
	}
	if n := len(req.GetCurves()); n > mostCurves {
		return faulty("curves", "send a thousand curves in one message, at most", "TOO_MANY_CURVES")
	}
	if err := c.resume(req.GetResume()); err != nil {
		return err
	}
	if len(c.cursor) > 0 && len(req.GetCurves()) > 0 {
		return faulty("resume", "send all parts of the cursor before the first curve", "CURSOR_INCOMPLETE")
	}
	return nil
}

func (c *curveCheck) resume(part *pb.CurveCursor) error {
	if part == nil {
		return nil
	}
	if c.resumed || c.checker.Checked() > 0 {
		return faulty("resume", "send one cursor, and before the first curve", "CURSOR_LATE")
	}
	if len(c.cursor)+len(part.GetPart()) > mostCursorBytes {
		return faulty("resume", "is no cursor of this engine: it is too long", "CURSOR_UNKNOWN")
	}
	c.cursor = append(c.cursor, part.GetPart()...)
	if !part.GetLast() {
		return nil
	}
	state, err := wire.Cursor(c.cursor, c.engine.Version)
	if err == nil {
		err = c.checker.Restore(state)
	}
	if err != nil {
		return faulty("resume", err.Error(), "CURSOR_UNKNOWN")
	}
	c.cursor, c.resumed = nil, true
	return nil
}

// answer checks the curves of one message.
func (c *curveCheck) answer(stream grpc.BidiStreamingServer[pb.CheckCurvesRequest, pb.CheckCurvesResponse], items []*pb.CurveItem) error {
	resp := &pb.CheckCurvesResponse{Results: checkItems(c.checker, &c.read, items, c.options.GetEveryCurve())}
	resp.CurveCount = int32(c.checker.Checked())
	c.since += len(items)
	var further []*pb.CurveCursor
	if every := int(c.options.GetCurvesPerCursor()); every > 0 && c.since >= every {
		parts, err := wire.CursorParts(c.checker.State(), c.engine.Version)
		if err != nil {
			return err
		}
		resp.Cursor, further, c.since = parts[0], parts[1:], 0
	}
	if err := stream.Send(resp); err != nil {
		return err
	}
	for _, part := range further {
		if err := stream.Send(&pb.CheckCurvesResponse{CurveCount: resp.CurveCount, Cursor: part}); err != nil {
			return err
		}
	}
	return nil
}

func (c *curveCheck) finish(stream grpc.BidiStreamingServer[pb.CheckCurvesRequest, pb.CheckCurvesResponse]) error {
	if c.checker == nil { // nothing was sent at all
		checker, err := newCurveChecker(nil)
		if err != nil {
			return err
		}
		c.checker = checker
	}
	if len(c.cursor) > 0 {
		return faulty("resume", "send the last part of the cursor too", "CURSOR_INCOMPLETE")
	}
	options := c.options
	if options == nil {
		options = &pb.CurveCheckOptions{}
	}
	p, err := c.engine.provenance(options, nil)
	if err != nil {
		return err
	}
	return stream.Send(&pb.CheckCurvesResponse{
		CurveCount: int32(c.checker.Checked()), Review: wire.CurveReview(c.checker.Review()), Provenance: p,
	})
}

// newCurveChecker makes a checker for the options, which are held to their limits here: the rules of other requests do not come to
// the messages of a stream.
func newCurveChecker(options *pb.CurveCheckOptions) (*defect.Checker, error) {
	if n := options.GetCurvesPerCursor(); n < 0 || n > 10000000 {
		return nil, faulty("options.curves_per_cursor", "give 0, or up to 10000000", "INT32_GTE_LTE")
	}
	name := options.GetGrade()
	if name == "" {
		name = usualGrade
	}
	grade, err := pump.GradeNamed(name)
	if err != nil {
		return nil, refused(err, "options")
	}
	checker := defect.NewChecker(grade)
	checker.Spread = spread
	return checker, nil
}

// spread does something for each number below n on all processors. A panic on any comes out here, where the call's own recovery is.
func spread(n int, do func(i int)) {
	workers := min(runtime.GOMAXPROCS(0), n)
	share := (n + workers - 1) / max(workers, 1)
	var done sync.WaitGroup
	var panicked atomic.Value
	for from := share; from < n; from += share {
		done.Go(func() {
			defer func() {
				if p := recover(); p != nil {
					panicked.Store(fmt.Sprint(p))
				}
			}()
			for i := from; i < min(from+share, n); i++ {
				do(i)
			}
		})
	}
	for i := range min(share, n) {
		do(i)
	}
	done.Wait()
	if p := panicked.Load(); p != nil {
		panic(p)
	}
}

// checkItems checks curves and gives the results that are to be sent.
func checkItems(checker *defect.Checker, read *wire.CurveItems, items []*pb.CurveItem, every bool) []*pb.CurveResult {
	var made []*pb.CurveResult
	for i, r := range checker.Check(read.Read(items)) {
		if every || len(r.Defects) > 0 {
			made = append(made, wire.CurveResult(r, items[i]))
		}
	}
	return made
}

// ReviewCatalogue implements pb.CurveServiceServer.
func (s curves) ReviewCatalogue(ctx context.Context, req *pb.ReviewCatalogueRequest) (*pb.ReviewCatalogueResponse, error) {
	checker, err := newCurveChecker(req.GetOptions())
	if err != nil {
		return nil, err
	}
	snapshot := s.engine.Store.Snapshot()
	var items []*pb.CurveItem
	named := func(r *pb.CatalogueRevision) bool { return r.GetCatalogue() == req.GetCatalogue() }
	if req.GetCatalogue() != "" && !slices.ContainsFunc(snapshot.Revisions(), named) {
		return nil, status.Errorf(codes.NotFound, "there is no catalogue %q; ListCatalogues names them", req.GetCatalogue())
	}
	for _, entry := range snapshot.Items {
		if p := entry.GetItem().GetPump(); p != nil && (req.GetCatalogue() == "" || entry.GetCatalogue() == req.GetCatalogue()) {
			items = append(items, &pb.CurveItem{ItemNumber: entry.GetItem().GetItemNumber(), Pump: p})
		}
	}
	resp, read := &pb.ReviewCatalogueResponse{}, &wire.CurveItems{}
	for at := 0; at < len(items); at += mostCurves {
		if err := ctx.Err(); err != nil {
			return nil, gone(ctx)
		}
		resp.Results = append(resp.Results, checkItems(checker, read, items[at:min(at+mostCurves, len(items))], req.GetOptions().GetEveryCurve())...)
	}
	resp.Review = wire.CurveReview(checker.Review())
	resp.Provenance, err = s.engine.provenance(req, snapshot)
	return resp, err
}

func faulty(field, what, reason string) error {
	return intercept.BadRequest([]*errdetails.BadRequest_FieldViolation{{Field: field, Description: what, Reason: reason}})
}

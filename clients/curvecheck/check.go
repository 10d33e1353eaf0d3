package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"example.com/pondwright/clients/curvecheck/intake"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

const (
	perMessage = 200  // curves
	inFlight   = 8    // messages that wait for their answer
	perBlock   = 5000 // curves of one call, where several engines share the work
	attempts   = 4    // at one block
)

// each is told of every curve in order, with what was found in it; nil for a sound one.
type each func(item intake.Item, place int, found *pondwrightv1.CurveResult) error

// a supply gives the next curves; none, and io.EOF, at the end.
type supply func() ([]intake.Item, error)

func fromReader(r *intake.Reader, most int) supply {
	return func() ([]intake.Item, error) {
		var items []intake.Item
		for len(items) < most {
			item, err := r.Next()
			if err != nil {
				if errors.Is(err, io.EOF) && len(items) > 0 {
					return items, nil
				}
				return nil, err
			}
			items = append(items, item)
		}
		return items, nil
	}
}

// checkStream puts curves through one call. What waits for its answer is bounded, and so is memory.
func checkStream(ctx context.Context, client pondwrightv1.CurveServiceClient, options *pondwrightv1.CurveCheckOptions, next supply, tell each) (*pondwrightv1.CurveReview, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	stream, err := client.CheckCurves(ctx, grpc.MaxCallRecvMsgSize(longestAnswer))
	if err != nil {
		return nil, err
	}
	waiting := make(chan []intake.Item, inFlight)
	sent := make(chan error, 1)
	go func() { sent <- send(ctx, stream, options, next, waiting) }()
	place := 0
	for {
		resp, err := stream.Recv()
		if err != nil {
			cancel()
			if local := <-sent; local != nil && status.Code(err) == codes.Canceled {
				err = local
			}
			return nil, err
		}
		if resp.GetReview() != nil {
			return resp.GetReview(), <-sent
		}
		var items []intake.Item
		select {
		case items = <-waiting:
		case <-ctx.Done():
			return nil, ctx.Err()
		}
		results := resp.GetResults()
		for _, item := range items {
			var found *pondwrightv1.CurveResult
			if len(results) > 0 && int(results[0].GetPlace()) == place {
				found, results = results[0], results[1:]
			}
			if err := tell(item, place, found); err != nil {
				return nil, err
			}
			place++
		}
	}
}

func send(ctx context.Context, stream grpc.BidiStreamingClient[pondwrightv1.CheckCurvesRequest, pondwrightv1.CheckCurvesResponse],
	options *pondwrightv1.CurveCheckOptions, next supply, waiting chan<- []intake.Item) error {
	for {
		items, err := next()
		if errors.Is(err, io.EOF) {
			if err := stream.Send(&pondwrightv1.CheckCurvesRequest{Options: options}); err != nil && !errors.Is(err, io.EOF) { // for a file without curves
				return err
			}
			return stream.CloseSend()
		}
		if err != nil {
			stream.CloseSend()
			cancelled := ctx.Err()
			return errors.Join(err, cancelled)
		}
		req := &pondwrightv1.CheckCurvesRequest{Options: options}
		for _, item := range items {
			req.Curves = append(req.Curves, item.Message)
		}
		select {
		case waiting <- items:
		case <-ctx.Done():
			return ctx.Err()
		}
		if err := stream.Send(req); err != nil {
			if errors.Is(err, io.EOF) {
				return nil // the engine ended it, and Recv says why
			}
			return err
		}
	}
}

// block is one call's worth of curves, and what came of it.
type block struct {
	items  []intake.Item
	found  map[int]*pondwrightv1.CurveResult
	review *pondwrightv1.CurveReview
	err    error
	done   chan struct{}
}

// checkShared cuts the curves into blocks, has several engines check them side by side, and tells of them in order. A block whose engine
// fails goes to another. Copies are found within a block.
func checkShared(ctx context.Context, client pondwrightv1.CurveServiceClient, options *pondwrightv1.CurveCheckOptions, engines int, next supply, tell each) (*pondwrightv1.CurveReview, error) {
	ctx, cancel := context.WithCancel(ctx)
	defer cancel()
	queue := make(chan *block, engines)
	read := make(chan error, 1)
	go func() {
		defer close(queue)
		for {
			items, err := next()
			if err != nil {
				if errors.Is(err, io.EOF) {
					err = nil
				}
				read <- err
				return
			}
			b := &block{items: items, found: map[int]*pondwrightv1.CurveResult{}, done: make(chan struct{})}
			select {
			case queue <- b: // waits while all engines are busy
				go b.check(ctx, client, options)
			case <-ctx.Done():
				read <- ctx.Err()
				return
			}
		}
	}()
	review := &pondwrightv1.CurveReview{}
	place := 0
	for b := range queue {
		<-b.done
		if b.err != nil {
			cancel()
			for range queue { // until the reader has noticed
			}
			return nil, b.err
		}
		for i, item := range b.items {
			if found := b.found[i]; found != nil {
				found.Place = int32(place + i)
			}
			if err := tell(item, place+i, b.found[i]); err != nil {
				return nil, err
			}
		}
		review = joined(review, b.review, place)
		place += len(b.items)
	}
	return review, <-read
}

func (b *block) check(ctx context.Context, client pondwrightv1.CurveServiceClient, options *pondwrightv1.CurveCheckOptions) {
	defer close(b.done)
	for attempt := range attempts {
		at := 0
		next := func() ([]intake.Item, error) {
			if at == len(b.items) {
				return nil, io.EOF
			}
			end := min(at+perMessage, len(b.items))
			items := b.items[at:end]
			at = end
			return items, nil
		}
		clear(b.found)
		b.review, b.err = checkStream(ctx, client, options, next, func(_ intake.Item, place int, found *pondwrightv1.CurveResult) error {
			if found != nil {
				b.found[place] = found
			}
			return nil
		})
		if b.err == nil || status.Code(b.err) != codes.Unavailable || ctx.Err() != nil {
			return
		}
		select {
		case <-time.After(time.Duration(attempt+1) * 200 * time.Millisecond):
		case <-ctx.Done():
		}
	}
	b.err = fmt.Errorf("no engine answers: %w", b.err)
}

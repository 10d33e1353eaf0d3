// Package gate decides who may call what, how often and how much at once. It looks at a call before its request is read, so
// that a stranger costs next to nothing.
package gate

import (
	"context"
	"sync/atomic"

	"google.golang.org/grpc"
	"google.golang.org/grpc/metadata"
	"google.golang.org/grpc/tap"

	"example.com/pondwright/server/internal/config"
)

// A Gate guards one server. Its methods may be called at the same time.
type Gate struct {
	limits    config.Limits
	strict    bool // callers have to be on the list of clients
	certified bool // callers have to show a certificate
	rules     rules
	known     atomic.Pointer[register]
	strangers *strangers
	inHand    atomic.Int64
	secret    string // marks what the server's own listener for HTTP passes on
	refused   func(Reason)
}

// New makes a gate for settings that were checked. refused hears of every call that is turned away, and may be nil.
func New(s *config.Settings, refused func(Reason)) *Gate {
	if refused == nil {
		refused = func(Reason) {}
	}
	g := &Gate{
		limits: s.Limits, strict: s.KnowsCallers(), certified: s.TLS.ClientCA != "", rules: newRules(),
		strangers: newStrangers(), secret: newSecret(), refused: refused,
	}
	g.SetClients(s.Clients)
	return g
}

// SetClients puts another list of clients in force. Those who stay keep what they have used of their rate.
func (g *Gate) SetClients(clients []config.Client) {
	g.known.Store(newRegister(clients, g.limits, g.known.Load()))
}

// InHand is how many calls are being answered.
func (g *Gate) InHand() int { return int(g.inHand.Load()) }

type callerKey struct{}

// From is the caller of a call that was admitted, and nil where nobody looked.
func From(ctx context.Context) *Caller {
	c, _ := ctx.Value(callerKey{}).(*Caller)
	return c
}

// Tap looks at a call before its request is read.
func (g *Gate) Tap(ctx context.Context, info *tap.Info) (context.Context, error) {
	return g.admit(ctx, info.FullMethodName, info.Header)
}

// admit says who calls, and turns away who may not call that or has called too often.
func (g *Gate) admit(ctx context.Context, method string, header metadata.MD) (context.Context, error) {
	need, known := g.rules[method]
	if need == everyone && known {
		return ctx, nil
	}
	caller, no := g.identify(ctx, header)
	if caller == nil {
		return ctx, g.refuse(no)
	}
	switch {
	case !known, !caller.may(need):
		return ctx, g.refuse(forbidden(caller, method, need))
	case g.inHand.Load() >= int64(g.limits.Calls):
		return ctx, g.refuse(overloaded())
	}
	if wait := caller.wait(); wait > 0 {
		return ctx, g.refuse(tooOften(caller, wait))
	}
	return context.WithValue(ctx, callerKey{}, caller), nil
}

func (g *Gate) refuse(r refusal) error {
	g.refused(r.reason)
	return r.status()
}

// enter counts a call in, and turns it away where too many are in hand. leave counts it out.
func (g *Gate) enter(ctx context.Context, method string) (entered context.Context, leave func(), err error) {
	if g.rules.open(method) {
		return ctx, func() {}, nil
	}
	caller := From(ctx)
	if caller == nil { // a way in that has no tap
		header, _ := metadata.FromIncomingContext(ctx)
		if ctx, err = g.admit(ctx, method, header); err != nil {
			return ctx, nil, err
		}
		caller = From(ctx)
	}
	if g.inHand.Add(1) > int64(g.limits.Calls) {
		g.inHand.Add(-1)
		return ctx, nil, g.refuse(overloaded())
	}
	if caller.inHand.Add(1) > caller.most {
		caller.inHand.Add(-1)
		g.inHand.Add(-1)
		return ctx, nil, g.refuse(tooMany(caller))
	}
	return ctx, func() { caller.inHand.Add(-1); g.inHand.Add(-1) }, nil
}

// Unary guards calls of one request and one answer.
func (g *Gate) Unary(ctx context.Context, req any, info *grpc.UnaryServerInfo, next grpc.UnaryHandler) (any, error) {
	ctx, leave, err := g.enter(ctx, info.FullMethod)
	if err != nil {
		return nil, err
	}
	defer leave()
	return next(ctx, req)
}

// Stream guards streams. One counts as one call from its beginning to its end.
func (g *Gate) Stream(srv any, s grpc.ServerStream, info *grpc.StreamServerInfo, next grpc.StreamHandler) error {
	ctx, leave, err := g.enter(s.Context(), info.FullMethod)
	if err != nil {
		return err
	}
	defer leave()
	return next(srv, &within{ServerStream: s, ctx: ctx})
}

// within is a stream with a context of its own.
type within struct {
	grpc.ServerStream
	ctx context.Context
}

// Context implements grpc.ServerStream.
func (w *within) Context() context.Context { return w.ctx }

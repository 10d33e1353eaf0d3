// Package operate puts around an engine what one on a network needs: names and limits for its callers, TLS, time limits,
// telemetry, the audit log and the operator's port. An engine inside a client needs none of it.
package operate

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"sync"
	"time"

	"golang.org/x/time/rate"
	"google.golang.org/grpc"
	"google.golang.org/grpc/keepalive"

	"example.com/pondwright/calc"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/audit"
	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/gate"
	"example.com/pondwright/server/internal/intercept"
	"example.com/pondwright/server/internal/secure"
	"example.com/pondwright/server/internal/telemetry"
)

// An Operation is an engine and all that stands around it.
type Operation struct {
	*engine.Engine
	settings *config.Settings
	log      *slog.Logger
	gate     *gate.Gate
	keeper   *secure.Keeper
	clients  *clientsFile
	metrics  *telemetry.Metrics
	collect  *telemetry.Collected
	audit    *audit.Log
	admin    *telemetry.Admin
	stop     context.CancelFunc // ends what goes on in the background
	going    sync.WaitGroup
}

// New starts the engine and what stands around it, with settings that were checked.
func New(ctx context.Context, s *config.Settings, sources []catalogue.Source, log *slog.Logger) (o *Operation, err error) {
	o = &Operation{settings: s, log: log}
	defer func() {
		if err != nil {
			err = errors.Join(err, o.release(ctx))
		}
	}()
	if s.Admin.Listen != "" {
		o.metrics = telemetry.NewMetrics(engine.Version(), calc.MethodSet)
	}
	o.gate = gate.New(s, o.refused())
	o.clients = &clientsFile{path: string(s.ClientsFile), fixed: s.Clients, gate: o.gate, log: log}
	if err := o.clients.refresh(); err != nil {
		return nil, err
	}
	if s.TLS.Certificate != "" {
		if o.keeper, err = secure.NewKeeper(s.TLS, log); err != nil {
			return nil, err
		}
	}
	if s.Telemetry.OTLP != "" {
		if o.collect, err = telemetry.Collect(ctx, s.Telemetry, engine.Version()); err != nil {
			return nil, err
		}
	}
	if s.Audit.Folder != "" {
		var mended string
		if o.audit, mended, err = audit.Open(s.Audit); err != nil {
			return nil, err
		}
		if mended != "" {
			log.Warn("the last entry of the audit log was cut short and was set aside", "file", mended)
		}
	}
	if o.Engine, err = engine.New(ctx, o.around(sources)); err != nil {
		return nil, err
	}
	o.watch()
	return o, nil
}

// refused counts who is turned away, and logs one a second of them: more would let strangers fill the log.
func (o *Operation) refused() func(gate.Reason) {
	atTimes := &rate.Sometimes{Interval: time.Second}
	return func(r gate.Reason) {
		if o.metrics != nil {
			o.metrics.Refused(r)
		}
		atTimes.Do(func() { o.log.Warn("a call was turned away, and maybe more since", "reason", string(r)) })
	}
}

// around is the engine's configuration. The order is from the outside in: what is counted includes what is turned away, and
// what is turned away is neither logged as a question nor kept.
func (o *Operation) around(sources []catalogue.Source) engine.Config {
	s := o.settings
	cfg := engine.Config{
		Logger: o.log, Catalogues: sources, JSON: engine.JSONConfig{Forward: o.gate.Forward},
		MayReload: func(context.Context) error { return nil }, // the gate has looked
	}
	if o.metrics != nil {
		cfg.Panicked = o.metrics.Panicked
		cfg.Around = append(cfg.Around, o.metrics.Unary())
		cfg.AroundStream = append(cfg.AroundStream, o.metrics.Stream())
	}
	if s.Log.Calls != "none" {
		cfg.Around = append(cfg.Around, telemetry.Log(o.log, s.Log.Calls == "all", caller))
	}
	cfg.Around = append(cfg.Around, o.gate.Unary)
	cfg.AroundStream = append(cfg.AroundStream, o.gate.Stream)
	if o.audit != nil {
		failed := func() {}
		if o.metrics != nil {
			failed = o.metrics.AuditFailed
		}
		cfg.Around = append(cfg.Around, o.audit.Keep(o.log, caller, func() *pb.Provenance { return o.Provenance() }, failed))
	}
	cfg.Around = append(cfg.Around, intercept.Deadline(s.Limits.Time), intercept.Shape(s.Limits.Depth, s.Limits.ListLength))
	cfg.Options = []grpc.ServerOption{
		grpc.InTapHandle(o.gate.Tap),
		grpc.MaxRecvMsgSize(int(s.Limits.RequestBytes)),
		grpc.MaxConcurrentStreams(uint32(s.Limits.CallsPerConnection)),
		grpc.MaxHeaderListSize(32 << 10),
		grpc.KeepaliveEnforcementPolicy(keepalive.EnforcementPolicy{MinTime: 20 * time.Second, PermitWithoutStream: true}),
		grpc.KeepaliveParams(keepalive.ServerParameters{
			MaxConnectionIdle: 15 * time.Minute, MaxConnectionAge: s.Limits.ConnectionAge, MaxConnectionAgeGrace: s.Limits.Time + time.Minute,
			Time: 2 * time.Minute, Timeout: 20 * time.Second,
		}),
	}
	if o.collect != nil {
		cfg.Options = append(cfg.Options, grpc.StatsHandler(o.collect.Handler()))
	}
	if o.keeper != nil {
		cfg.Options = append(cfg.Options, grpc.Creds(o.keeper.Credentials()))
		cfg.JSON.TLS = o.keeper.Config()
	}
	return cfg
}

// caller is the name of who calls.
func caller(ctx context.Context) string {
	if c := gate.From(ctx); c != nil {
		return c.Name
	}
	return ""
}

// watch begins what goes on in the background, and tells the metrics what to read.
func (o *Operation) watch() {
	ctx, cancel := context.WithCancel(context.Background())
	o.stop = cancel
	if o.keeper != nil {
		o.going.Go(func() { o.keeper.Follow(ctx, o.settings.TLS.Reread) })
	}
	if o.clients.path != "" {
		o.going.Go(func() { o.clients.follow(ctx, o.settings.TLS.Reread) })
	}
	if o.metrics == nil {
		return
	}
	o.metrics.Prepare(o.GRPC())
	o.metrics.InHand(o.gate.InHand, o.settings.Limits.Calls)
	o.metrics.Catalogues(o.Engine.Catalogues)
	if o.keeper != nil {
		o.metrics.Certificate(o.keeper.Expires)
	}
	o.admin = telemetry.NewAdmin(o.metrics, o.Health())
}

// Serve answers calls on the listener until it is stopped, on so many connections at once as the limits say.
func (o *Operation) Serve(l net.Listener) error {
	return o.Engine.Serve(Bounded(l, o.settings.Limits.Connections))
}

// ServeOperator answers the operator on the listener until it is stopped.
func (o *Operation) ServeOperator(l net.Listener) error { return o.admin.Serve(l) }

// Refresh reads certificates and clients again.
func (o *Operation) Refresh() error {
	err := o.clients.refresh()
	if o.keeper != nil {
		err = errors.Join(err, o.keeper.Refresh())
	}
	return err
}

// Stop lets calls in flight finish until ctx ends, and then ends the rest.
func (o *Operation) Stop(ctx context.Context) error {
	return errors.Join(o.Engine.Stop(ctx), o.release(ctx))
}

func (o *Operation) release(ctx context.Context) error {
	if o.stop != nil {
		o.stop()
	}
	o.going.Wait()
	// Those who are told last have a moment of their own, even where the drain has used up its time.
	ctx, cancel := context.WithTimeout(context.WithoutCancel(ctx), 5*time.Second)
	defer cancel()
	var faults []error
	if o.admin != nil {
		faults = append(faults, o.admin.Stop(ctx))
	}
	if o.audit != nil {
		faults = append(faults, o.audit.Close())
	}
	if o.collect != nil {
		if err := o.collect.Stop(ctx); err != nil {
			o.log.Warn("what was left of the telemetry was not sent", "error", fmt.Sprint(err))
		}
	}
	return errors.Join(faults...)
}

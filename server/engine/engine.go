// Package engine is the calculation engine as one value: it reads the catalogues, serves the API on a listener and stops
// cleanly. The server program runs it on a port; a client without an engine to call runs it inside itself.
package engine

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"runtime/debug"
	"strings"
	"sync"
	"time"

	"buf.build/go/protovalidate"
	"google.golang.org/grpc"
	"google.golang.org/grpc/health"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/reflection"

	"example.com/pondwright/calc"
	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/host"
	pb "example.com/pondwright/proto/pondwright/v1"
	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/server/internal/intercept"
	"example.com/pondwright/server/internal/service"
)

// maxRequestBytes is far above any brief; it keeps one caller from filling memory.
const maxRequestBytes = 4 << 20

// Config is what an engine needs.
type Config struct {
	Logger     *slog.Logger // nil keeps no log
	Catalogues []catalogue.Source
	Pace       *catalogue.Pace // how soon what went wrong is tried again; the usual one when nil

	// What stands around an engine that is on a network. An engine inside a client has none of it.
	Options      []grpc.ServerOption
	Around       []grpc.UnaryServerInterceptor  // outside of everything but the net for panics
	AroundStream []grpc.StreamServerInterceptor // the same for streams
	Panicked     func()                         // hears of every panic that was contained
	MayReload    func(context.Context) error    // refuses who may not reload catalogues; nil serves this machine alone
	JSON         JSONConfig
}

// An Engine serves calculations. Its methods may be called at the same time.
type Engine struct {
	host   *host.Host
	store  *catalogue.Store
	server *grpc.Server
	health *health.Server
	json   JSONConfig
}

// New starts an engine: it reads every catalogue before it returns. A catalogue that cannot be read is logged and listed
// with its fault, and does not keep the others from being served; with none at all New fails. Stop it in the end.
func New(ctx context.Context, cfg Config) (*Engine, error) {
	if cfg.Logger == nil {
		cfg.Logger = slog.New(slog.DiscardHandler)
	}
	if faults := catalogue.CheckSources(cfg.Catalogues); len(faults) > 0 {
		return nil, errors.New("catalogues cannot be read as configured: " + strings.Join(faults, "; "))
	}
	checker, err := contract.NewChecker()
	if err != nil {
		return nil, fmt.Errorf("start engine: %w", err)
	}
	gate, err := host.New(host.Config{Logger: cfg.Logger, Checker: checker})
	if err != nil {
		return nil, fmt.Errorf("start engine: %w", err)
	}
	e := &Engine{host: gate, health: health.NewServer(), json: cfg.JSON}
	e.store = catalogue.NewStore(catalogue.Config{
		Gate: gate, Sources: cfg.Catalogues, Logger: cfg.Logger, Checker: checker, Health: e.catalogueHealth, Pace: cfg.Pace,
	})
	if err := e.store.Start(ctx); err != nil && len(e.store.Snapshot().Items) == 0 {
		e.store.Close()
		return nil, errors.Join(fmt.Errorf("no catalogue could be read: %w", err), gate.Close())
	}
	validator, err := protovalidate.New()
	if err != nil {
		e.store.Close()
		return nil, errors.Join(fmt.Errorf("start engine: %w", err), gate.Close())
	}
	unary := append([]grpc.UnaryServerInterceptor{intercept.Recover(cfg.Logger, cfg.Panicked)}, cfg.Around...)
	unary = append(unary, intercept.Origin(e.Provenance), intercept.Validate(validator))
	stream := append([]grpc.StreamServerInterceptor{intercept.RecoverStream(cfg.Logger, cfg.Panicked)}, cfg.AroundStream...)
	e.server = grpc.NewServer(append([]grpc.ServerOption{
		grpc.MaxRecvMsgSize(maxRequestBytes),
		grpc.ConnectionTimeout(10 * time.Second),
		grpc.WaitForHandlers(true),
		grpc.ChainUnaryInterceptor(unary...),
		grpc.ChainStreamInterceptor(stream...),
	}, cfg.Options...)...)
	services := (&service.Engine{Version: Version(), Store: e.store, MayReload: cfg.MayReload}).Register(e.server)
	healthpb.RegisterHealthServer(e.server, e.health)
	reflection.Register(e.server)
	for _, name := range append(services, "") {
		e.health.SetServingStatus(name, healthpb.HealthCheckResponse_SERVING)
	}
	return e, nil
}

// CatalogueHealth is what the health service calls the catalogue of a name: SERVING while its last reading went well and, where
// it answers live, its plugin runs. One that is not costs no other call: its last good reading stays in force.
func CatalogueHealth(catalogue string) string { return "catalogue/" + catalogue }

func (e *Engine) catalogueHealth(catalogue string, well bool) {
	status := healthpb.HealthCheckResponse_NOT_SERVING
	if well {
		status = healthpb.HealthCheckResponse_SERVING
	}
	e.health.SetServingStatus(CatalogueHealth(catalogue), status)
}

// Serve answers calls on the listener until the engine is stopped.
func (e *Engine) Serve(l net.Listener) error {
	if err := e.server.Serve(l); err != nil && !errors.Is(err, grpc.ErrServerStopped) {
		return fmt.Errorf("serve: %w", err)
	}
	return nil
}

// Provenance is what an answer would rest on now, but for the digest of its request.
func (e *Engine) Provenance() *pb.Provenance {
	return &pb.Provenance{EngineVersion: Version(), MethodSet: calc.MethodSet, Catalogues: e.store.Snapshot().Revisions()}
}

// Catalogues is what is in force of each catalogue.
func (e *Engine) Catalogues() []*pb.CatalogueStatus {
	var all []*pb.CatalogueStatus
	for _, s := range e.store.States() {
		all = append(all, s.Message())
	}
	return all
}

// Health is the health of each service, for probes on another port.
func (e *Engine) Health() healthpb.HealthServer { return e.health }

// GRPC is the server, for what wants to know its methods.
func (e *Engine) GRPC() *grpc.Server { return e.server }

// Reload reads the catalogues named again, or all. What cannot be read keeps its last good reading.
func (e *Engine) Reload(ctx context.Context, catalogues ...string) error {
	return e.store.Reload(ctx, catalogues...)
}

// Stop says to whoever watches that the engine is going, takes no more calls, lets those in flight finish, and cuts them
// off when ctx ends first.
func (e *Engine) Stop(ctx context.Context) error {
	e.health.Shutdown()
	drained := make(chan struct{})
	go func() {
		defer close(drained)
		e.server.GracefulStop()
	}()
	var cut error
	select {
	case <-drained:
	case <-ctx.Done():
		cut = fmt.Errorf("calls in flight were cut off: %w", ctx.Err())
		e.server.Stop()
		<-drained
	}
	e.store.Close()
	return errors.Join(cut, e.host.Close())
}

// Version is that of the main module as it was built, with the revision where the build knows it.
var Version = sync.OnceValue(func() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	version := info.Main.Version
	for _, s := range info.Settings {
		if s.Key == "vcs.revision" {
			version += " " + s.Value
		}
	}
	return version
})

package telemetry

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"net/http/pprof"
	"strings"
	"time"

	"github.com/prometheus/client_golang/prometheus/promhttp"
	"google.golang.org/grpc"
	channelz "google.golang.org/grpc/channelz/service"
	healthpb "google.golang.org/grpc/health/grpc_health_v1"
	"google.golang.org/grpc/reflection"
)

// An Admin is the operator's private port: metrics at /metrics, profiles at /debug/pprof, whether the engine serves at
// /healthz, and over gRPC health, channelz and reflection. It is in the clear and knows no names: keep it private.
type Admin struct {
	http *http.Server
	grpc *grpc.Server
}

// NewAdmin makes the port. health is that of the engine.
func NewAdmin(m *Metrics, health healthpb.HealthServer) *Admin {
	inner := grpc.NewServer()
	healthpb.RegisterHealthServer(inner, health)
	channelz.RegisterChannelzServiceToServer(inner)
	reflection.Register(inner)
	mux := http.NewServeMux()
	mux.Handle("GET /metrics", promhttp.HandlerFor(m.registry, promhttp.HandlerOpts{Registry: m.registry}))
	mux.HandleFunc("GET /healthz", func(w http.ResponseWriter, r *http.Request) {
		is, err := health.Check(r.Context(), &healthpb.HealthCheckRequest{Service: r.URL.Query().Get("service")})
		if err != nil || is.GetStatus() != healthpb.HealthCheckResponse_SERVING {
			w.WriteHeader(http.StatusServiceUnavailable)
		}
		fmt.Fprintln(w, is.GetStatus())
	})
	mux.HandleFunc("/debug/pprof/", pprof.Index)
	mux.HandleFunc("/debug/pprof/cmdline", pprof.Cmdline)
	mux.HandleFunc("/debug/pprof/profile", pprof.Profile)
	mux.HandleFunc("/debug/pprof/symbol", pprof.Symbol)
	mux.HandleFunc("/debug/pprof/trace", pprof.Trace)
	both := http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.ProtoMajor == 2 && strings.HasPrefix(r.Header.Get("Content-Type"), "application/grpc") {
			inner.ServeHTTP(w, r)
			return
		}
		mux.ServeHTTP(w, r)
	})
	versions := new(http.Protocols)
	versions.SetHTTP1(true)
	versions.SetUnencryptedHTTP2(true)
	return &Admin{grpc: inner, http: &http.Server{
		Handler: both, Protocols: versions, ReadHeaderTimeout: 10 * time.Second, IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10,
	}}
}

// Serve answers the operator until it is stopped.
func (a *Admin) Serve(l net.Listener) error {
	if err := a.http.Serve(l); !errors.Is(err, http.ErrServerClosed) {
		return fmt.Errorf("serve the operator: %w", err)
	}
	return nil
}

// Stop ends it. Watchers are cut off when ctx ends.
func (a *Admin) Stop(ctx context.Context) error {
	err := a.http.Shutdown(ctx)
	if err != nil {
		err = a.http.Close()
	}
	a.grpc.Stop()
	return err
}

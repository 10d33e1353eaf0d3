// Package sdk is all that the author of a catalogue plugin in Go has to know: implement contract.Catalogue, and have main call
// Serve before it does anything else. A catalogue that also has the method of contract.StockKeeper or contract.Pricer is kept
// running and asked at any moment; nothing else is needed to say so.
//
// In the plugin print nothing to stdout before Serve, log through log/slog, and start no processes: only the plugin itself
// is certain to end with the engine.
package sdk

import (
	"context"
	"fmt"
	"log/slog"
	"os"
	"runtime/debug"
	"time"

	"github.com/hashicorp/go-hclog"
	"github.com/hashicorp/go-plugin"
	"google.golang.org/grpc"
	"google.golang.org/grpc/codes"
	"google.golang.org/grpc/status"

	"example.com/pondwright/plugins/contract"
)

// Serve serves a catalogue to the engine that started this process, and returns when the engine is done with it. A process
// that nobody started as a plugin says so and exits.
func Serve(c contract.Catalogue) {
	// The JSON goes to the engine's log line by line. os.Stderr is taken over by go-plugin later on, so it is kept here.
	log := slog.New(slog.NewJSONHandler(os.Stderr, nil))
	slog.SetDefault(log)
	go endWithParent(os.Getppid(), log) // asked here, since the goroutine may come to run when the engine has gone already
	plugin.Serve(&plugin.ServeConfig{
		HandshakeConfig:  contract.Handshake(),
		VersionedPlugins: contract.Versions(&contract.Plugin{Catalogue: c}),
		Logger:           hclog.New(&hclog.LoggerOptions{Level: hclog.Warn, Output: os.Stderr, JSONFormat: true}),
		GRPCServer: func(opts []grpc.ServerOption) *grpc.Server {
			opts = append(opts, contract.ServerOptions()...)
			return grpc.NewServer(append(opts,
				grpc.ChainUnaryInterceptor(recoverUnary(log)), grpc.ChainStreamInterceptor(recoverStream(log)))...)
		},
	})
}

// endWithParent ends the process when the one that started it has gone, however it went. Windows does not tell: there a
// process keeps the ID of its parent.
func endWithParent(parent int, log *slog.Logger) {
	for range time.Tick(time.Second) {
		if os.Getppid() != parent {
			log.Warn("the engine has gone: ending too")
			os.Exit(1)
		}
	}
}

// recoverUnary turns a panic in Describe or a live answer into an error, so that the engine learns of it and not only of a dead plugin.
func recoverUnary(log *slog.Logger) grpc.UnaryServerInterceptor {
	return func(ctx context.Context, req any, _ *grpc.UnaryServerInfo, handle grpc.UnaryHandler) (_ any, err error) {
		defer recovered(log, &err)
		return handle(ctx, req)
	}
}

// recoverStream does the same for StreamItems.
func recoverStream(log *slog.Logger) grpc.StreamServerInterceptor {
	return func(server any, stream grpc.ServerStream, _ *grpc.StreamServerInfo, handle grpc.StreamHandler) (err error) {
		defer recovered(log, &err)
		return handle(server, stream)
	}
}

func recovered(log *slog.Logger, err *error) {
	if why := recover(); why != nil {
		log.Error("panic in the catalogue", "panic", fmt.Sprint(why), "stack", string(debug.Stack()))
		*err = status.Errorf(codes.Internal, "panic in the catalogue: %v", why)
	}
}

// Command till serves a page for the counter of a garden centre: a few questions about a pond, and kit that is calculated to work,
// with the reasons and a slip to take home.
//
//	go run ./clients/till                             the demo catalogue, on http://127.0.0.1:4870
//	go run ./clients/till --engine 127.0.0.1:4860     an engine that runs elsewhere
package main

import (
	"context"
	"fmt"
	"log/slog"
	"os"
	"os/signal"
	"syscall"

	"google.golang.org/grpc"

	"example.com/pondwright/plugins/builtin"
	"example.com/pondwright/server/embedded"
)

func main() {
	if builtin.RunIfAsked(os.Args) { // started again by the engine inside, as its catalogue
		return
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	log := slog.New(slog.NewTextHandler(os.Stderr, &slog.HandlerOptions{Level: slog.LevelWarn}))
	err := run(ctx, os.Args[1:], env{
		Out: os.Stdout, Err: os.Stderr, Log: log,
		Embed: func(ctx context.Context) (*grpc.ClientConn, func() error, error) { return embedded.Open(ctx, log) },
	})
	stop()
	if err != nil {
		fmt.Fprintln(os.Stderr, err)
		os.Exit(1)
	}
}

// Command server runs the Pondwright engine on a port.
//
//	go run ./server                                   the demo catalogue on 127.0.0.1:4860
//	go run ./server --catalogue shop=/srv/catalogue   a folder of CSV files instead
//
// SIGHUP reads the catalogues again; SIGTERM and SIGINT let calls in flight finish and stop.
package main

import (
	"context"
	"errors"
	"fmt"
	"log/slog"
	"net"
	"os"
	"os/signal"
	"syscall"
	"time"

	"github.com/alecthomas/kong"

	"example.com/pondwright/plugins/builtin"
	"example.com/pondwright/server/demo"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/catalogue"
)

type options struct {
	Listen    string            `default:"127.0.0.1:4860" placeholder:"HOST:PORT" help:"Where to listen. There is no authentication yet: keep it on this machine."`
	Catalogue map[string]string `placeholder:"NAME=FOLDER" help:"Catalogue to read: its name and a folder of CSV files. May be given again. Left out, the invented demo catalogue."`
	Drain     time.Duration     `default:"20s" help:"How long calls in flight may take to finish when the server is told to stop."`
}

func main() {
	if builtin.RunIfAsked(os.Args) {
		return
	}
	var o options
	kong.Parse(&o, kong.Name("server"), kong.Description("Serves pond calculations over gRPC."))
	log := slog.New(slog.NewTextHandler(os.Stderr, nil))
	if err := run(o, log); err != nil {
		log.Error("stopped", "error", err)
		os.Exit(1)
	}
}

func run(o options, log *slog.Logger) (err error) {
	ctx, cancel := signal.NotifyContext(context.Background(), syscall.SIGTERM, os.Interrupt)
	defer cancel()
	// From the first moment on: a reload that is asked for too early waits, and ends nothing.
	hangups := make(chan os.Signal, 1)
	signal.Notify(hangups, syscall.SIGHUP)
	defer signal.Stop(hangups)
	catalogues, clean, err := plugins(o)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, clean()) }()
	e, err := engine.New(ctx, engine.Config{Logger: log, Catalogues: catalogues})
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", o.Listen)
	if err != nil {
		return errors.Join(fmt.Errorf("listen: %w", err), e.Stop(ctx))
	}
	log.Info("serving", "address", listener.Addr().String(), "version", engine.Version())
	served := make(chan error, 1)
	go func() { served <- e.Serve(listener) }()
	err = watch(ctx, e, hangups, served, log)
	cancel() // a second signal ends the draining
	log.Info("stopping", "drain", o.Drain)
	limit, done := context.WithTimeout(context.Background(), o.Drain)
	defer done()
	return errors.Join(err, e.Stop(limit))
}

// watch reloads on SIGHUP until it is told to stop or serving ends by itself.
func watch(ctx context.Context, e *engine.Engine, hangups <-chan os.Signal, served <-chan error, log *slog.Logger) error {
	for {
		select {
		case <-hangups:
			if err := e.Reload(ctx); err != nil {
				log.Warn("reload went wrong", "error", err)
			}
		case err := <-served:
			return err
		case <-ctx.Done():
			return nil
		}
	}
}

// plugins are the catalogues to read, and what to do when they are done with.
func plugins(o options) ([]catalogue.Source, func() error, error) {
	if len(o.Catalogue) == 0 {
		return demo.Catalogue()
	}
	var made []catalogue.Source
	for name, folder := range o.Catalogue {
		s, err := catalogue.CSV(name, folder)
		if err != nil {
			return nil, nil, fmt.Errorf("catalogue %s: %w", name, err)
		}
		made = append(made, s)
	}
	return made, func() error { return nil }, nil
}

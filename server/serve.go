package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"os"
	"os/signal"
	"syscall"

	"example.com/pondwright/server/demo"
	"example.com/pondwright/server/engine"
	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/server/internal/config"
	"example.com/pondwright/server/internal/operate"
)

type serveCommand struct{}

// Run serves until it is told to stop.
func (serveCommand) Run(o *options, e environment) error {
	if err := o.check(); err != nil {
		return err
	}
	log := logger(o.Log, e.errs)
	if err := serve(&o.Settings, log); err != nil {
		log.Error("stopped", "error", err)
		return errors.New("the server did not stop as it should")
	}
	return nil
}

func logger(l config.Log, to io.Writer) *slog.Logger {
	var level slog.Level
	if level.UnmarshalText([]byte(l.Level)) != nil {
		level = slog.LevelInfo // the flag allows no other
	}
	how := &slog.HandlerOptions{Level: level}
	if l.Format == "json" {
		return slog.New(slog.NewJSONHandler(to, how))
	}
	return slog.New(slog.NewTextHandler(to, how))
}

func serve(s *config.Settings, log *slog.Logger) (err error) {
	ctx, cancel := signal.NotifyContext(context.Background(), syscall.SIGTERM, os.Interrupt)
	defer cancel()
	// From the first moment on: a reload that is asked for too early waits, and ends nothing.
	hangups := make(chan os.Signal, 1)
	signal.Notify(hangups, syscall.SIGHUP)
	defer signal.Stop(hangups)
	catalogues, clean, err := sources(s)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, clean()) }()
	e, err := operate.New(ctx, s, catalogues, log)
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", s.Listen)
	if err != nil {
		return errors.Join(fmt.Errorf("listen: %w", err), e.Stop(ctx))
	}
	log.Info("serving", "address", listener.Addr().String(), "version", engine.Version())
	served := make(chan error, 3)
	go func() { served <- e.Serve(listener) }()
	if err := serveOperator(e, s, served, log); err != nil {
		return errors.Join(err, e.Stop(ctx))
	}
	stopJSON, err := serveJSON(ctx, e, s, served, log)
	if err != nil {
		return errors.Join(err, e.Stop(ctx))
	}
	err = watch(ctx, e, hangups, served, log)
	cancel() // a second signal ends the draining
	log.Info("stopping", "drain", s.Drain)
	limit, done := context.WithTimeout(context.Background(), s.Drain)
	defer done()
	return errors.Join(err, stopJSON(limit), e.Stop(limit))
}

// serveOperator opens the operator's port, where one is set.
func serveOperator(e *operate.Operation, s *config.Settings, served chan<- error, log *slog.Logger) error {
	if s.Admin.Listen == "" {
		return nil
	}
	listener, err := net.Listen("tcp", s.Admin.Listen)
	if err != nil {
		return fmt.Errorf("listen for the operator: %w", err)
	}
	log.Info("serving the operator", "address", listener.Addr().String())
	go func() {
		if err := e.ServeOperator(listener); err != nil {
			served <- err
		}
	}()
	return nil
}

// serveJSON puts the same API as JSON over HTTP on a port of its own, where one is set. What it returns lets calls in flight finish.
func serveJSON(ctx context.Context, e *operate.Operation, s *config.Settings, served chan<- error, log *slog.Logger) (func(context.Context) error, error) {
	if s.HTTP.Listen == "" {
		return func(context.Context) error { return nil }, nil
	}
	listener, err := net.Listen("tcp", s.HTTP.Listen)
	if err != nil {
		return nil, fmt.Errorf("listen for JSON: %w", err)
	}
	server, closing, err := e.JSON(context.WithoutCancel(ctx))
	if err != nil {
		return nil, errors.Join(err, listener.Close())
	}
	log.Info("serving JSON", "address", listener.Addr().String())
	go func() {
		serve := func() error { return server.Serve(operate.Bounded(listener, s.Limits.Connections)) }
		if server.TLSConfig != nil {
			serve = func() error { return server.ServeTLS(operate.Bounded(listener, s.Limits.Connections), "", "") }
		}
		if err := serve(); !errors.Is(err, http.ErrServerClosed) {
			served <- fmt.Errorf("serve JSON: %w", err)
		}
	}()
	return func(limit context.Context) error { return errors.Join(server.Shutdown(limit), closing()) }, nil
}

// watch reloads on SIGHUP until it is told to stop or serving ends by itself.
func watch(ctx context.Context, e *operate.Operation, hangups <-chan os.Signal, served <-chan error, log *slog.Logger) error {
	for {
		select {
		case <-hangups:
			if err := errors.Join(e.Refresh(), e.Reload(ctx)); err != nil {
				log.Warn("reload went wrong", "error", err)
			}
		case err := <-served:
			return err
		case <-ctx.Done():
			return nil
		}
	}
}

// sources are the catalogues to read, and what to do when they are done with.
func sources(s *config.Settings) ([]catalogue.Source, func() error, error) {
	if len(s.Catalogues) == 0 {
		return demo.Catalogue()
	}
	made, err := s.Sources()
	return made, func() error { return nil }, err
}

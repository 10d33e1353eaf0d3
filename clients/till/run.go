package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"log/slog"
	"net"
	"net/http"
	"regexp"
	"strconv"
	"time"

	"github.com/alecthomas/kong"
	"google.golang.org/grpc"

	"example.com/pondwright/clients/internal/session"
	"example.com/pondwright/clients/till/web"
)

// env is what the program has of the world.
type env struct {
	Out, Err io.Writer
	Log      *slog.Logger
	Embed    session.Embed // starts the engine inside this program
}

type arguments struct {
	Listen   string `default:"127.0.0.1:4870" placeholder:"HOST:PORT" help:"Where to serve the page. It asks nobody who they are: let the shop's own network reach it, and no other."`
	Engine   string `placeholder:"HOST:PORT" help:"Use the engine that runs there, instead of starting one inside this program. It need not run yet."`
	Energy   string `default:"0.28" placeholder:"PRICE" help:"Price of a kWh that stands in the form to begin with; an invented one unless you give yours. Empty leaves it to be asked."`
	Currency string `placeholder:"CODE" help:"Currency to choose from, where the catalogues have prices in more than one: GBP."`
}

const about = `Serves a page for the counter: a few questions about a pond, and kit that is calculated to work.

It gives an estimate: measure on site before you buy or dig. Local codes come first, and mains near water is work for a licensed electrician.`

var currency = regexp.MustCompile(`^([A-Z]{3})?$`)

// run serves the page until ctx ends.
func run(ctx context.Context, args []string, e env) error {
	var a arguments
	helped := false
	parser, err := kong.New(&a, kong.Name("till"), kong.Description(about), kong.Writers(e.Out, e.Err), kong.Exit(func(int) { helped = true }))
	if err != nil {
		return err
	}
	if _, err = parser.Parse(args); helped {
		return nil
	} else if err != nil {
		return fmt.Errorf("%w; till --help shows how it is used", err)
	}
	if price, err := strconv.ParseFloat(a.Energy, 64); a.Energy != "" && (err != nil || !(price > 0)) {
		return fmt.Errorf("--energy %q is not a price above 0", a.Energy)
	}
	if !currency.MatchString(a.Currency) {
		return fmt.Errorf("--currency %q is not three capital letters, such as GBP", a.Currency)
	}
	conn, stop, err := connect(ctx, a, e)
	if err != nil {
		return err
	}
	return errors.Join(serve(ctx, a, conn, e), stop())
}

func connect(ctx context.Context, a arguments, e env) (*grpc.ClientConn, func() error, error) {
	if a.Engine == "" {
		return session.Open(ctx, "", e.Embed)
	}
	return session.Connect(a.Engine)
}

func serve(ctx context.Context, a arguments, conn *grpc.ClientConn, e env) error {
	handler, err := web.New(web.Config{Engine: conn, Logger: e.Log, Currency: a.Currency, Energy: a.Energy})
	if err != nil {
		return err
	}
	listener, err := net.Listen("tcp", a.Listen)
	if err != nil {
		return fmt.Errorf("the page cannot be served: %w", err)
	}
	server := &http.Server{
		Handler: handler, ReadHeaderTimeout: 10 * time.Second, ReadTimeout: 20 * time.Second, WriteTimeout: time.Minute,
		IdleTimeout: 2 * time.Minute, MaxHeaderBytes: 64 << 10,
	}
	fmt.Fprintf(e.Out, "The till is on http://%s\n", listener.Addr())
	served := make(chan error, 1)
	go func() { served <- server.Serve(listener) }()
	select {
	case err := <-served:
		return fmt.Errorf("the page cannot be served: %w", err)
	case <-ctx.Done():
	}
	limit, cancel := context.WithTimeout(context.WithoutCancel(ctx), 5*time.Second)
	defer cancel()
	return server.Shutdown(limit)
}

// Command curvecheck reads catalogues of pump curves and tells which curves are wrong, why, and what was probably meant.
//
//	go run ./clients/curvecheck FILE.csv                     findings as text
//	go run ./clients/curvecheck --report faults.html FILE    and as a page with a picture of each faulty curve
//	go run ./clients/curvecheck --repair FILE.csv            and a corrected copy beside the file
package main

import (
	"context"
	"log/slog"
	"os"
	"os/signal"
	"syscall"

	"golang.org/x/term"
	"google.golang.org/grpc"

	"example.com/pondwright/plugins/builtin"
	"example.com/pondwright/server/embedded"
)

func main() {
	if builtin.RunIfAsked(os.Args) { // started again by the engine inside, as its catalogue
		return
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	code := run(ctx, os.Args[1:], env{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr, Watched: term.IsTerminal(int(os.Stderr.Fd())), Embed: embed,
	})
	stop()
	os.Exit(code)
}

// embed starts the engine inside this program. Only what it warns of is shown.
func embed(ctx context.Context) (*grpc.ClientConn, func() error, error) {
	log := slog.New(slog.NewTextHandler(os.Stderr, &slog.HandlerOptions{Level: slog.LevelWarn}))
	return embedded.Open(ctx, log)
}

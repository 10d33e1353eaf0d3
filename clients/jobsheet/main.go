// Command jobsheet turns the brief of a pond into a job sheet: kit that is calculated to work, with the reasons.
//
//	go run ./clients/jobsheet                         a pond invented for demonstration
//	go run ./clients/jobsheet BRIEF.yaml              a pond of your own
//	go run ./clients/jobsheet --workings BRIEF.yaml   with every step of the calculation
//	go run ./clients/jobsheet --page JOB.html BRIEF.yaml   the whole job as a page to print
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
	"example.com/pondwright/testdata"
)

func main() {
	if builtin.RunIfAsked(os.Args) { // started again by the engine inside, as its catalogue
		return
	}
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	isTerminal, width, color := terminal(os.Stdout, os.Getenv)
	code := run(ctx, os.Args[1:], env{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr,
		IsTerminal: isTerminal, Width: width, Color: color, Watched: term.IsTerminal(int(os.Stderr.Fd())),
		Embed: embed, Demo: testdata.Briefs, DemoBrief: testdata.DefaultBrief,
	})
	stop()
	os.Exit(code)
}

// embed starts the engine inside this program. Only what it warns of is shown.
func embed(ctx context.Context) (*grpc.ClientConn, func() error, error) {
	log := slog.New(slog.NewTextHandler(os.Stderr, &slog.HandlerOptions{Level: slog.LevelWarn}))
	return embedded.Open(ctx, log)
}

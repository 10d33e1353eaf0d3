package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"time"

	"google.golang.org/grpc"

	"example.com/pondwright/clients/internal/brief"
	"example.com/pondwright/clients/internal/session"
	"example.com/pondwright/clients/jobsheet/sheet"
	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// env is what the program has of the world.
type env struct {
	In       io.Reader
	Out, Err io.Writer

	IsTerminal bool // Out is one
	Watched    bool // Err is one
	Width      int  // characters a line of Out
	Color      bool // Out may be coloured

	Embed session.Embed // starts the engine inside this program
	Demo  fs.FS         // holds DemoBrief
	// DemoBrief is worked out where no brief is named.
	DemoBrief string
}

// The program's exit codes.
const (
	exitFeasible   = 0
	exitInfeasible = 1
	exitInput      = 2
	exitEngine     = 3
)

// run is the program: it reads the brief, asks the engine, and prints the answer.
func run(ctx context.Context, args []string, e env) int {
	a, err := parse(args, e)
	if errors.Is(err, errHelped) {
		return exitFeasible
	}
	if err != nil {
		return complain(e, exitInput, err, "jobsheet --help shows how it is used.")
	}
	if a.planned() {
		return runJob(ctx, a, e)
	}
	b, at, err := readBrief(a, e)
	if err != nil {
		return complain(e, exitInput, err)
	}
	answer, err := ask(ctx, a, b, e)
	if err != nil {
		return failed(e, err, at)
	}
	if err := show(a, b, answer, e); err != nil {
		return complain(e, exitEngine, fmt.Errorf("the answer cannot be printed: %w", err))
	}
	if len(answer.GetKits()) == 0 {
		return exitInfeasible
	}
	return exitFeasible
}

// readBrief reads the brief that was named, or the demonstration's.
func readBrief(a arguments, e env) (*pondwrightv1.Brief, *brief.Positions, error) {
	name, text, err := briefText(a, e)
	if err != nil {
		return nil, nil, fmt.Errorf("the brief cannot be read: %w", err)
	}
	return brief.Read(name, text)
}

// longestBrief is more than any brief holds, and little enough to be read whole: the reader refuses what is longer than it
// likes.
const longestBrief = 4 << 20

func briefText(a arguments, e env) (name string, text []byte, err error) {
	switch a.Brief {
	case "":
		if !a.JSON {
			fmt.Fprintln(e.Err, "No brief was named, so this is the demonstration pond", e.DemoBrief+".")
		}
		text, err = fs.ReadFile(e.Demo, e.DemoBrief)
		return e.DemoBrief, text, err
	case "-":
		text, err = io.ReadAll(io.LimitReader(e.In, longestBrief))
		return "standard input", text, err
	}
	file, err := os.Open(a.Brief)
	if err != nil {
		return a.Brief, nil, err
	}
	defer file.Close()
	text, err = io.ReadAll(io.LimitReader(file, longestBrief))
	return a.Brief, text, err
}

const (
	// patience is how long the engine may take over one brief.
	patience = 2 * time.Minute
	// longestAnswer leaves room for the workings of fifty kits.
	longestAnswer = 64 << 20
)

// ask puts the brief to an engine.
func ask(ctx context.Context, a arguments, b *pondwrightv1.Brief, e env) (*pondwrightv1.SuggestKitsResponse, error) {
	conn, stop, err := session.Open(ctx, a.Engine, e.Embed)
	if err != nil {
		return nil, err
	}
	defer func() {
		if err := stop(); err != nil { // which takes nothing from the answer
			complain(e, exitEngine, fmt.Errorf("the engine did not stop cleanly: %w", err))
		}
	}()
	ctx, cancel := context.WithTimeout(ctx, patience)
	defer cancel()
	return pondwrightv1.NewKitServiceClient(conn).SuggestKits(ctx,
		&pondwrightv1.SuggestKitsRequest{Brief: b, MaxKits: a.Kits, Workings: a.Workings},
		grpc.MaxCallRecvMsgSize(longestAnswer))
}

// show prints the answer.
func show(a arguments, b *pondwrightv1.Brief, answer *pondwrightv1.SuggestKitsResponse, e env) error {
	text, err := "", error(nil)
	if a.JSON {
		text, err = asJSON(answer)
	} else {
		text = sheet.Render(b, answer, sheet.Options{Width: e.Width, Colour: e.Color && e.IsTerminal, Workings: a.Workings})
	}
	if err == nil {
		_, err = io.WriteString(e.Out, text)
	}
	return err
}

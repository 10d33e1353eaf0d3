package main

import (
	"errors"

	"github.com/alecthomas/kong"
)

// arguments are what the program is started with.
type arguments struct {
	Files     []string          `arg:"" optional:"" help:"Files of curves: CSV, JSON lines (.jsonl), workbooks (.xlsx), or a folder with pump_curves.csv; - reads standard input."`
	Held      string            `placeholder:"CATALOGUE" help:"Check the pumps of a catalogue that the engine holds, instead of files; * is every one."`
	Engine    []string          `placeholder:"HOST:PORT" sep:"," help:"Use the engine that runs there, instead of starting one inside this program. Several, with commas between, share the work."`
	Column    map[string]string `placeholder:"NAME=HEADING" help:"Say which column is which, where the guess is wrong: flow_l_per_h=Q or \"flow (L/min)=Q\". May be given again."`
	Grade     string            `placeholder:"GRADE" help:"Acceptance grade of ISO 9906 for measured points: 1B, 1E, 2B, 3B. Left out, what the standard lets pass where none is agreed."`
	Findings  string            `enum:"text,csv,jsonl" default:"text" help:"How findings are printed: text, csv or jsonl."`
	Report    string            `placeholder:"FILE.html" help:"Write a page with a picture of each faulty curve as well."`
	Repair    bool              `help:"Write a corrected copy beside each file, and a list of every change. Nothing is written over."`
	FailFrom  string            `enum:"note,caution,stop" default:"caution" help:"Gravest finding from which the program ends with 1: note, caution or stop."`
	Unwatched bool              `help:"Show no progress."`
}

const about = `Tells which pump curves of a catalogue are wrong, why, and what was probably meant. A sound curve passes in silence.

It ends with 0 where nothing as grave as --fail-from was found, 1 where something was, 2 where a file or the command line is wrong, and 3 where an engine fails.

How each column was read is told first, on standard error.`

// errHelped says that help was asked for and given.
var errHelped = errors.New("help was given")

// parse reads the command line.
func parse(args []string, e env) (arguments, error) {
	var a arguments
	helped := false
	parser, err := kong.New(&a, kong.Name("curvecheck"), kong.Description(about), kong.Writers(e.Out, e.Err), kong.Exit(func(int) { helped = true }))
	if err != nil {
		return a, err
	}
	_, err = parser.Parse(args)
	switch {
	case helped:
		return a, errHelped
	case err != nil:
		return a, err
	case len(a.Files) == 0 && a.Held == "":
		return a, errors.New("name a file of curves, or a catalogue with --held")
	case len(a.Files) > 0 && a.Held != "":
		return a, errors.New("--held takes no files")
	case a.Repair && a.Held != "":
		return a, errors.New("--repair takes files: what an engine holds is corrected where it comes from")
	}
	for _, f := range a.Files {
		if a.Repair && f == "-" {
			return a, errors.New("--repair cannot write beside standard input")
		}
	}
	return a, nil
}

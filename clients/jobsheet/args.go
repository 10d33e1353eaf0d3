package main

import (
	"errors"

	"github.com/alecthomas/kong"
)

// arguments are what the program is started with.
type arguments struct {
	Brief    string `arg:"" optional:"" help:"The brief, a YAML or JSON file; - reads it from standard input. Left out, a pond invented for demonstration."`
	Engine   string `placeholder:"HOST:PORT" help:"Use the engine that runs there, instead of starting one inside this program."`
	Kits     int32  `default:"3" placeholder:"N" help:"How many kits to show at most, from 1 to 50."`
	Workings bool   `help:"Show every step of the calculation, with its numbers and its source."`
	JSON     bool   `name:"json" help:"Print the engine's answer as JSON and nothing else."`

	Page       string `placeholder:"FILE.html" help:"Plan the whole job and write it as one page to read and to print."`
	Plan       string `placeholder:"FILE.json" help:"Plan the whole job and keep the engine's answer, to be asked again later."`
	Quantities string `placeholder:"FILE.csv" help:"Plan the whole job and write what to order, cart and dig."`
	Replace    bool   `help:"Write over files that exist."`

	Beside string `placeholder:"BRIEF" help:"Plan a second brief too, and show what changes from the first to it."`
	Visit  string `placeholder:"FILE.yaml" help:"Hold what was measured on a visit against the design of the brief."`
	Again  string `placeholder:"FILE.json" help:"Plan a job again that was kept with --plan, and show what is different and why. Takes no brief."`
}

const about = `Turns the brief of a pond into kit that is calculated to work: pump, hose, filter and lamp unit, with the reasons; and into the sheet of the whole job.

It ends with 0 where kit works, 1 where none does, 2 where the brief or the command line is wrong, and 3 where the engine fails.

It gives an estimate from the brief: measure on site before you buy or dig. Local codes come first, and mains near water is work for a licensed electrician.`

// errHelped says that help was asked for and given.
var errHelped = errors.New("help was given")

// parse reads the command line.
func parse(args []string, e env) (arguments, error) {
	var a arguments
	helped := false
	parser, err := kong.New(&a, kong.Name("jobsheet"), kong.Description(about), kong.Writers(e.Out, e.Err),
		kong.Exit(func(int) { helped = true }))
	if err != nil {
		return a, err
	}
	_, err = parser.Parse(args)
	switch {
	case helped:
		return a, errHelped
	case err != nil:
		return a, err
	case a.Kits < 1 || a.Kits > 50:
		return a, errors.New("--kits takes a number from 1 to 50")
	}
	return a, a.together()
}

// together refuses options that ask for two things at once.
func (a arguments) together() error {
	ways := 0
	for _, asked := range []string{a.Beside, a.Visit, a.Again} {
		if asked != "" {
			ways++
		}
	}
	switch {
	case ways > 1:
		return errors.New("--beside, --visit and --again are asked one at a time")
	case a.Again != "" && a.Brief != "":
		return errors.New("--again takes no brief: the plan that was kept holds it")
	case (a.Beside != "" || a.Visit != "") && (a.Plan != "" || a.Quantities != ""):
		return errors.New("--plan and --quantities are of one plan: leave --beside or --visit out")
	case a.Beside == "-" && a.Brief == "-":
		return errors.New("only one of two briefs can come from standard input")
	}
	return nil
}

// planned says whether the whole job is asked for, and not the kit alone.
func (a arguments) planned() bool {
	return a.Page != "" || a.Plan != "" || a.Quantities != "" || a.Beside != "" || a.Visit != "" || a.Again != ""
}

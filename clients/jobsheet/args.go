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
}

const about = `Turns the brief of a pond into kit that is calculated to work: pump, hose, filter and lamp unit, with the reasons.

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
	return a, nil
}

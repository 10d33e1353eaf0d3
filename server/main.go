// Command server runs the Pondwright engine on a port.
//
//	go run ./server                                   the demo catalogue on 127.0.0.1:4860
//	go run ./server --catalogue shop=/srv/catalogue   a folder of CSV files instead
//	go run ./server --config pondwright.yaml          everything from a file; see server/deploy/pondwright.yaml
//	go run ./server --help                            what else it can do
//
// SIGHUP reads catalogues, certificates and clients again; SIGTERM and SIGINT let calls in flight finish and stop.
package main

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"os"
	"slices"

	"github.com/alecthomas/kong"

	"example.com/pondwright/plugins/builtin"
	"example.com/pondwright/server/internal/config"
)

// options are what the command line says.
type options struct {
	Config      string            `placeholder:"FILE" help:"File of settings. A flag goes before the environment, the environment before the file."`
	PrintConfig bool              `env:"-" help:"Print the settings in force, but for what is secret, and end."`
	Catalogue   map[string]string `placeholder:"NAME=FOLDER" help:"Catalogue to read: its name and a folder of CSV files or a workbook. May be given again. Stands in for those of the file; with neither, the invented demo catalogue is read."`
	config.Settings

	Serve       serveCommand     `cmd:"" default:"1" help:"Answer calls. This is what is done where no command is named."`
	CheckConfig checkCommand     `cmd:"" help:"Say everything that is wrong with the settings, and end with 0 if nothing is."`
	Templates   templatesCommand `cmd:"" help:"Write the empty tables of a catalogue and a guide to their columns into a folder."`
	AuditLog    auditCommand     `cmd:"" name:"audit" help:"Look after an audit log."`
	Replay      replayCommand    `cmd:"" help:"Ask the questions of an audit log again, and say where the answers differ."`
	Token       tokenCommand     `cmd:"" help:"Make a token for a client, and what goes into the settings for it."`
}

const about = `Serves pond calculations over gRPC.

It gives estimates: measure on site before anybody buys or digs. Local codes come first, and mains near water is work for a licensed electrician.`

func main() {
	if builtin.RunIfAsked(os.Args) {
		return
	}
	os.Exit(command(os.Args[1:], os.Stdout, os.Stderr))
}

// Exit codes beside 0.
const (
	exitFailed = 1 // it was tried and went wrong, or what was checked is not right
	exitAsked  = 2 // the command line or the settings are wrong
)

// errUsage marks what is wrong with the command line or the settings.
var errUsage = errors.New("")

// command does what the arguments say and returns the exit code.
func command(args []string, out, errs io.Writer) int {
	var o options
	ended := -1
	chosen, err := parse(&o, args, out, errs, func(code int) { ended = code })
	if ended == 0 { // help was given
		return 0
	}
	switch {
	case err != nil:
	case o.PrintConfig:
		err = o.Print(out)
	default:
		err = chosen.Run(&o, environment{out: out, errs: errs})
	}
	switch {
	case err == nil:
		return 0
	case errors.Is(err, errUsage):
		fmt.Fprintln(errs, err)
		return exitAsked
	default:
		fmt.Fprintln(errs, err)
		return exitFailed
	}
}

// environment is what a command may write to.
type environment struct{ out, errs io.Writer }

// parse reads the command line, and then the file that it or the environment names.
func parse(o *options, args []string, out, errs io.Writer, exit func(int)) (*kong.Context, error) {
	common := []kong.Option{
		kong.Name("server"), kong.Description(about), kong.Writers(out, errs), kong.Exit(exit), kong.DefaultEnvars("PONDWRIGHT"),
		kong.ConfigureHelp(kong.HelpOptions{Compact: true}),
	}
	chosen, err := parseWith(o, args, common)
	if err != nil || o.Config == "" {
		o.useCommandLine()
		return chosen, err
	}
	file, err := config.Read(o.Config)
	if err != nil {
		return nil, fmt.Errorf("%w%w", errUsage, err)
	}
	*o = options{}
	chosen, err = parseWith(o, args, append(common, kong.Resolvers(file)))
	o.Clients, o.Catalogues = file.Clients, file.Catalogues
	o.useCommandLine()
	return chosen, err
}

func parseWith(o *options, args []string, with []kong.Option) (*kong.Context, error) {
	parser, err := kong.New(o, with...)
	if err != nil {
		return nil, err
	}
	chosen, err := parser.Parse(args)
	if err != nil {
		return nil, fmt.Errorf("%w%w", errUsage, err)
	}
	return chosen, nil
}

// useCommandLine puts the catalogues of the command line in place of those of the file.
func (o *options) useCommandLine() {
	if len(o.Catalogue) > 0 {
		o.Catalogues = nil
	}
	for _, name := range slices.Sorted(maps.Keys(o.Catalogue)) {
		o.Catalogues = append(o.Catalogues, config.Catalogue{Name: name, From: config.Path(o.Catalogue[name])})
	}
}

// check holds the settings to what can be meant.
func (o *options) check() error {
	if err := o.Check(); err != nil {
		return fmt.Errorf("%w%w", errUsage, err)
	}
	return nil
}

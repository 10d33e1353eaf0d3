// Package builtin lets a program be its own catalogue plugin: it starts itself again with a hidden argument, so that a folder
// of CSV files, or a workbook of the same tables, is read in a process of its own and there is nothing to build or install
// first.
package builtin

import (
	"context"
	"fmt"
	"iter"
	"path/filepath"

	csvcatalogue "example.com/pondwright/plugins/csv"
	"example.com/pondwright/plugins/host"
	"example.com/pondwright/plugins/sdk"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Argument is the first argument of a program that has been started to serve a folder of CSV files or a workbook; the
// second is its path.
const Argument = "pondwright-csv-catalogue"

// RunIfAsked serves a catalogue when the program was started for that, and then returns true: main has nothing left to do. Call
// it first in main, with os.Args, before anything is printed.
func RunIfAsked(args []string) bool {
	if len(args) != 3 || args[1] != Argument {
		return false
	}
	c, err := csvcatalogue.Open(args[2])
	if err != nil {
		sdk.Serve(unreadable{err})
	} else {
		sdk.Serve(c)
	}
	return true
}

// CSVPlugin is the running program as the plugin of a folder of CSV files or of an xlsx workbook. Whether it can be read is found
// out when the plugin is read.
func CSVPlugin(name, at string) (host.Plugin, error) {
	path, err := host.Self()
	if err != nil {
		return host.Plugin{}, fmt.Errorf("finding the running program: %w", err)
	}
	at, err = filepath.Abs(at)
	if err != nil {
		return host.Plugin{}, fmt.Errorf("catalogue: %w", err)
	}
	return host.Plugin{Name: name, Path: path, Args: []string{Argument, at}}, nil
}

// unreadable is a catalogue whose files are to be mended. It answers every question with what is wrong, which reaches the
// engine whole, as the last words of a program that ends would not.
type unreadable struct{ err error }

// Describe implements contract.Catalogue.
func (u unreadable) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	return nil, u.err
}

// Items implements contract.Catalogue.
func (u unreadable) Items(context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) { yield(nil, u.err) }
}

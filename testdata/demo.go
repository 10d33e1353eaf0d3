// Package testdata holds the demonstration: six briefs, a catalogue and climates, all invented but one. They are embedded, so that a
// program has them wherever it runs.
package testdata

import (
	"embed"
	"fmt"
	"io/fs"
	"os"
)

// Briefs are the demo briefs, from a pond on a patio to a lake in a park.
//
//go:embed briefs/*.yaml
var Briefs embed.FS

// Catalogues are the demo catalogues, each a folder of CSV files.
//
//go:embed catalogues/demo/*.csv
var Catalogues embed.FS

// Climates are the built-in climates, a table of places and one of their months.
//
//go:embed climates/*.csv
var Climates embed.FS

// DefaultBrief is the brief in Briefs that is worked out where none is named. It has everything: two bays, fish, a fall,
// a filter and a lamp unit.
const DefaultBrief = "briefs/cascade.yaml"

// UnpackCatalogue writes the files of the demo catalogue to dir, for the plugin that reads a real folder. dir is made if
// it is not there. A file that is there already is left alone and is an error.
func UnpackCatalogue(dir string) error {
	catalogue, err := fs.Sub(Catalogues, "catalogues/demo")
	if err == nil {
		err = os.CopyFS(dir, catalogue)
	}
	if err != nil {
		return fmt.Errorf("unpack the demo catalogue: %w", err)
	}
	return nil
}

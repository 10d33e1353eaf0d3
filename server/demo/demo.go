// Package demo hands out the invented demo catalogue as a plugin, for programs that are started without one of their own.
package demo

import (
	"errors"
	"fmt"
	"os"

	"example.com/pondwright/server/internal/catalogue"
	"example.com/pondwright/testdata"
)

// Name is what the demo catalogue is called.
const Name = "demo"

// Catalogue unpacks the demo catalogue, which is part of the program, into a folder of its own, so that it is there
// wherever the program runs. clean takes the folder away again.
func Catalogue() (sources []catalogue.Source, clean func() error, err error) {
	dir, err := os.MkdirTemp("", "pondwright-demo-")
	if err != nil {
		return nil, nil, fmt.Errorf("unpack demo catalogue: %w", err)
	}
	clean = func() error { return os.RemoveAll(dir) }
	if err := testdata.UnpackCatalogue(dir); err != nil {
		return nil, nil, errors.Join(err, clean())
	}
	s, err := catalogue.CSV(Name, dir)
	if err != nil {
		return nil, nil, errors.Join(err, clean())
	}
	return []catalogue.Source{s}, clean, nil
}

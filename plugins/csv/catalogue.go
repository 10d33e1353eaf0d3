package csvcatalogue

import (
	"context"
	"fmt"
	"iter"
	"os"
	"path/filepath"
	"strings"

	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Catalogue is a folder of CSV files as it was when it was opened. It implements contract.Catalogue.
type Catalogue struct {
	description *cataloguev1.DescribeResponse
	results     []result
}

var _ contract.Catalogue = (*Catalogue)(nil)

// Open reads a folder. The error is a *FormatError where the files are to be mended. Items that cannot be used do not make
// an error here: Items yields them as rejected.
func Open(dir string) (*Catalogue, error) {
	files, err := readFiles(dir)
	if err != nil {
		return nil, err
	}
	checker, err := contract.NewChecker()
	if err != nil {
		return nil, err
	}
	c, problems := build(files, checker)
	if len(problems) > 0 {
		return nil, &FormatError{Dir: dir, Problems: problems}
	}
	return c, nil
}

// Describe implements contract.Catalogue.
func (c *Catalogue) Describe(context.Context) (*cataloguev1.DescribeResponse, error) {
	return proto.CloneOf(c.description), nil
}

// Items implements contract.Catalogue.
func (c *Catalogue) Items(context.Context) iter.Seq2[*equipmentv1.Item, error] {
	return func(yield func(*equipmentv1.Item, error) bool) {
		for _, r := range c.results {
			var err error
			if r.rejected != nil {
				err = r.rejected
			}
			if !yield(r.item, err) {
				return
			}
		}
	}
}

// maxFileBytes bounds one file. Ten thousand pumps with ten points each take about 4 MB.
const maxFileBytes = 64 << 20

// readFiles reads every CSV file of a folder. Files of other kinds, and hidden ones, may lie there too.
func readFiles(dir string) (map[string][]byte, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, fmt.Errorf("catalogue folder: %w", err)
	}
	files := make(map[string][]byte)
	for _, entry := range entries {
		name := entry.Name()
		if entry.IsDir() || strings.HasPrefix(name, ".") || !strings.EqualFold(filepath.Ext(name), ".csv") {
			continue
		}
		info, err := os.Stat(filepath.Join(dir, name))
		if err != nil {
			return nil, fmt.Errorf("catalogue file: %w", err)
		}
		if info.Size() > maxFileBytes {
			return nil, fmt.Errorf("catalogue file %s is larger than %d MiB: split the catalogue", filepath.Join(dir, name), maxFileBytes>>20)
		}
		files[name], err = os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			return nil, fmt.Errorf("catalogue file: %w", err)
		}
	}
	return files, nil
}

package csvcatalogue

import (
	"context"
	"fmt"
	"iter"
	"os"

	"google.golang.org/protobuf/proto"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Catalogue is a folder of CSV files, or a workbook, as it was when it was opened. It implements contract.Catalogue.
type Catalogue struct {
	description *cataloguev1.DescribeResponse
	results     []result
}

var _ contract.Catalogue = (*Catalogue)(nil)

// Open reads a folder of CSV files, or a workbook (xlsx) with the same tables as sheets. The error is a *FormatError where
// they are to be mended. Items that cannot be used do not make an error here: Items yields them as rejected.
func Open(path string) (*Catalogue, error) {
	checker, err := contract.NewChecker()
	if err != nil {
		return nil, err
	}
	info, err := os.Stat(path)
	if err != nil {
		return nil, fmt.Errorf("catalogue: %w", err)
	}
	readBook := readWorkbook
	if info.IsDir() {
		readBook = readFolder
	}
	b, problems, err := readBook(path)
	if err != nil {
		return nil, fmt.Errorf("catalogue in %s: %w", path, err)
	}
	c, more := build(b, checker)
	if problems = append(problems, more...); len(problems) > 0 {
		return nil, &FormatError{Path: path, Problems: problems}
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

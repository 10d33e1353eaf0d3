// Package xlsx reads the cells of a workbook (Office Open XML) as the text they stand for, and nothing else: no formats,
// formulas or pictures. Numbers come as they are stored, not as the sheet shows them, so that a column shown with one decimal
// is not read with one.
//
// The reading itself is the library excelize's. What it would pass over or guess at is refused here.
package xlsx

import (
	"bytes"
	"fmt"

	"github.com/xuri/excelize/v2"
)

// Sheet is one sheet of a workbook.
type Sheet struct {
	Name string
	Rows []Row
}

// Row is one row that has something in it. Cells that are left out in the file are empty.
type Row struct {
	Number int // from 1, as the program shows it
	Cells  []string
}

// What a cell reads as where it has no text or number to give. Neither is a number, and both say what to mend.
const (
	Date          = "(a date)"
	UnsolvedValue = "(a formula without its result)"
)

// Bounds on what a workbook may unpack to: a few hundred bytes can otherwise be told to fill the memory.
const (
	maxUnpackedBytes = 64 << 20
	maxSheets        = 64
	maxColumns       = 256
)

// Read reads the sheets whose names are wanted, in the order of the workbook.
func Read(content []byte, wanted func(name string) bool) ([]Sheet, error) {
	file, err := excelize.OpenReader(bytes.NewReader(content), excelize.Options{
		RawCellValue:      true,
		UnzipSizeLimit:    maxUnpackedBytes,
		UnzipXMLSizeLimit: maxUnpackedBytes, // nothing goes to temporary files
	})
	if err != nil {
		return nil, fmt.Errorf("is not an xlsx workbook that can be read: %w", err)
	}
	defer file.Close()
	names := file.GetSheetList()
	if len(names) == 0 || len(names) > maxSheets {
		return nil, fmt.Errorf("has %d sheets, and 1 to %d can be read", len(names), maxSheets)
	}
	var sheets []Sheet
	for _, name := range names {
		if !wanted(name) {
			continue
		}
		s := reader{file: file, sheet: name, dates: make(map[int]bool)}
		rows, err := s.rows()
		if err != nil {
			return nil, fmt.Errorf("sheet %s cannot be read: %w", name, err)
		}
		sheets = append(sheets, Sheet{name, rows})
	}
	return sheets, nil
}

// reader is one sheet on its way in.
type reader struct {
	file  *excelize.File
	sheet string
	dates map[int]bool // by cell style: whether a number in it is a date
}

// rows reads the sheet twice, since neither reading tells all: as a stream, which says what there is, and cell by cell, which
// says what it means. Where the two differ the sheet is refused.
func (r reader) rows() ([]Row, error) {
	rows, width, err := r.stream()
	if err != nil {
		return nil, err
	}
	defer r.file.Sheet.Clear() // what the second reading keeps of a sheet is many times the sheet
	if _, err := r.file.GetCellValue(r.sheet, "A1"); err != nil {
		return nil, err // in the XML, at which the stream ends without a word
	}
	for _, row := range rows {
		if err := r.resolve(row, width); err != nil {
			return nil, err
		}
	}
	return rows, nil
}

// resolve puts into the cells of a row what they mean. It looks beyond the last of them too, since the stream passes over a cell
// whose text is not in the workbook.
func (r reader) resolve(row Row, width int) error {
	for i := range width + 1 {
		streamed := ""
		if i < len(row.Cells) {
			streamed = row.Cells[i]
		}
		name, err := excelize.CoordinatesToCellName(i+1, row.Number)
		if err != nil {
			return err
		}
		text, err := r.text(name, streamed)
		if err != nil {
			return fmt.Errorf("cell %s: %w", name, err)
		}
		if i < len(row.Cells) {
			row.Cells[i] = text
		}
	}
	return nil
}

// stream reads the rows that have something in them as they are stored, and how wide the widest is.
func (r reader) stream() (rows []Row, width int, err error) {
	in, err := r.file.Rows(r.sheet)
	if err != nil {
		return nil, 0, err
	}
	defer in.Close()
	for number := 1; in.Next(); number++ {
		cells, err := in.Columns()
		if err != nil {
			return nil, 0, fmt.Errorf("row %d: %w", number, err)
		}
		if len(cells) > maxColumns {
			return nil, 0, fmt.Errorf("row %d has a cell beyond column %d", number, maxColumns)
		}
		if len(cells) > 0 {
			rows = append(rows, Row{number, cells})
		}
		width = max(width, len(cells))
	}
	return rows, width, in.Error()
}

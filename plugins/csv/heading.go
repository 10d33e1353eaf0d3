package csvcatalogue

import (
	"fmt"

	"example.com/pondwright/plugins/contract"
	"example.com/pondwright/plugins/csv/internal/xlsx"
)

// A Heading is a column of pumps, or of the points of their curves, under the name it has in the contract.
type Heading struct {
	Column string                // "flow_l_per_h"
	Turn   func(float64) float64 // into the contract's unit; nil where the numbers are in it
}

// PumpHeading reads the heading of a column of pumps.csv or pump_curves.csv by the rules of this package, for programs that read curves
// from other tables. The error of a heading that is not known says what it may have been meant to be.
func PumpHeading(text string) (Heading, error) {
	name := normalise(text)
	if isBareGallon(name) {
		return Heading{}, fmt.Errorf("%q is not clear: a UK gallon is 4.546 L and a US gallon 3.785 L; write uk_gal or us_gal", text)
	}
	all := newTables()
	for _, t := range append([]table{all.curves}, all.kinds...) {
		if t.name != "pumps" && t.name != all.curves.name {
			continue
		}
		if c, turn, ok := t.column(name); ok {
			return Heading{Column: c.name, Turn: turn}, nil
		}
	}
	return Heading{}, fmt.Errorf("%q is not known: %s", text, all.curves.suggest(name))
}

// Number reads a number as this package does: in one way only, or not at all.
func Number(text string, decimalComma bool) (float64, error) { return number(text, decimalComma) }

// Tidy takes away the last bits that turning a number into another unit leaves behind.
func Tidy(x float64) float64 { return tidy(x) }

// A Row is one row of a sheet that has something in it.
type Row struct {
	Number int // from 1, as a spreadsheet counts them
	Cells  []string
}

// FirstSheet reads the first sheet of an xlsx workbook that is not the merchant's own (a name with an underscore before it), or the
// one named.
func FirstSheet(path, named string) (string, []Row, error) {
	content, err := readBounded(path)
	if err != nil {
		return "", nil, err
	}
	taken := ""
	sheets, err := xlsx.Read(content, func(name string) bool {
		if taken != "" || named == "" && name[:1] == "_" || named != "" && name != named {
			return false
		}
		taken = name
		return true
	})
	if err != nil {
		return "", nil, err
	}
	if len(sheets) == 0 {
		return "", nil, &FormatError{Path: path, Problems: []contract.Problem{{Reason: "has no such sheet"}}}
	}
	rows := make([]Row, len(sheets[0].Rows))
	for i, r := range sheets[0].Rows {
		rows[i] = Row(r)
	}
	return sheets[0].Name, rows, nil
}

package csvcatalogue

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"
	"unicode/utf8"

	"example.com/pondwright/plugins/contract"
)

// sheet is one table as rows of text, whatever it was read from.
type sheet struct {
	label     string // how messages name it: "pumps.csv"
	header    []string
	headerRow int
	rows      []row
	broken    bool // it could not be read, and has been complained about
	// decimalComma: numbers are written 1,5, as they are in a file that parts its cells with semicolons.
	decimalComma bool
}

// row is one row that is not empty.
type row struct {
	number int // as a spreadsheet counts them
	cells  []string
}

// cell is the text of a cell without the space round it; a row may be shorter than the header.
func (r row) cell(i int) string {
	if i >= len(r.cells) {
		return ""
	}
	return strings.TrimSpace(r.cells[i])
}

// readSheet reads the text of a CSV file.
func readSheet(label string, content []byte) (sheet, *contract.Problem) {
	s := sheet{label: label}
	fail := func(row int, format string, args ...any) (sheet, *contract.Problem) {
		p := problemAt(place{sheet: label, row: row}, format, args...)
		return sheet{}, &p
	}
	if bytes.HasPrefix(content, []byte("\xff\xfe")) || bytes.HasPrefix(content, []byte("\xfe\xff")) || bytes.IndexByte(content, 0) >= 0 {
		return fail(0, "is not UTF-8 text: save it as \"CSV UTF-8\"")
	}
	content = bytes.TrimPrefix(content, []byte("\xef\xbb\xbf"))
	if line, bad := firstInvalidLine(content); bad {
		return fail(line, "has letters that are not UTF-8: save it as \"CSV UTF-8\"")
	}
	reader := csv.NewReader(bytes.NewReader(content))
	reader.FieldsPerRecord = -1
	switch separator := separatorOf(content); separator {
	case ';':
		reader.Comma, s.decimalComma = separator, true
	case '\t':
		return fail(1, "has tabs between its cells: save it with commas")
	}
	for {
		cells, err := reader.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			number, what := quoting(err)
			return fail(number, "%s", what)
		}
		number, _ := reader.FieldPos(0)
		s.add(row{number, cells})
	}
	return s, nil
}

// add takes the next row: the first that has anything in it names the columns, and empty ones are passed over.
func (s *sheet) add(r row) {
	switch {
	case !slices.ContainsFunc(r.cells, func(c string) bool { return strings.TrimSpace(c) != "" }):
	case s.header == nil:
		s.header, s.headerRow = r.cells, r.number
	default:
		s.rows = append(s.rows, r)
	}
}

// separatorOf looks at the header, which names columns and so has no comma in its text.
func separatorOf(content []byte) rune {
	header, _, _ := bytes.Cut(content, []byte("\n"))
	for _, separator := range []rune{',', ';', '\t'} {
		if bytes.ContainsRune(header, separator) {
			return separator
		}
	}
	return ','
}

// quoting says what to do about a quote in the wrong place, in terms of what a person sees.
func quoting(err error) (int, string) {
	var at *csv.ParseError
	if !errors.As(err, &at) {
		return 0, err.Error()
	}
	switch {
	case errors.Is(err, csv.ErrBareQuote):
		return at.Line, `has a quote " inside a cell: put the whole cell in quotes and write the inner quote twice, as in "10"" hose"`
	case errors.Is(err, csv.ErrQuote):
		return at.StartLine, `has a cell whose quote " is not closed, or closed too early: a quote inside a quoted cell is written twice`
	}
	return at.Line, fmt.Sprintf("cannot be read: %v", at.Err)
}

// firstInvalidLine finds letters of another encoding.
func firstInvalidLine(content []byte) (int, bool) {
	if utf8.Valid(content) {
		return 0, false
	}
	for i, line := range bytes.Split(content, []byte("\n")) {
		if !utf8.Valid(line) {
			return i + 1, true
		}
	}
	return 0, true
}

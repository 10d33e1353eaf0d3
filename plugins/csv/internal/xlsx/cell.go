package xlsx

import (
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"strconv"
)

type rowXML struct {
	Number int       `xml:"r,attr"`
	Cells  []cellXML `xml:"c"`
}

type cellXML struct {
	Ref     string    `xml:"r,attr"`
	Type    string    `xml:"t,attr"`
	Style   int       `xml:"s,attr"`
	Value   *string   `xml:"v"`
	Formula *struct{} `xml:"f"`
	Inline  text      `xml:"is"`
}

// rows reads the rows of a sheet one by one, since a sheet may be long.
func (w *workbook) rows(name string) ([]Row, error) {
	part, err := w.openPart(name)
	if err != nil {
		return nil, err
	}
	defer part.Close()
	in := xml.NewDecoder(part)
	var rows []Row
	for {
		token, err := in.Token()
		if errors.Is(err, io.EOF) {
			return rows, nil
		}
		if err != nil {
			return nil, err
		}
		start, ok := token.(xml.StartElement)
		if !ok || start.Name.Local != "row" {
			continue
		}
		var raw rowXML
		if err := in.DecodeElement(&raw, &start); err != nil {
			return nil, err
		}
		if raw.Number == 0 { // it may be left out, and then follows the row before
			raw.Number = 1
			if len(rows) > 0 {
				raw.Number = rows[len(rows)-1].Number + 1
			}
		}
		row, err := w.row(raw)
		if err != nil {
			return nil, err
		}
		rows = append(rows, row)
	}
}

// row puts the cells of a row in their places.
func (w *workbook) row(raw rowXML) (Row, error) {
	row := Row{Number: raw.Number}
	for _, c := range raw.Cells {
		at := len(row.Cells)
		if c.Ref != "" {
			at = columnIndex(c.Ref)
		}
		if at < len(row.Cells) || at >= maxColumns {
			return Row{}, fmt.Errorf("row %d has a cell at %q, which is out of order or beyond column %d", raw.Number, c.Ref, maxColumns)
		}
		value, err := w.text(c)
		if err != nil {
			return Row{}, fmt.Errorf("cell %s: %w", c.Ref, err)
		}
		for len(row.Cells) < at {
			row.Cells = append(row.Cells, "")
		}
		row.Cells = append(row.Cells, value)
	}
	return row, nil
}

// text is what a cell reads as.
func (w *workbook) text(c cellXML) (string, error) {
	if c.Type == "inlineStr" {
		return c.Inline.String(), nil
	}
	if c.Value == nil || *c.Value == "" {
		if c.Formula != nil {
			return UnsolvedValue, nil
		}
		return "", nil
	}
	switch c.Type {
	case "s":
		i, err := strconv.Atoi(*c.Value)
		if err != nil || i < 0 || i >= len(w.texts) {
			return "", fmt.Errorf("there is no text %q", *c.Value)
		}
		return w.texts[i], nil
	case "b":
		if *c.Value == "1" {
			return "TRUE", nil
		}
		return "FALSE", nil
	case "", "n":
		if c.Style >= 0 && c.Style < len(w.dates) && w.dates[c.Style] {
			return Date, nil
		}
	}
	return *c.Value, nil
}

// columnIndex is the number of a column, from 0, in a reference such as "AB12". It is beyond any bound where there is none.
func columnIndex(ref string) int {
	n := 0
	for i := range len(ref) {
		if ref[i] < 'A' || ref[i] > 'Z' {
			break
		}
		if n = 26*n + int(ref[i]-'A') + 1; n > maxColumns {
			return maxColumns
		}
	}
	if n == 0 {
		return maxColumns
	}
	return n - 1
}

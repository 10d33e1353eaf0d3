package csvcatalogue

import (
	"fmt"
	"strings"

	"example.com/pondwright/plugins/contract"
)

// bound is a column of the contract at its place in a sheet.
type bound struct {
	column
	index  int                   // in the row
	header string                // as the file writes it
	turn   func(float64) float64 // into the contract's unit; nil where the file has that
}

// binding is how the columns of a sheet map to those of its table.
type binding struct {
	sheet  sheet
	bounds []bound
	cells  map[string]bound // by field path, to name the column of a problem that is found later
}

// bind reads the header of a sheet: the one place where a header becomes a column. Every column has to be known, those that
// are required have to be there, and none may be there twice.
func bind(t table, s sheet) (binding, []contract.Problem) {
	b := binding{sheet: s, cells: make(map[string]bound)}
	if s.header == nil {
		return b, []contract.Problem{problemAt(place{sheet: s.label}, "is empty: its first row has to name the columns")}
	}
	var problems []contract.Problem
	complain := func(header, format string, args ...any) {
		problems = append(problems, problemAt(place{s.label, s.headerRow, header}, format, args...))
	}
	seen := make(map[string]string)
	for i, text := range s.header {
		name := normalise(text)
		if name == "" {
			if s.usesColumn(i) {
				complain(fmt.Sprintf("%d", i+1), "has cells but no name: name it or clear it")
			}
			continue
		}
		c, turn, ok := t.column(name)
		switch before, twice := seen[c.name]; {
		case !ok && isBareGallon(name):
			complain(strings.TrimSpace(text), "is not clear: a UK gallon is 4.546 L and a US gallon 3.785 L; write uk_gal or us_gal")
		case !ok:
			complain(strings.TrimSpace(text), "is not known: %s", t.suggest(name))
		case twice:
			complain(strings.TrimSpace(text), "gives what column %s gives already: keep one of them", before)
		default:
			seen[c.name] = strings.TrimSpace(text)
			here := bound{column: c, index: i, header: strings.TrimSpace(text), turn: turn}
			b.bounds = append(b.bounds, here)
			b.cells[c.fieldPath()] = here
		}
	}
	for _, c := range t.columns {
		if _, ok := seen[c.name]; c.required && !ok {
			complain(c.name, "is missing: add it")
		}
	}
	return b, problems
}

// normalise lets a header be written as people write it: "Flow (US gal/min)" is flow_us_gal_per_min.
func normalise(header string) string {
	plain := strings.NewReplacer("(", " ", ")", " ", "[", " ", "]", " ", "/", " per ", "²", "2", "³", "3", "°", " ", "_", " ").
		Replace(strings.ToLower(header))
	return strings.Join(strings.Fields(plain), "_")
}

// column finds the column of a name, and how its numbers are turned where the name has another unit in it.
func (t table) column(name string) (column, func(float64) float64, bool) {
	for _, c := range t.columns {
		for _, n := range c.names() {
			if n.name == name {
				return c, n.turn, true
			}
		}
	}
	return column{}, nil, false
}

// suggest says what an unknown column may have been meant to be.
func (t table) suggest(name string) string {
	var own, all []string
	for _, c := range t.columns {
		own = append(own, c.name)
		for _, n := range c.names() {
			all = append(all, n.name)
		}
	}
	if like := nearest(name, all); like != "" {
		return fmt.Sprintf("did you mean %s?", like)
	}
	return "the columns are " + strings.Join(own, ", ")
}

// usesColumn says whether any row has something in a column.
func (s sheet) usesColumn(i int) bool {
	for _, r := range s.rows {
		if r.cell(i) != "" {
			return true
		}
	}
	return false
}

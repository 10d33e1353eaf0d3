package csvcatalogue

import (
	"fmt"
	"strings"

	"example.com/pondwright/plugins/contract"
)

// bound is a column of the contract at its place in a sheet.
type bound struct {
	column
	index  int    // in the row
	header string // as the file writes it
}

// binding is how the columns of a sheet map to those of its table.
type binding struct {
	sheet  sheet
	bounds []bound
}

// bind reads the header of a sheet: the one place where a header becomes a column. Every column has to be known, those that
// are required have to be there, and none may be there twice.
func bind(t table, s sheet) (binding, []contract.Problem) {
	b := binding{sheet: s}
	var problems []contract.Problem
	complain := func(header, format string, args ...any) {
		problems = append(problems, problemAt(place{s.file, 1, header}, format, args...))
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
		c, ok := t.column(name)
		switch before, twice := seen[c.name]; {
		case !ok:
			complain(strings.TrimSpace(text), "is not known: %s", t.suggest(name))
		case twice:
			complain(strings.TrimSpace(text), "gives what column %s gives already: keep one of them", before)
		default:
			seen[c.name] = strings.TrimSpace(text)
			b.bounds = append(b.bounds, bound{column: c, index: i, header: strings.TrimSpace(text)})
		}
	}
	for _, c := range t.columns {
		if _, ok := seen[c.name]; c.required && !ok {
			complain(c.name, "is missing: add it")
		}
	}
	return b, problems
}

// normalise lets a header be written with capitals and spaces.
func normalise(header string) string {
	return strings.Join(strings.Fields(strings.ToLower(header)), "_")
}

func (t table) column(name string) (column, bool) {
	for _, c := range t.columns {
		if c.name == name {
			return c, true
		}
	}
	return column{}, false
}

// suggest says what an unknown column may have been meant to be.
func (t table) suggest(name string) string {
	names := make([]string, len(t.columns))
	for i, c := range t.columns {
		names[i] = c.name
	}
	if like := nearest(name, names); like != "" {
		return fmt.Sprintf("did you mean %s?", like)
	}
	return "the columns are " + strings.Join(names, ", ")
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

package leaf

import (
	"html/template"
	"strings"
)

// A block is one thing on the page: exactly one of its fields is set, but for Heading, which stands over it.
type block struct {
	Heading  string // of the third level
	Text     string
	Strong   string // a sentence that must not be missed
	Rows     []pair
	Table    *table
	Picture  template.HTML
	Findings []finding
	List     []string
	Steps    []string // numbered
}

// A pair is a name and what is said of it.
type pair struct{ Name, Said string }

// A table has a head over every column, and the first cell of a row names the row.
type table struct {
	Caption string
	Head    []string
	// Figures says which columns hold figures, which stand at the right.
	Figures []bool
	Rows    [][]string
	Foot    []string
	Note    string
	// Small is for what is looked up and not read.
	Small bool
}

// columns makes a table of heads; one that begins with ">" holds figures.
func columns(caption string, heads ...string) *table {
	t := &table{Caption: caption}
	for _, h := range heads {
		name, figures := strings.CutPrefix(h, ">")
		t.Head, t.Figures = append(t.Head, name), append(t.Figures, figures)
	}
	return t
}

func (t *table) row(cells ...string) { t.Rows = append(t.Rows, cells) }

// block is the table on the page, or nothing where it has no rows.
func (t *table) block(heading string) []block {
	if len(t.Rows) == 0 {
		return nil
	}
	return []block{{Heading: heading, Table: t}}
}

func text(words string) []block {
	if words == "" {
		return nil
	}
	return []block{{Text: words}}
}

// Figure says whether a column holds figures.
func (t *table) Figure(column int) bool { return column < len(t.Figures) && t.Figures[column] }

package csvcatalogue

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// book is all sheets of a catalogue, read from a folder or a workbook and not understood yet.
type book struct {
	sheets   map[string]sheet // by the name they have, which may be that of no table
	label    func(name string) string
	revision string
}

// loader makes a catalogue of a book, and gathers what is wrong with any sheet as a whole.
type loader struct {
	book     book
	tables   tables
	problems []contract.Problem
}

// build makes a catalogue of a book.
func build(b book, checker *contract.Checker) (*Catalogue, []contract.Problem) {
	l := loader{book: b, tables: newTables()}
	description := l.describe(checker)
	var items []entry
	for _, kind := range l.tables.kinds {
		records := l.load(kind)
		if len(records) > 0 && description != nil {
			description.Kinds = append(description.Kinds, contract.KindOfField(kind.kind))
		}
		for _, rec := range records {
			items = append(items, entry{label: b.label(kind.name), record: rec, item: rec.message.(*equipmentv1.Item)})
		}
	}
	points := l.load(l.tables.curves)
	l.strangers()
	if len(l.problems) > 0 {
		return nil, l.problems
	}
	return &Catalogue{description: description, results: assemble(items, b.label(l.tables.curves.name), points, checker)}, nil
}

// load reads one table. One that is not there has no rows.
func (l *loader) load(t table) []record {
	s, ok := l.book.sheets[t.name]
	if !ok || s.broken {
		return nil
	}
	b, problems := bind(t, s)
	l.problems = append(l.problems, problems...)
	if len(problems) > 0 {
		return nil
	}
	return b.read(t)
}

// describe reads the table of the catalogue itself, which has one row, and adds the revision.
func (l *loader) describe(checker *contract.Checker) *cataloguev1.DescribeResponse {
	t := l.tables.about
	before := len(l.problems)
	rows := l.load(t)
	if len(l.problems) > before || l.book.sheets[t.name].broken {
		return nil
	}
	label := l.book.label(t.name)
	if len(rows) != 1 {
		what := fmt.Sprintf("has %d rows below its header", len(rows))
		if _, ok := l.book.sheets[t.name]; !ok {
			what = "is missing"
		}
		l.problems = append(l.problems, problemAt(place{sheet: label}, "%s: it has to have one, with title, currency and notice", what))
		return nil
	}
	rec := rows[0]
	d := rec.message.(*cataloguev1.DescribeResponse)
	d.Revision = l.book.revision
	problems := rec.problems
	if len(problems) == 0 {
		for _, p := range checker.CheckDescription(d) {
			problems = append(problems, problemAt(place{label, rec.row.number, rec.cells[p.Field].header}, "%s", p.Reason))
		}
	}
	l.problems = append(l.problems, problems...)
	return d
}

// strangers refuses sheets of other names: one that is misspelt would otherwise be left out without a word.
func (l *loader) strangers() {
	var known []string
	for _, t := range l.tables.all() {
		known = append(known, t.name)
	}
	for _, name := range slices.Sorted(maps.Keys(l.book.sheets)) {
		if slices.Contains(known, name) {
			continue
		}
		hint := "the tables are " + strings.Join(known, ", ")
		if like := nearest(strings.ToLower(name), known); like != "" {
			hint = fmt.Sprintf("did you mean %s?", l.book.label(like))
		}
		l.problems = append(l.problems, problemAt(place{sheet: l.book.label(name)}, "is not a table of a catalogue: %s", hint))
	}
}

package csvcatalogue

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"maps"
	"slices"
	"strings"

	"example.com/pondwright/plugins/contract"
	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// loader makes a catalogue of the contents of files, and gathers what is wrong with any file as a whole.
type loader struct {
	files    map[string][]byte // by name
	tables   tables
	problems []contract.Problem
}

// build makes a catalogue of the contents of the files.
func build(files map[string][]byte, checker *contract.Checker) (*Catalogue, []contract.Problem) {
	l := loader{files: files, tables: newTables()}
	description := l.describe(checker)
	var items []entry
	for _, kind := range l.tables.kinds {
		for _, rec := range l.load(kind) {
			items = append(items, entry{file: kind.file, record: rec, item: rec.message.(*equipmentv1.Item)})
		}
	}
	points := l.load(l.tables.curves)
	l.strangers()
	if len(l.problems) > 0 {
		return nil, l.problems
	}
	return &Catalogue{description: description, results: assemble(items, l.tables.curves.file, points, checker)}, nil
}

// load reads one file. A file that is not there has no rows.
func (l *loader) load(t table) []record {
	content, ok := l.files[t.file]
	if !ok {
		return nil
	}
	s, problem := readSheet(t.file, content)
	if problem != nil {
		l.problems = append(l.problems, *problem)
		return nil
	}
	b, problems := bind(t, s)
	l.problems = append(l.problems, problems...)
	if len(problems) > 0 {
		return nil
	}
	return b.read(t)
}

// describe reads catalogue.csv, which has one row, and adds what the files say of themselves.
func (l *loader) describe(checker *contract.Checker) *cataloguev1.DescribeResponse {
	t := l.tables.about
	before := len(l.problems)
	rows := l.load(t)
	if len(l.problems) > before {
		return nil
	}
	if len(rows) != 1 {
		what := fmt.Sprintf("has %d rows below its header", len(rows))
		if _, ok := l.files[t.file]; !ok {
			what = "is missing"
		}
		l.problems = append(l.problems, problemAt(place{file: t.file}, "%s: it has to have one, with title, currency and notice", what))
		return nil
	}
	rec := rows[0]
	d := rec.message.(*cataloguev1.DescribeResponse)
	d.Revision = revision(l.files)
	for _, kind := range l.tables.kinds {
		if _, ok := l.files[kind.file]; ok {
			d.Kinds = append(d.Kinds, contract.KindOfField(kind.kind))
		}
	}
	problems := rec.problems
	if len(problems) == 0 {
		for _, p := range checker.CheckDescription(d) {
			problems = append(problems, problemAt(place{t.file, rec.row.number, rec.cells[p.Field]}, "%s", p.Reason))
		}
	}
	l.problems = append(l.problems, problems...)
	return d
}

// strangers refuses CSV files of other names: one that is misspelt would otherwise be left out without a word.
func (l *loader) strangers() {
	known := []string{l.tables.about.file, l.tables.curves.file}
	for _, kind := range l.tables.kinds {
		known = append(known, kind.file)
	}
	for _, name := range slices.Sorted(maps.Keys(l.files)) {
		if slices.Contains(known, name) {
			continue
		}
		hint := "the files are " + strings.Join(known, ", ")
		if like := nearest(strings.ToLower(name), known); like != "" {
			hint = fmt.Sprintf("did you mean %s?", like)
		}
		l.problems = append(l.problems, problemAt(place{file: name}, "is not a file of a catalogue: %s", hint))
	}
}

// revision changes whenever a file does.
func revision(files map[string][]byte) string {
	sum := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(files)) {
		fmt.Fprintf(sum, "%s %d\n", name, len(files[name]))
		sum.Write(files[name])
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}

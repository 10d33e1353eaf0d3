package csvcatalogue

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// Guide describes every column, in Markdown.
func Guide() string {
	var b strings.Builder
	b.WriteString(guideHead)
	all := notes()
	for _, t := range newTables().all() {
		fmt.Fprintf(&b, "\n## %s\n\n| column | needed | what it says | allowed | or in |\n|---|---|---|---|---|\n", csvLabel(t.name))
		for _, c := range t.columns {
			n, _ := noteOf(all, t.name, c.name)
			fmt.Fprintf(&b, "| %s | %s | %s | %s | %s |\n", c.name, needed(c), n.what, c.allowed(), c.otherNames())
		}
		fmt.Fprintf(&b, "\n```csv\n%s%s```\n", csvBytes(t.names()), csvBytes(t.example(all)))
	}
	return b.String()
}

const guideHead = `# Columns of a catalogue in CSV files or in a workbook

One folder of CSV files is one catalogue, and so is one workbook (xlsx) with the same tables as sheets, without ".csv" in their
names. Fill in the one or the other, and name the folder or the workbook to the engine. catalogue.csv has to be there with one
row, and of the others those that you have items for; pumps.csv needs pump_curves.csv. A sheet whose name begins with _ is your
own and is not read.

The first row of a file names its columns, in any order. Save as "CSV UTF-8". An empty cell says "not given", never zero. Write
numbers alone, without unit, currency or thousands; the unit is in the name of the column, and a column may be given in another
unit by the names listed under "or in".

What is wrong with a file as a whole refuses the catalogue; what is wrong with a row leaves out that item alone. Both are named
by file, row and column.
`

// all are the tables in the order of the guide.
func (t tables) all() []table {
	ordered := []table{t.about}
	for _, kind := range t.kinds {
		ordered = append(ordered, kind)
		if kind.kind.Name() == "pump" {
			ordered = append(ordered, t.curves)
		}
	}
	return ordered
}

func (t table) names() []string {
	names := make([]string, len(t.columns))
	for i, c := range t.columns {
		names[i] = c.name
	}
	return names
}

// example is a row to copy.
func (t table) example(all map[string]note) []string {
	cells := make([]string, len(t.columns))
	for i, c := range t.columns {
		n, _ := noteOf(all, t.name, c.name)
		cells[i] = n.example
	}
	return cells
}

func csvBytes(cells []string) []byte {
	var b bytes.Buffer
	w := csv.NewWriter(&b)
	_ = w.Write(cells) // into memory, which cannot fail
	w.Flush()
	return b.Bytes()
}

func needed(c column) string {
	switch {
	case c.required:
		return "yes"
	case c.group != "":
		return "all " + c.group + " cells or none"
	}
	return "no"
}

// allowed are the values that the contract lets a column have.
func (c column) allowed() string {
	field, rules := c.field(), rulesOf(c.field())
	switch field.Kind() {
	case protoreflect.EnumKind:
		return strings.Join(enumWords(field.Enum())[1:], ", ")
	case protoreflect.StringKind:
		if n := rules.GetString().GetMaxLen(); n > 0 {
			return fmt.Sprintf("text of up to %d letters", n)
		}
		return "text"
	case protoreflect.Int32Kind:
		return "whole number " + bounds(rules.GetInt32().ProtoReflect())
	}
	return "number " + bounds(rules.GetDouble().ProtoReflect())
}

// bounds puts the limits of a number into words. The rules of all kinds of number have the same names.
func bounds(rules protoreflect.Message) string {
	var words []string
	for _, rule := range []struct{ name, word string }{{"gt", "above"}, {"gte", "from"}, {"lt", "below"}, {"lte", "to"}} {
		if field := rules.Descriptor().Fields().ByName(protoreflect.Name(rule.name)); field != nil && rules.Has(field) {
			words = append(words, fmt.Sprintf("%s %s", rule.word, plainLimit(rules.Get(field))))
		}
	}
	return strings.Join(words, " ")
}

func plainLimit(v protoreflect.Value) string {
	if f, ok := v.Interface().(float64); ok {
		return strconv.FormatFloat(f, 'f', -1, 64)
	}
	return v.String()
}

// otherNames are the names that a column has in other units.
func (c column) otherNames() string {
	var others []string
	for _, n := range c.names()[1:] {
		others = append(others, n.name)
	}
	return strings.Join(others, ", ")
}

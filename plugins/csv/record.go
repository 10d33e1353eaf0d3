package csvcatalogue

import (
	"slices"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	"example.com/pondwright/plugins/contract"
)

// record is one row read into a message, and what is wrong with it.
type record struct {
	row      row
	message  proto.Message
	number   string            // what its item_number cell says
	cells    map[string]string // column header by field path, to name the column of a problem that is found later
	problems []contract.Problem
}

// read makes a record of each row.
func (b binding) read(t table) []record {
	records := make([]record, len(b.sheet.rows))
	for i, r := range b.sheet.rows {
		records[i] = b.readRow(t, r)
	}
	return records
}

func (b binding) readRow(t table, r row) record {
	rec := record{row: r, message: t.newRow(), cells: make(map[string]string, len(b.bounds))}
	complain := func(column, format string, args ...any) {
		rec.problems = append(rec.problems, problemAt(place{b.sheet.file, r.number, column}, format, args...))
	}
	for i := len(b.sheet.header); i < len(r.cells); i++ {
		if r.cell(i) != "" {
			complain("", "has more cells than the header: put a text with a separator in it in quotes, and do not part thousands")
			break
		}
	}
	given := b.groupsGiven(r)
	for _, c := range b.bounds {
		text := r.cell(c.index)
		rec.cells[c.fieldPath()] = c.header
		if c.name == numberColumn {
			rec.number = text
		}
		if text == "" {
			if c.required || given[c.group] {
				complain(c.header, "is empty: fill it in%s", sameGroup(c.group))
			}
			continue
		}
		v, err := value(c.field(), text, b.sheet.decimalComma)
		if err != nil {
			complain(c.header, "%v", err)
			continue
		}
		if c.field().ContainingMessage() == rowOwner(rec.message, c.path) {
			set(rec.message, c.path, v)
		}
	}
	rec.problems = append(rec.problems, b.absent(t, r, given)...)
	return rec
}

// rowOwner is the message type that a path ends in when it starts at m; a curve row's item_number starts elsewhere.
func rowOwner(m proto.Message, path []protoreflect.FieldDescriptor) protoreflect.MessageDescriptor {
	owner := m.ProtoReflect().Descriptor()
	for _, field := range path[:len(path)-1] {
		owner = field.Message()
	}
	return owner
}

// groupsGiven are the groups of which a row fills at least one cell.
func (b binding) groupsGiven(r row) map[string]bool {
	given := make(map[string]bool)
	for _, c := range b.bounds {
		if c.group != "" && r.cell(c.index) != "" {
			given[c.group] = true
		}
	}
	return given
}

// absent names the columns of a given group that the file does not have at all.
func (b binding) absent(t table, r row, given map[string]bool) []contract.Problem {
	var problems []contract.Problem
	for _, c := range t.columns {
		here := slices.ContainsFunc(b.bounds, func(other bound) bool { return other.name == c.name })
		if given[c.group] && !here {
			problems = append(problems, problemAt(place{b.sheet.file, r.number, c.name}, "is missing: add the column%s", sameGroup(c.group)))
		}
	}
	return problems
}

func sameGroup(group string) string {
	if group == "" {
		return ""
	}
	return ", or empty the other " + group + " cells of the row"
}

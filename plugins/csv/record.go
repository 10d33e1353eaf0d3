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
	number   string           // what its item_number cell says
	cells    map[string]bound // those of its binding
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
	rec := record{row: r, message: t.newRow(), cells: b.cells}
	complain := func(column, format string, args ...any) {
		rec.problems = append(rec.problems, problemAt(place{b.sheet.label, r.number, column}, format, args...))
	}
	if b.overflows(r) {
		complain("", "has more cells than the header: put a text with a separator in it in quotes, and do not part thousands")
	}
	given := b.groupsGiven(r)
	for _, c := range b.bounds {
		text := r.cell(c.index)
		if c.name == numberColumn {
			rec.number = text
		}
		switch v, err := c.value(text, b.sheet.decimalComma); {
		case text == "" && (c.required || given[c.group]):
			complain(c.header, "is empty: fill it in%s", sameGroup(c.group))
		case text == "":
		case err != nil:
			complain(c.header, "%v", err)
		case c.field().ContainingMessage() == rowOwner(rec.message, c.path):
			set(rec.message, c.path, v)
		}
	}
	rec.problems = append(rec.problems, b.absent(t, r, given)...)
	return rec
}

// value reads a cell, and turns it into the contract's unit.
func (c bound) value(text string, decimalComma bool) (protoreflect.Value, error) {
	v, err := value(c.field(), text, decimalComma)
	if err == nil && c.turn != nil {
		v = protoreflect.ValueOfFloat64(tidy(c.turn(v.Float())))
	}
	return v, err
}

// overflows says whether a row has something beyond the last column of the header.
func (b binding) overflows(r row) bool {
	for i := len(b.sheet.header); i < len(r.cells); i++ {
		if r.cell(i) != "" {
			return true
		}
	}
	return false
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
	var given map[string]bool // most rows have none
	for _, c := range b.bounds {
		if c.group != "" && r.cell(c.index) != "" {
			if given == nil {
				given = make(map[string]bool)
			}
			given[c.group] = true
		}
	}
	return given
}

// absent names the columns of a given group that the file does not have at all.
func (b binding) absent(t table, r row, given map[string]bool) []contract.Problem {
	if len(given) == 0 {
		return nil
	}
	var problems []contract.Problem
	for _, c := range t.columns {
		here := slices.ContainsFunc(b.bounds, func(other bound) bool { return other.name == c.name })
		if given[c.group] && !here {
			problems = append(problems, problemAt(place{b.sheet.label, r.number, c.name}, "is missing: add the column%s", sameGroup(c.group)))
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

package csvcatalogue

import (
	"slices"
	"strings"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// column is one field of the contract as a column.
type column struct {
	name     string
	path     []protoreflect.FieldDescriptor // from the message of the table down to the field
	required bool
	group    string // of columns that are given all or none, because they are the fields of one optional message
}

// field is what the column sets.
func (c column) field() protoreflect.FieldDescriptor { return c.path[len(c.path)-1] }

// fieldPath is the column's place in a message, as the checks of the contract name it.
func (c column) fieldPath() string {
	names := make([]string, len(c.path))
	for i, f := range c.path {
		names[i] = string(f.Name())
	}
	return strings.Join(names, ".")
}

// table is one file of a folder, or one sheet of a workbook, and the message that a row of it makes.
type table struct {
	name    string // "pumps"
	message protoreflect.MessageType
	kind    protoreflect.FieldDescriptor // of the item that a row makes; nil where it makes none
	columns []column
}

// newRow is an empty message, of the right kind where it is an item.
func (t table) newRow() proto.Message {
	m := t.message.New()
	if t.kind != nil {
		m.Mutable(t.kind)
	}
	return m.Interface()
}

// The column that names an item in every table of items.
const numberColumn = "item_number"

// tables are all files of a catalogue, made from the contract.
type tables struct {
	about  table   // the catalogue itself
	kinds  []table // one for each kind of item
	curves table   // points of pump curves
}

func newTables() tables {
	item := (&equipmentv1.Item{}).ProtoReflect()
	fields := item.Descriptor().Fields()
	t := tables{
		about:  describedTable(),
		curves: table{name: "pump_curves", message: (&equipmentv1.CurvePoint{}).ProtoReflect().Type()},
	}
	t.curves.columns = append([]column{{name: numberColumn, path: []protoreflect.FieldDescriptor{fields.ByName(numberColumn)}, required: true}},
		columnsOf(t.curves.message.Descriptor(), "", nil, true)...)
	for i := range fields.Len() {
		if kind := fields.Get(i); kind.ContainingOneof() != nil && !kind.ContainingOneof().IsSynthetic() {
			t.kinds = append(t.kinds, kindTable(item.Type(), kind))
		}
	}
	return t
}

// describedTable is what a merchant says of the catalogue. The revision and the kinds come from the files.
func describedTable() table {
	d := (&cataloguev1.DescribeResponse{}).ProtoReflect()
	t := table{name: "catalogue", message: d.Type()}
	for _, c := range columnsOf(d.Descriptor(), "", nil, true) {
		switch c.name {
		case "revision":
			continue
		case "notice":
			c.required = false
		}
		t.columns = append(t.columns, c)
	}
	return t
}

// kindTable is the table of one kind of item: what every item has, then what the kind has.
func kindTable(item protoreflect.MessageType, kind protoreflect.FieldDescriptor) table {
	t := table{name: plural(string(kind.Name())), message: item, kind: kind}
	own := columnsOf(kind.Message(), "", []protoreflect.FieldDescriptor{kind}, true)
	soldByMeasure := slices.ContainsFunc(own, func(c column) bool { return strings.HasPrefix(c.name, "price_per_") })
	fields := item.Descriptor().Fields()
	for _, name := range []protoreflect.Name{numberColumn, "description", "price", "in_stock"} {
		if name == "price" && soldByMeasure {
			continue // two prices for one thing would be one too many
		}
		field := fields.ByName(name)
		t.columns = append(t.columns, column{name: string(name), path: []protoreflect.FieldDescriptor{field}, required: mustBeSet(field)})
	}
	t.columns = append(t.columns, own...)
	return t
}

// plural is the name of the table of a kind.
func plural(kind string) string {
	switch kind {
	case "medium":
		return "media"
	case "fish_species":
		return kind
	}
	return kind + "s"
}

// columnsOf makes a column of each field of a message. The fields of a message within it become columns with its name before
// theirs; a list has a table of its own.
func columnsOf(m protoreflect.MessageDescriptor, prefix string, path []protoreflect.FieldDescriptor, required bool) []column {
	var columns []column
	fields := m.Fields()
	for i := range fields.Len() {
		field := fields.Get(i)
		name, at := prefix+string(field.Name()), append(slices.Clone(path), field)
		switch {
		case field.IsList(), field.IsMap():
		case field.Message() != nil:
			inner := columnsOf(field.Message(), name+"_", at, required && mustBeSet(field))
			if !mustBeSet(field) {
				for j := range inner {
					inner[j].group = name
				}
			}
			columns = append(columns, inner...)
		default:
			columns = append(columns, column{name: name, path: at, required: required && mustBeSet(field)})
		}
	}
	return columns
}

// set puts a value at the end of a path.
func set(m proto.Message, path []protoreflect.FieldDescriptor, v protoreflect.Value) {
	at := m.ProtoReflect()
	for _, field := range path[:len(path)-1] {
		at = at.Mutable(field).Message()
	}
	at.Set(path[len(path)-1], v)
}

package contract

import (
	"context"
	"iter"
	"strings"

	"google.golang.org/protobuf/reflect/protoreflect"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
	equipmentv1 "example.com/pondwright/proto/pondwright/equipment/v1"
)

// Catalogue is one merchant's range. A plugin implements it; the host reads it. Both methods are called again on each
// reload, and never at once by one host.
type Catalogue interface {
	// Describe says what the catalogue is. Its revision changes whenever an item does.
	Describe(ctx context.Context) (*cataloguev1.DescribeResponse, error)

	// Items yields every item once, in any order. An item belongs to the reader once yielded. A *Rejected in place of an
	// item leaves that one out and goes on; any other error ends the reading and the catalogue is not loaded.
	Items(ctx context.Context) iter.Seq2[*equipmentv1.Item, error]
}

// Problem is one thing wrong with one field of an item.
type Problem struct {
	Field  string // path from the item, as "pump.curve[3].head_m", or a place in a file, as "pumps.csv row 7, column price"
	Reason string // what is wrong and what to change
}

// String is the whole problem on one line.
func (p Problem) String() string {
	if p.Field == "" {
		return p.Reason
	}
	return p.Field + ": " + p.Reason
}

// Join puts problems on one line.
func Join(problems []Problem) string {
	text := make([]string, len(problems))
	for i, p := range problems {
		text[i] = p.String()
	}
	return strings.Join(text, "; ")
}

// KindOf is the kind of an item, or unspecified where it has none that this engine knows.
func KindOf(item *equipmentv1.Item) equipmentv1.ItemKind {
	m := item.ProtoReflect()
	field := m.WhichOneof(m.Descriptor().Oneofs().ByName("kind"))
	if field == nil {
		return equipmentv1.ItemKind_ITEM_KIND_UNSPECIFIED
	}
	return KindOfField(field)
}

// KindOfField is the kind that a field of the oneof stands for: ITEM_KIND_LAMP_UNIT for lamp_unit.
func KindOfField(field protoreflect.FieldDescriptor) equipmentv1.ItemKind {
	return equipmentv1.ItemKind(equipmentv1.ItemKind_value["ITEM_KIND_"+strings.ToUpper(string(field.Name()))])
}

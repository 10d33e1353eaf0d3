package brief

import (
	"fmt"
	"strconv"
	"strings"

	"buf.build/go/protovalidate"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// forms says in words what a pattern of the proto asks for.
var forms = map[protoreflect.FullName]string{
	"pondwright.v1.Running.currency":  "a currency by its three capital letters, such as EUR",
	"pondwright.v1.JobWork.start_day": "a day such as 2027-04-12, in quotes",
}

// want says what a field takes: "a number in metres from 0.05 to 10".
func want(fd protoreflect.FieldDescriptor) string {
	if form := forms[fd.FullName()]; form != "" {
		return form
	}
	switch {
	case fd.IsList():
		return "a list" + sizeOf(fd)
	case fd.Message() != nil:
		return "it with its fields: " + strings.Join(fieldsOf(fd.Message()), ", ")
	case fd.Enum() != nil:
		return listed(enumNames(fd.Enum()))
	}
	switch fd.Kind() {
	case protoreflect.DoubleKind:
		in := ""
		if u, ok := unitOf(fd); ok {
			in = " in " + u.words
		}
		return "a number" + in + boundsOf(fd)
	case protoreflect.Int32Kind:
		return "a whole number" + boundsOf(fd)
	case protoreflect.BoolKind:
		return "true or false"
	}
	return "a text"
}

// boundsOf says between which numbers a field must lie: " from 0.05 to 10".
func boundsOf(fd protoreflect.FieldDescriptor) string {
	b := limits(fd)
	least, above, most := b["gte"], b["gt"], b["lte"]
	switch {
	case least != "" && most != "":
		return " from " + least + " to " + most
	case above != "" && most != "":
		return " above " + above + " and up to " + most
	case least != "":
		return " of at least " + least
	case above != "":
		return " above " + above
	case most != "":
		return " of at most " + most
	}
	return ""
}

// sizeOf says how many entries a list holds.
func sizeOf(fd protoreflect.FieldDescriptor) string {
	b := limits(fd)
	switch least, most := b["min_items"], b["max_items"]; {
	case least != "" && most != "":
		return " of " + least + " to " + most
	case least != "":
		return " of at least " + least
	case most != "":
		return " of at most " + most
	}
	return ""
}

// limits are the numbers in a field's rules, by the name of the rule.
func limits(fd protoreflect.FieldDescriptor) map[string]string {
	found := map[string]string{}
	rules, err := protovalidate.ResolveFieldRules(fd)
	if err != nil || rules == nil {
		return found
	}
	rules.ProtoReflect().Range(func(kind protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		if kind.Message() == nil || kind.IsList() {
			return true
		}
		v.Message().Range(func(rule protoreflect.FieldDescriptor, limit protoreflect.Value) bool {
			switch rule.Kind() {
			case protoreflect.DoubleKind:
				found[string(rule.Name())] = strconv.FormatFloat(limit.Float(), 'f', -1, 64)
			case protoreflect.Int32Kind, protoreflect.Uint64Kind:
				found[string(rule.Name())] = limit.String()
			}
			return true
		})
		return true
	})
	return found
}

// brokenRule says what is wrong with a value that was written.
func brokenRule(v *protovalidate.Violation) (wrong, change string) {
	fd, id := v.FieldDescriptor, v.Proto.GetRuleId()
	kind, rule, _ := strings.Cut(id, ".")
	switch {
	case kind == "string" && rule == "max_len":
		return "the text is too long", "shorten it to " + limits(fd)["max_len"] + " characters"
	case kind == "string" && rule == "pattern" && forms[fd.FullName()] != "":
		return quote(v.FieldValue.String()) + " is not " + forms[fd.FullName()], ""
	case kind == "repeated":
		return fmt.Sprintf("%d entries stand here", v.FieldValue.List().Len()), "give " + want(fd)
	case isList(v.FieldValue): // a rule of the list's own, with its own words
		return printable(v.Proto.GetMessage()), ""
	case fd.Enum() != nil:
		return "this says nothing", "choose " + want(fd)
	case fd.Kind() == protoreflect.DoubleKind:
		return tooWhat(v.FieldValue.Float(), fd), "give " + want(fd)
	case fd.Kind() == protoreflect.Int32Kind:
		return tooWhat(float64(v.FieldValue.Int()), fd), "give " + want(fd)
	}
	return printable(v.Proto.GetMessage()), ""
}

func isList(v protoreflect.Value) bool {
	_, ok := v.Interface().(protoreflect.List)
	return ok
}

// tooWhat says on which side of its bounds a number lies.
func tooWhat(x float64, fd protoreflect.FieldDescriptor) string {
	text := strconv.FormatFloat(x, 'g', -1, 64)
	if most, err := strconv.ParseFloat(limits(fd)["lte"], 64); err == nil && x > most {
		return text + " is too large"
	}
	return text + " is too small"
}

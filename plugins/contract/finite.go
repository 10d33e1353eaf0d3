package contract

import (
	"fmt"
	"math"

	"google.golang.org/protobuf/reflect/protoreflect"
)

// notFinite finds every NaN and infinity in a message, in fields that exist today and in those that come later.
func notFinite(m protoreflect.Message, path string) []Problem {
	var problems []Problem
	look := func(field protoreflect.FieldDescriptor, v protoreflect.Value, path string) {
		switch field.Kind() {
		case protoreflect.MessageKind, protoreflect.GroupKind:
			problems = append(problems, notFinite(v.Message(), path)...)
		case protoreflect.DoubleKind, protoreflect.FloatKind:
			if f := v.Float(); math.IsNaN(f) || math.IsInf(f, 0) {
				problems = append(problems, Problem{Field: path, Reason: fmt.Sprintf("is %g: give a number", f)})
			}
		}
	}
	m.Range(func(field protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		at := join(path, string(field.Name()))
		switch {
		case field.IsMap():
			// The contract has no maps: a test says so, since this walk would pass them by.
		case field.IsList():
			for i := range v.List().Len() {
				look(field, v.List().Get(i), fmt.Sprintf("%s[%d]", at, i))
			}
		default:
			look(field, v, at)
		}
		return true
	})
	return problems
}

func join(path, field string) string {
	if path == "" {
		return field
	}
	return path + "." + field
}

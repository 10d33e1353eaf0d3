package csvcatalogue

import (
	"buf.build/go/protovalidate"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// mustBeSet says whether the contract wants a field that could be left unset.
func mustBeSet(field protoreflect.FieldDescriptor) bool {
	rules, err := protovalidate.ResolveFieldRules(field)
	return err == nil && rules.GetRequired()
}

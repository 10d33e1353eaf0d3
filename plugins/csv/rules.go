package csvcatalogue

import (
	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"buf.build/go/protovalidate"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// rulesOf are the rules that the contract writes beside a field.
func rulesOf(field protoreflect.FieldDescriptor) *validate.FieldRules {
	rules, err := protovalidate.ResolveFieldRules(field)
	if err != nil {
		return nil // reads as no rules; the checks of the contract apply them all the same
	}
	return rules
}

// mustBeSet says whether the contract wants a field: one that cannot be told from zero when it is left out, or one that it
// requires.
func mustBeSet(field protoreflect.FieldDescriptor) bool {
	return !field.HasPresence() || rulesOf(field).GetRequired()
}

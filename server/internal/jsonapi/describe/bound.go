package main

import (
	"fmt"
	"slices"
	"strings"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"github.com/getkin/kin-openapi/openapi3"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"
	"google.golang.org/protobuf/reflect/protoregistry"

	_ "example.com/pondwright/proto/pondwright/v1"
)

// bound puts the limits of every message of ours into its schema.
func bound(d *openapi3.T) error {
	for name, ref := range d.Components.Schemas {
		if !strings.HasPrefix(name, "pondwright.") {
			continue
		}
		found, err := protoregistry.GlobalFiles.FindDescriptorByName(protoreflect.FullName(name))
		if err != nil {
			return fmt.Errorf("schema %s is of no message: %w", name, err)
		}
		if message, ok := found.(protoreflect.MessageDescriptor); ok {
			if err := boundMessage(ref.Value, message); err != nil {
				return err
			}
		}
	}
	return nil
}

func boundMessage(schema *openapi3.Schema, m protoreflect.MessageDescriptor) error {
	schema.AdditionalProperties = openapi3.AdditionalProperties{Has: new(false)}
	for i := range m.Fields().Len() {
		field := m.Fields().Get(i)
		property := schema.Properties[string(field.Name())]
		if property == nil {
			return fmt.Errorf("the schema of %s has no %s", m.FullName(), field.Name())
		}
		rules, _ := proto.GetExtension(field.Options(), validate.E_Field).(*validate.FieldRules)
		if boundField(property, field, rules) {
			schema.Required = append(schema.Required, string(field.Name()))
		}
	}
	slices.Sort(schema.Required)
	for i := range m.Oneofs().Len() {
		if one := m.Oneofs().Get(i); !one.IsSynthetic() {
			oneOf(schema, one)
		}
	}
	var said []string
	rules, _ := proto.GetExtension(m.Options(), validate.E_Message).(*validate.MessageRules)
	for _, rule := range rules.GetCel() {
		said = append(said, "Rule: "+rule.GetMessage()+".")
	}
	if len(said) > 0 {
		schema.Description = strings.TrimSpace(schema.Description + "\n\n" + strings.Join(said, "\n"))
	}
	return nil
}

// oneOf says that of some fields one is given, or none where none need be.
func oneOf(schema *openapi3.Schema, one protoreflect.OneofDescriptor) {
	var names []string
	var alternatives openapi3.SchemaRefs
	for i := range one.Fields().Len() {
		name := string(one.Fields().Get(i).Name())
		names = append(names, name)
		alternatives = append(alternatives, &openapi3.SchemaRef{Value: &openapi3.Schema{Required: []string{name}}})
	}
	rules, _ := proto.GetExtension(one.Options(), validate.E_Oneof).(*validate.OneofRules)
	if rules.GetRequired() {
		schema.AllOf = append(schema.AllOf, &openapi3.SchemaRef{Value: &openapi3.Schema{OneOf: alternatives}})
		schema.Description = strings.TrimSpace(schema.Description + "\n\nGive one of " + strings.Join(names, ", ") + ".")
		return
	}
	schema.Description = strings.TrimSpace(schema.Description + "\n\nGive at most one of " + strings.Join(names, ", ") + ".")
}

// boundField puts in the limits of one field and reports whether it has to be given.
func boundField(property *openapi3.SchemaRef, field protoreflect.FieldDescriptor, rules *validate.FieldRules) (required bool) {
	if property.Value == nil || property.Ref != "" { // an enum or a message, bounded where it is declared
		return rules.GetRequired() || slices.Contains(rules.GetEnum().GetNotIn(), 0)
	}
	s := property.Value
	if list := rules.GetRepeated(); list != nil {
		s.MinItems = list.GetMinItems()
		if list.HasMaxItems() {
			s.MaxItems = new(list.GetMaxItems())
		}
		if s.Items != nil {
			boundField(s.Items, field, list.GetItems())
		}
		return rules.GetRequired() || list.GetMinItems() > 0
	}
	refusesZero := false
	if r := rules.GetDouble(); r != nil {
		s.Min, s.ExclusiveMin = least(r.HasGt(), r.GetGt(), r.HasGte(), r.GetGte())
		s.Max, s.ExclusiveMax = least(r.HasLt(), r.GetLt(), r.HasLte(), r.GetLte())
		refusesZero = r.HasGt() && r.GetGt() >= 0 || r.HasGte() && r.GetGte() > 0
	}
	if r := rules.GetInt32(); r != nil {
		s.Min, s.ExclusiveMin = least(r.HasGt(), float64(r.GetGt()), r.HasGte(), float64(r.GetGte()))
		s.Max, s.ExclusiveMax = least(r.HasLt(), float64(r.GetLt()), r.HasLte(), float64(r.GetLte()))
		refusesZero = r.HasGt() && r.GetGt() >= 0 || r.HasGte() && r.GetGte() > 0
	}
	if r := rules.GetString(); r != nil {
		s.MinLength = r.GetMinLen()
		if r.HasMaxLen() {
			s.MaxLength = new(r.GetMaxLen())
		}
		// Patterns of the proto are RE2; those of which a validator by ECMA 262 has another reading are left out.
		if r.HasPattern() && !strings.Contains(r.GetPattern(), `\p`) {
			s.Pattern = r.GetPattern()
		}
		refusesZero = r.GetMinLen() > 0
	}
	return rules.GetRequired() || refusesZero && !field.HasPresence() || slices.Contains(rules.GetEnum().GetNotIn(), 0)
}

// least is a bound that the number may or may not reach.
func least(open bool, beyond float64, closed bool, from float64) (*float64, openapi3.ExclusiveBound) {
	switch {
	case open:
		return &beyond, openapi3.ExclusiveBound{Bool: new(true)}
	case closed:
		return &from, openapi3.ExclusiveBound{}
	}
	return nil, openapi3.ExclusiveBound{}
}

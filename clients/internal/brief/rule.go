package brief

import (
	"errors"
	"regexp"
	"strings"

	"buf.build/gen/go/bufbuild/protovalidate/protocolbuffers/go/buf/validate"
	"buf.build/go/protovalidate"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// rules holds the message against the rules of its proto, and says in a person's words which it breaks.
func (r *reader) rules(m protoreflect.Message) {
	err := protovalidate.Validate(m.Interface())
	var invalid *protovalidate.ValidationError
	switch {
	case err == nil:
	case errors.As(err, &invalid):
		for _, v := range invalid.Violations {
			r.violation(v)
		}
	default:
		r.say(top, "", "the brief cannot be checked: "+printable(err.Error()), "")
	}
}

func (r *reader) violation(v *protovalidate.Violation) {
	path := protovalidate.FieldPathString(v.Proto.GetField())
	if r.under != "" && ofBrief(path) {
		return
	}
	path = under(r.under, path)
	if r.spokenOf(path) {
		return
	}
	fd := v.FieldDescriptor
	md := r.root
	if fd != nil && fd.Message() != nil {
		md = fd.Message()
	}
	if rule := messageRule(md, v.Proto.GetRuleId()); rule != nil {
		r.brokenMessageRule(path, rule)
		return
	}
	if fd == nil {
		r.missingChoice(path, v)
		return
	}
	if _, written := r.at.Find(path); !written {
		r.say(r.at.nearest(parent(path)), path, string(fd.Name())+" is missing", "give "+want(fd))
		return
	}
	wrong, change := brokenRule(v)
	r.say(r.at.nearest(path), path, wrong, change)
}

// spokenOf says whether the field, or a block it stands in, has been complained of.
func (r *reader) spokenOf(path string) bool {
	for ; path != ""; path = parent(path) {
		if r.spoken[path] {
			return true
		}
	}
	return false
}

// missingChoice complains of a oneof without a member, unless one of them was tried.
func (r *reader) missingChoice(path string, v *protovalidate.Violation) {
	choice := choiceAt(r.root, v.Proto.GetField())
	if choice == nil {
		r.say(r.at.nearest(path), path, printable(v.Proto.GetMessage()), "")
		return
	}
	members, block := memberNames(choice), parent(path)
	for _, name := range members {
		if r.spoken[join(block, name)] {
			return
		}
	}
	// Not by say, for the other fields of the block have not been spoken of.
	r.problems = append(r.problems, Problem{Position: r.at.nearest(block), Field: block, Wrong: "give one of " + strings.Join(members, ", ")})
}

// choiceAt follows a path to the oneof at its end.
func choiceAt(md protoreflect.MessageDescriptor, path *validate.FieldPath) protoreflect.OneofDescriptor {
	elements := path.GetElements()
	for i, e := range elements {
		if md == nil {
			return nil
		}
		name := protoreflect.Name(e.GetFieldName())
		if i == len(elements)-1 {
			return md.Oneofs().ByName(name)
		}
		fd := md.Fields().ByName(name)
		if fd == nil {
			return nil
		}
		md = fd.Message()
	}
	return nil
}

func messageRule(md protoreflect.MessageDescriptor, id string) *validate.Rule {
	rules, err := protovalidate.ResolveMessageRules(md)
	if err != nil {
		return nil
	}
	for _, rule := range rules.GetCel() {
		if rule.GetId() == id {
			return rule
		}
	}
	return nil
}

// fieldOfRule finds the fields that a rule of a message looks at.
var fieldOfRule = regexp.MustCompile(`\bthis((?:\.\w+)+)`)

// brokenMessageRule complains of a rule between fields, at the innermost of them that was written, unless one of them has
// been complained of already.
func (r *reader) brokenMessageRule(path string, rule *validate.Rule) {
	at, deepest := r.at.nearest(path), -1
	for _, match := range fieldOfRule.FindAllStringSubmatch(rule.GetExpression(), -1) {
		field := join(path, match[1][1:])
		if r.spokenOf(field) {
			return
		}
		if place, written := r.at.Find(field); written && strings.Count(field, ".") > deepest {
			at, deepest = place, strings.Count(field, ".")
		}
	}
	if path == "" {
		path = "brief"
	}
	r.say(at, path, rule.GetMessage(), "")
}

package brief

import (
	"fmt"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"google.golang.org/protobuf/reflect/protoreflect"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// unknownKey refuses a key that is not a field of the message, and says which one was meant.
func (r *reader) unknownKey(path, key string, at Position, block *ast.MappingNode, md protoreflect.MessageDescriptor) {
	free := freeFields(block, md)
	meant, change := meantBy(key, free)
	if meant != "" {
		r.spoken[join(path, meant)] = true
	} else if home := r.home(key); home != "" {
		change = "it belongs in " + home
	} else {
		change = "the fields here are " + strings.Join(fieldsOf(md), ", ")
		if _, u, ok := splitKey(key); ok && u.also != nil {
			change += fmt.Sprintf(" (and a gallon is %s L in the UK, %s L in the US)", decimal(ukGallon), decimal(usGallon))
		}
	}
	if number.MatchString(key) {
		change += "; where a fraction was meant, write a point and no comma"
	}
	r.say(at, join(path, keyText(key)), keyText(key)+" is not a field here", change)
}

// freeFields are the fields of the message that the block does not hold.
func freeFields(block *ast.MappingNode, md protoreflect.MessageDescriptor) []string {
	return slices.DeleteFunc(fieldsOf(md), func(name string) bool {
		return slices.ContainsFunc(block.Values, func(entry *ast.MappingValueNode) bool {
			k, ok := entry.Key.(*ast.StringNode)
			return ok && k.Value == name
		})
	})
}

// meantBy guesses the field that a key was meant for: the same name in another unit or in none, the end of a longer name,
// or one much like it.
func meantBy(key string, fields []string) (field, change string) {
	stem, u, hasUnit := splitKey(key)
	likenesses := []func(stem, field string) bool{
		func(stem, field string) bool { return squash(stem) == squash(field) },
		func(stem, field string) bool { return strings.HasSuffix(field, "_"+stem) },
		func(stem, field string) bool { return nearest(stem, []string{field}) != "" },
	}
	for _, alike := range likenesses {
		for _, name := range fields {
			fieldStem, fieldUnit, ok := splitKey(name)
			if !ok || !alike(stem, fieldStem) || hasUnit && u.of != fieldUnit.of {
				continue
			}
			switch {
			case !hasUnit:
				return name, fmt.Sprintf("use %s, in %s", name, fieldUnit.words)
			case u.symbol == fieldUnit.symbol:
				return name, "use " + name
			}
			return name, fmt.Sprintf("use %s (%s)", name, factorText(u, fieldUnit))
		}
	}
	if name := nearest(key, fields); name != "" {
		return name, "use " + name
	}
	return "", ""
}

// home is where else in the file a key of this name belongs.
func (r *reader) home(key string) string {
	home := homeOf(key, r.root, nil)
	switch {
	case r.under == "" && home == "" && jobFields().ByName(protoreflect.Name(key)) != nil:
		return jobKey
	case r.under != "" && (home == "brief" || strings.HasPrefix(home, "brief.")):
		if home = strings.TrimPrefix(strings.TrimPrefix(home, "brief"), "."); home == "" {
			return "the top of the file"
		}
	case r.under != "" && home != "":
		return join(r.under, home)
	}
	return home
}

// jobFields are the fields of the job.
func jobFields() protoreflect.FieldDescriptors {
	return new(pondwrightv1.JobBrief).ProtoReflect().Descriptor().Fields()
}

// homeOf is where else in a brief a key of this name belongs: "fall", or "pond.bays".
func homeOf(key string, md protoreflect.MessageDescriptor, seen []protoreflect.FullName) string {
	if slices.Contains(seen, md.FullName()) {
		return ""
	}
	for i := range md.Fields().Len() {
		fd := md.Fields().Get(i)
		if fd.Message() == nil {
			continue
		}
		name := string(fd.Name())
		if fd.Message().Fields().ByName(protoreflect.Name(key)) != nil {
			return name
		}
		if deeper := homeOf(key, fd.Message(), append(seen, md.FullName())); deeper != "" {
			return name + "." + deeper
		}
	}
	return ""
}

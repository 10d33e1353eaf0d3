package brief

import (
	"fmt"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// message fills a message from a block of keys.
func (r *reader) message(path string, n ast.Node, into protoreflect.Message) {
	block, ok := r.plain(path, n).(*ast.MappingNode)
	if !ok {
		if n = r.bare(n); n != nil {
			r.say(start(n), path, noun(n)+" stands where a block of fields is wanted", "give its fields: "+strings.Join(fieldsOf(into.Descriptor()), ", "))
		}
		return
	}
	w := writtenKeys{at: map[string]Position{}, of: map[protoreflect.FullName]string{}}
	for _, entry := range block.Values {
		name, ok := r.key(path, entry)
		if !ok {
			continue
		}
		fd := into.Descriptor().Fields().ByName(protoreflect.Name(name))
		if fd == nil {
			r.unknownKey(path, name, start(entry.Key), block, into.Descriptor())
			continue
		}
		if r.repeated(join(path, name), start(entry.Key), fd, w) {
			continue
		}
		r.field(join(path, name), start(entry.Key), entry.Value, fd, into)
	}
}

// writtenKeys is what a block has held so far: its keys, and the member chosen of each oneof.
type writtenKeys struct {
	at map[string]Position
	of map[protoreflect.FullName]string
}

// repeated refuses a key that was there before, and a second member of a oneof.
func (r *reader) repeated(path string, at Position, fd protoreflect.FieldDescriptor, w writtenKeys) bool {
	name := string(fd.Name())
	if first, again := w.at[name]; again {
		r.say(at, path, fmt.Sprintf("%s is given twice, first in line %d", name, first.Line), "keep one of them")
		return true
	}
	w.at[name] = at
	choice := fd.ContainingOneof()
	if choice == nil || choice.IsSynthetic() {
		return false
	}
	if first, again := w.of[choice.FullName()]; again {
		r.say(at, path, fmt.Sprintf("%s cannot be given beside %s", name, first), "keep one of "+listed(memberNames(choice)))
		return true
	}
	w.of[choice.FullName()] = name
	return false
}

// key is the name in front of a colon.
func (r *reader) key(path string, entry *ast.MappingValueNode) (string, bool) {
	at := start(entry.Key)
	switch k := entry.Key.(type) {
	case *ast.StringNode:
		return k.Value, true
	case *ast.MergeKeyNode:
		r.say(at, path, "merging another block with << is not read", "write its fields out")
	case ast.ScalarNode:
		return k.GetToken().Value, true
	default:
		r.say(at, path, "this key is not a plain name", "write the name of a field and a colon")
	}
	return "", false
}

// plain is the node without anchor and tag, which are refused: they let a line mean something that it does not say.
func (r *reader) plain(path string, n ast.Node) ast.Node {
	for {
		switch v := n.(type) {
		case *ast.AnchorNode:
			r.say(start(v), path, "anchors (&) are not read", "delete it, and write the value out where it is used")
			n = v.Value
		case *ast.TagNode:
			r.say(start(v), path, "tags (!) are not read", "delete it")
			n = v.Value
		case *ast.AliasNode:
			r.say(start(v), path, "aliases (*) are not read", "write the value out")
			return nil
		default:
			return n
		}
	}
}

// bare is the node below anchor and tag, or nil where there is only an alias.
func (r *reader) bare(n ast.Node) ast.Node {
	for {
		switch v := n.(type) {
		case *ast.AnchorNode:
			n = v.Value
		case *ast.TagNode:
			n = v.Value
		case *ast.AliasNode:
			return nil
		default:
			return n
		}
	}
}

// field sets one field from what stands after its colon.
func (r *reader) field(path string, key Position, n ast.Node, fd protoreflect.FieldDescriptor, into protoreflect.Message) {
	r.at.of[path] = key
	switch {
	case r.absent(path, key, n):
	case fd.IsList():
		r.list(path, n, fd, into.Mutable(fd).List())
	case fd.Message() != nil:
		r.message(path, n, into.Mutable(fd).Message())
	default:
		if value, ok := r.scalar(path, n, fd); ok {
			into.Set(fd, value)
		}
	}
}

// absent refuses a key without a value, which could mean anything.
func (r *reader) absent(path string, key Position, n ast.Node) bool {
	if n != nil && n.Type() != ast.NullType {
		return false
	}
	wrong := "nothing is given for it"
	if n != nil && n.GetToken().Type != token.ImplicitNullType {
		key, wrong = start(n), quote(n.GetToken().Value)+" says nothing"
	}
	r.say(key, path, wrong, "give a value or delete the line")
	return true
}

func (r *reader) list(path string, n ast.Node, fd protoreflect.FieldDescriptor, into protoreflect.List) {
	items, ok := r.plain(path, n).(*ast.SequenceNode)
	if !ok {
		if n = r.bare(n); n != nil {
			r.say(start(n), path, noun(n)+" stands where a list is wanted", `begin each of its entries with "- "`)
		}
		return
	}
	for i, item := range items.Values {
		path := fmt.Sprintf("%s[%d]", path, i)
		r.at.of[path] = start(item)
		switch {
		case r.absent(path, start(item), item):
		case fd.Message() != nil:
			r.message(path, item, into.AppendMutable().Message())
			continue
		default:
			if value, ok := r.scalar(path, item, fd); ok {
				into.Append(value)
				continue
			}
		}
		into.Append(into.NewElement()) // so that the entries after it keep their numbers
	}
}

package audit

import (
	"fmt"
	"math"

	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	"example.com/pondwright/server/internal/intercept"
)

// DigestOf is the digest of an answer without its provenance, which is another for every version.
func DigestOf(answer proto.Message) (string, error) {
	return intercept.Digest(bare(answer))
}

func bare(answer proto.Message) proto.Message {
	m := answer.ProtoReflect()
	f := m.Descriptor().Fields().ByName("provenance")
	if f == nil || !m.Has(f) {
		return answer
	}
	// A copy of the top alone: what lies below is only read.
	top := m.New()
	m.Range(func(each protoreflect.FieldDescriptor, v protoreflect.Value) bool {
		if each != f {
			top.Set(each, v)
		}
		return true
	})
	return top.Interface()
}

// Differences lists where two answers differ, provenance apart, at most so many: the field, what it was and what it is.
func Differences(was, is proto.Message, most int) []string {
	c := comparison{most: most}
	c.messages("", bare(was).ProtoReflect(), bare(is).ProtoReflect())
	return c.found
}

type comparison struct {
	most  int
	found []string
}

func (c *comparison) say(path string, was, is any) {
	if len(c.found) < c.most {
		c.found = append(c.found, fmt.Sprintf("%s was %v, is %v", path, was, is))
	}
}

func (c *comparison) messages(path string, was, is protoreflect.Message) {
	if was.Descriptor() != is.Descriptor() {
		c.say(path, was.Descriptor().FullName(), is.Descriptor().FullName())
		return
	}
	fields := was.Descriptor().Fields()
	for i := range fields.Len() {
		f := fields.Get(i)
		at := string(f.Name())
		if path != "" {
			at = path + "." + at
		}
		switch {
		case !was.Has(f) && !is.Has(f):
		case f.IsList():
			c.lists(at, f, was.Get(f).List(), is.Get(f).List())
		case was.Has(f) != is.Has(f):
			c.say(at, shown(was, f), shown(is, f))
		case f.IsMap():
			if !was.Get(f).Equal(is.Get(f)) {
				c.say(at, "another map", "this map")
			}
		case f.Message() != nil:
			c.messages(at, was.Get(f).Message(), is.Get(f).Message())
		case !same(f, was.Get(f), is.Get(f)):
			c.say(at, was.Get(f), is.Get(f))
		}
	}
}

func (c *comparison) lists(path string, f protoreflect.FieldDescriptor, was, is protoreflect.List) {
	if was.Len() != is.Len() {
		c.say(path, fmt.Sprintf("%d entries", was.Len()), fmt.Sprintf("%d", is.Len()))
	}
	for i := range min(was.Len(), is.Len()) {
		at := fmt.Sprintf("%s[%d]", path, i)
		if f.Message() != nil {
			c.messages(at, was.Get(i).Message(), is.Get(i).Message())
		} else if !same(f, was.Get(i), is.Get(i)) {
			c.say(at, was.Get(i), is.Get(i))
		}
	}
}

// same holds numbers to the last bit, and takes NaN for itself.
func same(f protoreflect.FieldDescriptor, a, b protoreflect.Value) bool {
	if f.Kind() == protoreflect.DoubleKind {
		return math.Float64bits(a.Float()) == math.Float64bits(b.Float())
	}
	return a.Equal(b)
}

func shown(m protoreflect.Message, f protoreflect.FieldDescriptor) any {
	switch {
	case !m.Has(f):
		return "not there"
	case f.Message() != nil:
		return "there"
	default:
		return m.Get(f)
	}
}

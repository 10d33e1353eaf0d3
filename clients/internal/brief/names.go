package brief

import (
	"iter"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// shortNames are the names of an enum without the enum's own in front, and without its zero: "koi" of SPECIES_KOI.
func shortNames(ed protoreflect.EnumDescriptor) iter.Seq2[string, protoreflect.EnumNumber] {
	return func(yield func(string, protoreflect.EnumNumber) bool) {
		values := ed.Values()
		prefix := strings.TrimSuffix(string(values.Get(0).Name()), "UNSPECIFIED")
		for i := 1; i < values.Len(); i++ {
			v := values.Get(i)
			if !yield(strings.ToLower(strings.TrimPrefix(string(v.Name()), prefix)), v.Number()) {
				return
			}
		}
	}
}

func enumNames(ed protoreflect.EnumDescriptor) []string {
	var names []string
	for name := range shortNames(ed) {
		names = append(names, name)
	}
	return names
}

func fieldsOf(md protoreflect.MessageDescriptor) []string {
	names := make([]string, md.Fields().Len())
	for i := range names {
		names[i] = string(md.Fields().Get(i).Name())
	}
	return names
}

func memberNames(choice protoreflect.OneofDescriptor) []string {
	names := make([]string, choice.Fields().Len())
	for i := range names {
		names[i] = string(choice.Fields().Get(i).Name())
	}
	return names
}

// noun says what a node is.
func noun(n ast.Node) string {
	switch n.(type) {
	case *ast.MappingNode, *ast.MappingValueNode:
		return "a block of fields"
	case *ast.SequenceNode:
		return "a list"
	}
	if w, ok := wordOf(n); ok {
		if !w.quoted && number.MatchString(w.text) {
			return "the number " + w.text
		}
		return "the text " + quote(w.text)
	}
	return "something else"
}

// nearest is the name that a misspelt one comes closest to, or nothing where none is close.
func nearest(misspelt string, names []string) string {
	best, least := "", 1+min(3, (len(misspelt)+1)/3)
	for _, name := range names {
		if d := distance(squash(misspelt), squash(name)); d < least {
			best, least = name, d
		}
	}
	return best
}

// squash leaves out what does not make a name another: case, and how its words are joined.
func squash(name string) string {
	return strings.NewReplacer("_", "", "-", "", " ", "").Replace(strings.ToLower(name))
}

// distance counts the letters to add, leave out, replace or swap with their neighbour to make one text of the other
// (optimal string alignment).
func distance(a, b string) int {
	s, t := []rune(a), []rune(b)
	if len(s) > 64 {
		return len(s)
	}
	before, row, above := make([]int, len(t)+1), make([]int, len(t)+1), make([]int, len(t)+1)
	for j := range above {
		above[j] = j
	}
	for i := 1; i <= len(s); i++ {
		row[0] = i
		for j := 1; j <= len(t); j++ {
			change := 1
			if s[i-1] == t[j-1] {
				change = 0
			}
			row[j] = min(above[j]+1, row[j-1]+1, above[j-1]+change)
			if i > 1 && j > 1 && s[i-1] == t[j-2] && s[i-2] == t[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, above, row = above, row, before
	}
	return above[len(t)]
}

package brief

import (
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/token"
	"google.golang.org/protobuf/reflect/protoreflect"
)

// A word is a single value as it was written.
type word struct {
	text   string
	quoted bool // so that it is text, whatever it looks like
	at     Position
}

// number is YAML 1.2's core form of a decimal number, without leading zeros, which some readers take for octal.
var number = regexp.MustCompile(`^[-+]?(?:(?:0|[1-9][0-9]*)(?:\.[0-9]*)?|\.[0-9]+)(?:[eE][-+]?[0-9]+)?$`)

// scalar reads a single value of the field's type.
func (r *reader) scalar(path string, n ast.Node, fd protoreflect.FieldDescriptor) (protoreflect.Value, bool) {
	none := protoreflect.Value{}
	n = r.plain(path, n)
	if n == nil {
		return none, false
	}
	w, ok := wordOf(n)
	if !ok {
		r.say(start(n), path, noun(n)+" stands where one value is wanted", "give "+want(fd))
		return none, false
	}
	r.at.of[path] = w.at
	switch fd.Kind() {
	case protoreflect.DoubleKind:
		x, ok := r.number(path, w, fd)
		return protoreflect.ValueOfFloat64(x), ok
	case protoreflect.Int32Kind:
		x, ok := r.whole(path, w, fd)
		return protoreflect.ValueOfInt32(x), ok
	case protoreflect.EnumKind:
		return r.enum(path, w, fd)
	case protoreflect.BoolKind:
		return r.truth(path, w)
	case protoreflect.StringKind:
		return r.text(path, w)
	}
	r.say(w.at, path, "a field of kind "+fd.Kind().String()+" cannot be given in a file", "delete it")
	return none, false
}

// wordOf is the value of a node that holds a single one.
func wordOf(n ast.Node) (word, bool) {
	switch v := n.(type) {
	case *ast.LiteralNode:
		return word{text: v.Value.Value, quoted: true, at: start(v)}, true
	case *ast.StringNode:
		return word{text: v.Value, quoted: v.Token.Type != token.StringType, at: start(v)}, true
	case ast.ScalarNode:
		return word{text: v.GetToken().Value, at: start(v)}, true
	}
	return word{}, false
}

func (r *reader) number(path string, w word, fd protoreflect.FieldDescriptor) (float64, bool) {
	if w.quoted || !number.MatchString(w.text) {
		wrong, change := notANumber(w, fd)
		r.say(w.at, path, wrong, change)
		return 0, false
	}
	x, err := strconv.ParseFloat(w.text, 64)
	if err != nil || math.IsInf(x, 0) {
		r.say(w.at, path, w.text+" is too large to calculate with", "give "+want(fd))
		return 0, false
	}
	return x, true
}

func (r *reader) whole(path string, w word, fd protoreflect.FieldDescriptor) (int32, bool) {
	x, ok := r.number(path, w, fd)
	if ok && (x != math.Trunc(x) || math.Abs(x) > math.MaxInt32) {
		r.say(w.at, path, w.text+" is not a whole number that can be counted to", "give "+want(fd))
		return 0, false
	}
	return int32(x), ok
}

func (r *reader) truth(path string, w word) (protoreflect.Value, bool) {
	if !w.quoted && (w.text == "true" || w.text == "false") {
		return protoreflect.ValueOfBool(w.text == "true"), true
	}
	r.say(w.at, path, quote(w.text)+" is neither true nor false", "write true or false")
	return protoreflect.Value{}, false
}

// otherThanText are plain words that YAML takes for something else.
var otherThanText = regexp.MustCompile(`^(?i:true|false|[-+]?\.inf|\.nan)$`)

func (r *reader) text(path string, w word) (protoreflect.Value, bool) {
	if !w.quoted && (number.MatchString(w.text) || otherThanText.MatchString(w.text)) {
		r.say(w.at, path, w.text+" is not text", `write it in quotes: "`+w.text+`"`)
		return protoreflect.Value{}, false
	}
	return protoreflect.ValueOfString(w.text), true
}

// enum reads a name in its short form, "ball_valve", or as the proto has it, "FITTING_KIND_BALL_VALVE".
func (r *reader) enum(path string, w word, fd protoreflect.FieldDescriptor) (protoreflect.Value, bool) {
	if v := fd.Enum().Values().ByName(protoreflect.Name(w.text)); v != nil {
		return protoreflect.ValueOfEnum(v.Number()), true
	}
	names := enumNames(fd.Enum())
	w = yesOrNo(w, names)
	for name, value := range shortNames(fd.Enum()) {
		if name == w.text {
			return protoreflect.ValueOfEnum(value), true
		}
	}
	change := "choose " + listed(names)
	if near := nearest(strings.ToLower(w.text), names); near != "" {
		change = "write " + near + " (of " + listed(names) + ")"
	}
	r.say(w.at, path, quote(w.text)+" is not a name known here", change)
	return protoreflect.Value{}, false
}

// yesOrNo reads YAML's true and false as yes and no, where those are what can be said: some YAML tools write the one for
// the other.
func yesOrNo(w word, names []string) word {
	if w.quoted || !slices.Equal(names, []string{"yes", "no"}) {
		return w
	}
	switch w.text {
	case "true":
		w.text = "yes"
	case "false":
		w.text = "no"
	}
	return w
}

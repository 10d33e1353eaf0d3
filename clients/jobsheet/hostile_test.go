package main

import (
	"strings"
	"testing"
	"unicode"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
	"google.golang.org/protobuf/reflect/protoreflect"

	pondwrightv1 "example.com/pondwright/proto/pondwright/v1"
)

// hostile is what no text from a catalogue may do to a terminal: clear it, name its window, ring, go back over a line,
// turn the direction of reading, or begin a line of its own.
const hostile = "a\x1b[2J\x1b]0;b\x07c\rd\u009b31me\u202ef\u2066g\u200bh\ni\tj\x00k\u2028l"

// poison puts the hostile text into every field of text, and one of each into every list.
func poison(m protoreflect.Message, depth int) {
	fields := m.Descriptor().Fields()
	for i := range fields.Len() {
		fd := fields.Get(i)
		switch {
		case fd.Kind() == protoreflect.StringKind && fd.IsList():
			m.Mutable(fd).List().Append(protoreflect.ValueOfString(hostile))
		case fd.Kind() == protoreflect.StringKind:
			m.Set(fd, protoreflect.ValueOfString(hostile))
		case fd.Message() == nil || depth == 0:
		case fd.IsList():
			poison(m.Mutable(fd).List().AppendMutable().Message(), depth-1)
		default:
			poison(m.Mutable(fd).Message(), depth-1)
		}
	}
}

func TestNothingFromTheEngineReachesTheTerminalRaw(t *testing.T) {
	for _, width := range []int{40, 80, 120} {
		f := answering(t, "works.json")
		poison(f.answer.ProtoReflect(), 5)
		for _, kit := range f.answer.GetKits() {
			poison(kit.ProtoReflect(), 4)
		}
		brief := strings.Replace(demoBrief, "Two bays", `"\e[2J\u202e Two bays`, 1)
		brief = strings.Replace(brief, "(invented)", `(invented)"`, 1)
		got := start(t, f, func(e *env) { e.Width = width; e.In = strings.NewReader(brief) }, "--workings", "-")
		assert.NotEmpty(t, got.out)
		for _, c := range got.out {
			if c != '\n' && !unicode.IsPrint(c) {
				t.Fatalf("%U reaches the terminal at width %d", c, width)
			}
		}
		assert.Contains(t, strings.Join(strings.Fields(got.out), ""), "a<U+001B>[2J<U+001B>]0;b<U+0007>cd<U+009B>31me<U+202E>f")
	}
}

func TestNothingFromTheEngineReachesTheTerminalRawInJSON(t *testing.T) {
	f := answering(t, "misses.json")
	poison(f.answer.ProtoReflect(), 5)
	f.answer.WhyFirst = append(f.answer.WhyFirst, "\U000e0001 a tag")
	got := start(t, f, nil, "--json")
	for _, c := range got.out {
		if c != '\n' && !unicode.IsPrint(c) {
			t.Fatalf("%U reaches the terminal", c)
		}
	}
	back := &pondwrightv1.SuggestKitsResponse{}
	require.NoError(t, protojson.Unmarshal([]byte(got.out), back))
	assert.True(t, proto.Equal(f.answer, back), "and yet nothing is lost")
}

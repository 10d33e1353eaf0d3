package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"unicode"
	"unicode/utf16"

	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
)

// asJSON writes a message as protobuf's JSON, with the names of the proto. It is laid out anew, because protobuf varies its
// own layout from build to build on purpose.
func asJSON(m proto.Message) (string, error) {
	compact, err := protojson.MarshalOptions{UseProtoNames: true, EmitDefaultValues: true}.Marshal(m)
	if err != nil {
		return "", err
	}
	var out bytes.Buffer
	if err := json.Indent(&out, compact, "", "  "); err != nil {
		return "", err
	}
	return escaped(out.String()) + "\n", nil
}

// escaped writes by their numbers the characters that a terminal may obey and JSON leaves as they are. They stand in
// strings only.
func escaped(text string) string {
	var b strings.Builder
	for _, c := range text {
		switch {
		case c == '\n' || unicode.IsPrint(c):
			b.WriteRune(c)
		case c > 0xffff:
			high, low := utf16.EncodeRune(c)
			fmt.Fprintf(&b, `\u%04x\u%04x`, high, low)
		default:
			fmt.Fprintf(&b, `\u%04x`, c)
		}
	}
	return b.String()
}

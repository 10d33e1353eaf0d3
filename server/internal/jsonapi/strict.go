package jsonapi

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode"

	"github.com/grpc-ecosystem/grpc-gateway/v2/runtime"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"
)

// strict reads JSON that has nothing in it but what the message has, and writes the names of the proto, in which units stand.
type strict struct{ runtime.JSONPb }

func newStrict() *strict {
	return &strict{runtime.JSONPb{
		// Zeros are written, so that 0 and what was not calculated can be told apart.
		MarshalOptions: protojson.MarshalOptions{UseProtoNames: true, EmitDefaultValues: true},
	}}
}

// NewDecoder reads one message. A key that is not a field would otherwise be passed over, and the field it was meant for be taken
// as left out: a wrong answer that looks like a right one.
func (s *strict) NewDecoder(r io.Reader) runtime.Decoder {
	return runtime.DecoderFunc(func(v any) error {
		text, err := io.ReadAll(r)
		if err != nil {
			return fmt.Errorf("read request: %w", err)
		}
		message, ok := v.(proto.Message)
		if !ok {
			return fmt.Errorf("%T is no message", v)
		}
		if len(text) == 0 {
			return errors.New("the body is empty: send a JSON object, {} at least")
		}
		if err := protojson.Unmarshal(text, message); err != nil {
			return fmt.Errorf("the body does not fit %s: %s", message.ProtoReflect().Descriptor().Name(), plain(err))
		}
		return nil
	})
}

// plain is the library's sentence without its own name before it.
func plain(err error) string {
	text := err.Error()
	if after, ok := strings.CutPrefix(text, "proto:"); ok {
		text = strings.TrimLeftFunc(after, unicode.IsSpace)
	}
	return text
}

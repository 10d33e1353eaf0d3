package brief

import (
	"errors"
	"io/fs"
	"strings"
	"testing"
	"time"
	"unicode"

	"buf.build/go/protovalidate"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"google.golang.org/protobuf/encoding/protojson"
	"google.golang.org/protobuf/proto"

	"example.com/pondwright/testdata"
)

// Whatever the text, reading ends in a brief that is valid and reads back the same, or in problems that can be shown.
func FuzzRead(f *testing.F) {
	f.Add([]byte(good))
	for _, m := range mistakes {
		f.Add([]byte(strings.Replace(good, m.old, m.new, 1)))
	}
	for _, file := range wholeFiles {
		if len(file.text) < 2000 {
			f.Add([]byte(file.text))
		}
	}
	files, err := fs.Glob(testdata.Briefs, "briefs/*.yaml")
	require.NoError(f, err)
	for _, file := range files {
		text, err := fs.ReadFile(testdata.Briefs, file)
		require.NoError(f, err)
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		began := time.Now()
		b, at, err := Read("x", text)
		require.Less(t, time.Since(began), 5*time.Second)
		require.NotNil(t, at)
		if err == nil {
			require.NoError(t, protovalidate.Validate(b))
			asJSON, err := protojson.MarshalOptions{UseProtoNames: true}.Marshal(b)
			require.NoError(t, err)
			again, _, err := Read("x", asJSON)
			require.NoError(t, err, string(asJSON))
			require.True(t, proto.Equal(b, again))
			return
		}
		require.Nil(t, b)
		var problems *Problems
		require.True(t, errors.As(err, &problems))
		require.NotEmpty(t, problems.List)
		lines := 1 + strings.Count(string(text), "\n") + strings.Count(string(text), "\r")
		for _, p := range problems.List {
			assert.NotEmpty(t, p.Wrong)
			assert.Positive(t, p.Line)
			assert.Positive(t, p.Column)
			assert.LessOrEqual(t, p.Line, lines)
		}
		for _, c := range err.Error() {
			require.True(t, c == '\n' || unicode.IsPrint(c), "%U would reach the terminal", c)
		}
	})
}

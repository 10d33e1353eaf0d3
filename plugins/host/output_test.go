package host

import (
	"errors"
	"log/slog"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestLinesOfStructuredLogAreRead(t *testing.T) {
	for _, l := range []struct {
		line    string
		level   slog.Level
		message string
		attrs   []slog.Attr
	}{
		{"plain words", slog.LevelInfo, "plain words", nil},
		{`{"@level":"error","@message":"protocol init","@timestamp":"2026-01-02T03:04:05Z","error":"no catalogue"}`, slog.LevelError, "protocol init", []slog.Attr{slog.String("error", "no catalogue")}},
		{`{"@level":"trace","@message":"detail"}`, slog.LevelDebug, "detail", nil},
		{`{"time":"2026-01-02T03:04:05Z","level":"WARN","msg":"item left out","b":2,"a":"x\ny"}`, slog.LevelWarn, "item left out", []slog.Attr{slog.Any("a", "x y"), slog.Any("b", 2.0)}},
		{`{"no":"message"}`, slog.LevelInfo, `{"no":"message"}`, nil},
		{`{broken`, slog.LevelInfo, `{broken`, nil},
		{"\x1b[31mred\xff", slog.LevelInfo, "[31mred?", nil},
	} {
		level, message, attrs := parse(l.line)
		assert.Equal(t, l.level, level, l.line)
		assert.Equal(t, l.message, message)
		assert.Equal(t, l.attrs, attrs)
	}
}

func TestLongLinesAreCutAndNothingIsLost(t *testing.T) {
	text := strings.Repeat("a", longestLine-1) + "\n" + strings.Repeat("b", 3*longestLine) + "\r\n\nlast"
	var got []string
	eachLine(strings.NewReader(text), func(line string) { got = append(got, line) })
	assert.Equal(t, []string{strings.Repeat("a", longestLine-1), strings.Repeat("b", longestLine), "", "last"}, got)
}

func TestLastWordsEndWithTheReasonOfACrash(t *testing.T) {
	o := newOutput(slog.New(slog.DiscardHandler))
	for _, line := range []string{"1", "2", "3", "4", "5", "6", " ", "panic: no stock", "goroutine 1 [running]:"} {
		o.stderr(line)
	}
	o.stdout("not among them")
	assert.Equal(t, []string{"3", "4", "5", "6", "panic: no stock"}, o.lastWords())
}

func TestFailureIsOneLine(t *testing.T) {
	f := &Failure{Plugin: "p", What: "broke\noff", Change: "mend it", Stderr: []string{"a", "b"}, Err: errors.Join(ErrCall, errors.New("two\nlines"))}
	assert.Equal(t, `catalogue plugin "p" broke off: two lines; mend it; it last wrote to stderr: "a | b"`, f.Error())
	assert.ErrorIs(t, f, ErrCall)
	assert.Equal(t, `catalogue plugin "p" is wrong`, (&Failure{Plugin: "p", What: "is wrong", Err: ErrConfig}).Error())
}

// A path that a socket cannot have is said to be too long before a plugin meets it.
func TestLongFolderForSocketsIsRefused(t *testing.T) {
	_, err := New(Config{TempDir: "/tmp/" + strings.Repeat("long/", 20)})
	assert.ErrorContains(t, err, "bytes too long: choose a shorter one")
}

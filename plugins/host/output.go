package host

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"io"
	"log/slog"
	"slices"
	"strings"
	"sync"
	"time"
)

const (
	longestLine = 8 << 10 // of a line that is kept; the rest of it is read and dropped
	logLines    = 500     // of each stream of one plugin that reach the log in an hour
	tailLines   = 5       // that a Failure quotes
)

// eachLine reads to the end and hands over every line without its ending, cut at longestLine. A plugin can therefore
// neither block on a full pipe nor make the host hold a line without end.
func eachLine(r io.Reader, line func(string)) {
	in := bufio.NewReaderSize(r, longestLine)
	for {
		text, err := in.ReadSlice('\n')
		whole := strings.TrimRight(string(text), "\r\n")
		for errors.Is(err, bufio.ErrBufferFull) {
			_, err = in.ReadSlice('\n')
		}
		if len(text) > 0 {
			line(whole)
		}
		if err != nil {
			return
		}
	}
}

// output carries what a plugin writes into the host's log, within bounds, and keeps the last lines of its stderr.
type output struct {
	log *slog.Logger

	mu    sync.Mutex
	lines map[string]int // by stream, of the hour that began at since
	since time.Time
	tail  []string
	crash bool // the last line of the tail says why; a trace that follows says less
}

func newOutput(log *slog.Logger) *output {
	return &output{log: log, lines: make(map[string]int), since: time.Now()}
}

// stderr takes one line.
func (o *output) stderr(line string) {
	if strings.TrimSpace(line) == "" {
		return
	}
	o.write("stderr", line)
}

// stdout takes one line written after the handshake.
func (o *output) stdout(line string) { o.write("stdout", line) }

func (o *output) write(stream, line string) {
	level, message, attrs := parse(line)
	switch n := o.count(stream, message, attrs); {
	case n == logLines:
		o.log.Warn("the plugin writes too much: the rest of it is dropped", "stream", stream, "lines", logLines)
	case n > 0:
		attrs = append([]slog.Attr{slog.String("stream", stream)}, attrs...)
		o.log.LogAttrs(context.Background(), level, message, attrs...)
	}
}

// count keeps the last lines and gives the number of this one, or 0 where it is beyond those that are logged.
func (o *output) count(stream, message string, attrs []slog.Attr) int {
	o.mu.Lock()
	defer o.mu.Unlock()
	if stream == "stderr" && !o.crash {
		o.crash = strings.HasPrefix(message, "panic: ") || strings.HasPrefix(message, "fatal error: ")
		for _, a := range attrs {
			message += " " + a.String()
		}
		o.tail = append(o.tail, quotable(message))
		o.tail = o.tail[max(0, len(o.tail)-tailLines):]
	}
	if time.Since(o.since) > time.Hour { // a plugin that is kept running is heard again
		clear(o.lines)
		o.since = time.Now()
	}
	if o.lines[stream] == logLines {
		return 0
	}
	o.lines[stream]++
	return o.lines[stream]
}

// lastWords are the last lines of stderr, oldest first.
func (o *output) lastWords() []string {
	o.mu.Lock()
	defer o.mu.Unlock()
	return slices.Clone(o.tail)
}

// parse reads a line of structured log, as hclog and slog write them, and takes any other line as it stands.
func parse(line string) (slog.Level, string, []slog.Attr) {
	var fields map[string]any
	if !strings.HasPrefix(line, "{") || json.Unmarshal([]byte(line), &fields) != nil {
		return slog.LevelInfo, oneLine(line), nil
	}
	message, level := take(fields, "@message", "msg"), take(fields, "@level", "level")
	if message == "" {
		return slog.LevelInfo, oneLine(line), nil
	}
	take(fields, "@timestamp", "time")
	var attrs []slog.Attr
	for key, value := range fields {
		if text, ok := value.(string); ok {
			value = oneLine(text)
		}
		attrs = append(attrs, slog.Any(oneLine(key), value))
	}
	slices.SortFunc(attrs, func(a, b slog.Attr) int { return strings.Compare(a.Key, b.Key) })
	var at slog.Level
	if at.UnmarshalText([]byte(level)) != nil { // hclog's "trace", and anything unknown
		at = slog.LevelDebug
	}
	return at, oneLine(message), attrs
}

// take removes the first of the keys that is there and gives its text.
func take(fields map[string]any, keys ...string) string {
	for _, key := range keys {
		if text, ok := fields[key].(string); ok {
			delete(fields, key)
			return text
		}
	}
	return ""
}

package host

import (
	"context"
	"errors"
	"fmt"
	"strings"
)

// What can go wrong in kind, for errors.Is.
var (
	// ErrConfig is a plugin configured in a way that cannot work.
	ErrConfig = errors.New("configuration")
	// ErrChecksum is an executable other than the one pinned.
	ErrChecksum = errors.New("checksum")
	// ErrStart is a plugin that did not start or did not shake hands.
	ErrStart = errors.New("start")
	// ErrVersion is a plugin that speaks no protocol version of this host.
	ErrVersion = errors.New("protocol version")
	// ErrCall is a call that failed: the plugin died, hung or returned an error.
	ErrCall = errors.New("call")
	// ErrDied is an ErrCall in which the plugin's process came to its end.
	ErrDied = errors.New("process ended")
	// ErrContent is an answer that came whole and cannot be used.
	ErrContent = errors.New("content")
)

// Failure is why a catalogue could not be read. Its text is one line: which plugin, what happened, what to do and the last
// that the plugin wrote to its stderr.
type Failure struct {
	Plugin string
	What   string   // as "did not answer Describe within 2s"
	Change string   // as "look at its log for what it waits for"
	Stderr []string // last lines, oldest first
	Err    error    // one of the errors above, joined with its cause where there is one
}

// Error is the whole failure on one line.
func (f *Failure) Error() string {
	var b strings.Builder
	fmt.Fprintf(&b, "catalogue plugin %q %s", f.Plugin, oneLine(f.What))
	if cause := f.cause(); cause != "" {
		fmt.Fprintf(&b, ": %s", cause)
	}
	if f.Change != "" {
		fmt.Fprintf(&b, "; %s", f.Change)
	}
	if len(f.Stderr) > 0 {
		fmt.Fprintf(&b, "; it last wrote to stderr: %q", strings.Join(f.Stderr, " | "))
	}
	return b.String()
}

// Unwrap gives the kind and the cause.
func (f *Failure) Unwrap() error { return f.Err }

// cause is the text of the cause below the kind, if there is one.
func (f *Failure) cause() string {
	joined, ok := f.Err.(interface{ Unwrap() []error })
	if !ok {
		if f.Err == nil || isKind(f.Err) {
			return ""
		}
		return oneLine(f.Err.Error())
	}
	var text []string
	for _, err := range joined.Unwrap() {
		if !isKind(err) {
			text = append(text, oneLine(err.Error()))
		}
	}
	return strings.Join(text, ": ")
}

func isKind(err error) bool {
	switch err {
	case ErrConfig, ErrChecksum, ErrStart, ErrVersion, ErrCall, ErrDied, ErrContent, context.Canceled, context.DeadlineExceeded:
		return true
	}
	return false
}

// oneLine keeps a plugin's own words from breaking the line they are quoted in, and from filling the log.
func oneLine(text string) string {
	text = strings.ToValidUTF8(text, "?")
	text = strings.Map(func(r rune) rune {
		if r < ' ' || r == 0x7f {
			return ' '
		}
		return r
	}, text)
	return strings.TrimSpace(cut(text, 4000))
}

// quotable is one line short enough to stand within another.
func quotable(text string) string { return cut(oneLine(text), 300) }

func cut(text string, longest int) string {
	if len(text) <= longest {
		return text
	}
	return strings.ToValidUTF8(text[:longest], "") + " ..."
}

package brief

import (
	"cmp"
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// A Problem is one mistake in a brief.
type Problem struct {
	Position
	Field  string // "pond.bays[0].depth_m"; empty where the file as a whole is meant
	Wrong  string // what is wrong
	Change string // what to change; empty where Wrong says it
}

func (p Problem) String() string {
	text := fmt.Sprintf("%d:%d: ", p.Line, p.Column)
	if p.Field != "" {
		text += p.Field + ": "
	}
	text += p.Wrong
	if p.Change != "" {
		text += "; " + p.Change
	}
	return text
}

// Problems is everything found wrong with one brief, in the order of its lines.
type Problems struct {
	File string
	List []Problem
}

// Error gives one line for each problem: "file:line:column: field: what is wrong; what to change".
func (p *Problems) Error() string {
	lines := make([]string, 0, len(p.List))
	for _, problem := range p.List[:min(len(p.List), shown)] {
		lines = append(lines, p.File+":"+problem.String())
	}
	if more := len(p.List) - shown; more > 0 {
		lines = append(lines, fmt.Sprintf("%s: and %d problems more", p.File, more))
	}
	return strings.Join(lines, "\n")
}

// shown is how many problems a person is shown of one file: a file with more is not a brief.
const shown = 200

func newProblems(file string, list []Problem) *Problems {
	slices.SortStableFunc(list, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.Line, b.Line), cmp.Compare(a.Column, b.Column))
	})
	return &Problems{File: file, List: list}
}

// quote shows text from the file: escaped, and cut where it is long.
func quote(text string) string {
	const longest = 40
	if runes := []rune(text); len(runes) > longest {
		text = string(runes[:longest]) + "…"
	}
	return strconv.Quote(text)
}

var plainKey = regexp.MustCompile(`^[\pL\pN_.-]{1,60}$`)

// keyText shows a key from the file, in quotes only where it would not read as a name.
func keyText(key string) string {
	if plainKey.MatchString(key) {
		return key
	}
	return quote(key)
}

// listed joins names as a sentence does: "a, b or c".
func listed(names []string) string {
	if n := len(names); n > 1 {
		return strings.Join(names[:n-1], ", ") + " or " + names[n-1]
	}
	return strings.Join(names, "")
}

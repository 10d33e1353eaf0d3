// Package input says what is wrong with a question: errors that name the field, what was given and what to change.
//
// An input.Error means the question cannot be answered. A verdict on a question that can be answered is a
// finding.Finding.
package input

import (
	"fmt"
	"strings"
)

// Error is one thing wrong with one field.
type Error struct {
	Field   string // path of the field from the value that was checked, as "points[3].x_m"
	Problem string // what is wrong, as "the outline crosses itself between points 2 and 5"
	Change  string // what to change, as "give the points in order round the edge"
}

// Error is the whole message on one line.
func (e Error) Error() string {
	text := e.Problem
	if e.Field != "" {
		text = e.Field + ": " + text
	}
	if e.Change != "" {
		text += "; " + e.Change
	}
	return text
}

// Errors is everything wrong with one question, so that it can be mended in one go.
type Errors []Error

// Error lists every message.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i, one := range e {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}

// Add notes one more thing wrong.
func (e *Errors) Add(field, change, problem string, args ...any) {
	*e = append(*e, Error{Field: field, Problem: fmt.Sprintf(problem, args...), Change: change})
}

// Between notes a number that does not lie between two others, or is none.
func (e *Errors) Between(field string, v, low, high float64, change string) {
	if !(v >= low && v <= high) {
		e.Add(field, change, "%g does not lie between %g and %g", v, low, high)
	}
}

// AddUnder takes over the errors of a part, with the path of that part put before each field. It returns false, and
// adds nothing, when err is not of this package; the caller then has a fault of its own to report.
func (e *Errors) AddUnder(path string, err error) bool {
	switch err := err.(type) {
	case nil:
	case Errors:
		for _, one := range err {
			one.Field = join(path, one.Field)
			*e = append(*e, one)
		}
	case Error:
		err.Field = join(path, err.Field)
		*e = append(*e, err)
	default:
		return false
	}
	return true
}

// Err is the errors as an error, or nil where there are none.
func (e Errors) Err() error {
	if len(e) == 0 {
		return nil
	}
	return e
}

func join(path, field string) string {
	if path == "" || field == "" {
		return path + field
	}
	return path + "." + field
}

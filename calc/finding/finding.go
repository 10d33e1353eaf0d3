// Package finding holds verdicts on a design that can be calculated: what is good to know, what to be careful of, what
// stops it. A question that cannot be answered is an input.Error instead.
package finding

import (
	"strconv"
	"strings"

	"example.com/pondwright/calc/source"
)

// Severity orders findings by what they ask of the reader.
type Severity int

// From harmless to prohibitive.
const (
	Note    Severity = iota + 1 // good to know: an assumption made, a choice explained
	Caution                     // works, but look at this before you buy or dig
	Stop                        // does not work, or must not be done
)

// String is the severity as users see it.
func (s Severity) String() string {
	switch s {
	case Note:
		return "note"
	case Caution:
		return "caution"
	case Stop:
		return "stop"
	default:
		return "unknown"
	}
}

// A Value is a number as a finding shows it, in the unit people read it in.
type Value struct {
	Number float64
	Unit   string
}

// A Finding is one verdict.
type Finding struct {
	Code     string // stable, upper snake case: "FLOW_BELOW_WANTED"
	Severity Severity
	Subject  string // what it speaks of: "pump", "filter", "hose"
	Sentence string // one plain sentence, with its numbers
	Value    *Value // what was found, where there is a number
	Limit    *Value // what it was held against
	Change   string // what to change, or to measure
	Source   source.Source
}

// Of makes a Value to point at.
func Of(number float64, unit string) *Value { return &Value{Number: number, Unit: unit} }

// Whole writes a number for a sentence: without decimals, its thousands set apart.
func Whole(x float64) string {
	digits := strconv.FormatFloat(x, 'f', 0, 64)
	sign := ""
	if strings.HasPrefix(digits, "-") {
		sign, digits = "-", digits[1:]
	}
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return sign + digits
}

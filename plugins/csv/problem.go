package csvcatalogue

import (
	"fmt"
	"strings"

	"example.com/pondwright/plugins/contract"
)

// place is where a problem lies.
type place struct {
	sheet  string // its label
	row    int    // as a spreadsheet counts them: the header is row 1; 0 for the whole sheet
	column string // empty for the whole row
}

// String names the place: "pumps.csv row 7, column price".
func (p place) String() string {
	text := p.sheet
	if p.row > 0 {
		text += fmt.Sprintf(" row %d", p.row)
	}
	if p.column != "" {
		text += ", column " + p.column
	}
	return text
}

// problemAt is one thing wrong at a place, in the contract's form.
func problemAt(at place, format string, args ...any) contract.Problem {
	return contract.Problem{Field: at.String(), Reason: fmt.Sprintf(format, args...)}
}

// FormatError is everything wrong with the files or sheets as a whole, for which no catalogue can be made of them.
type FormatError struct {
	Path     string
	Problems []contract.Problem
}

// Error lists the problems on one line. A folder of the wrong kind can have any number of them: the first are enough.
func (e *FormatError) Error() string {
	const most = 40
	text := contract.Join(e.Problems[:min(most, len(e.Problems))])
	if more := len(e.Problems) - most; more > 0 {
		text += fmt.Sprintf("; and %d more", more)
	}
	return fmt.Sprintf("catalogue in %s: %s", e.Path, text)
}

// nearest is the candidate most like a word, or empty where none is like it.
func nearest(word string, candidates []string) string {
	best, bestDistance := "", 1+len(word)/3
	for _, c := range candidates {
		d := distance(word, c)
		if strings.HasPrefix(c, word) || strings.HasPrefix(word, c) {
			d = min(d, 1)
		}
		if d < bestDistance || d == bestDistance && best == "" {
			best, bestDistance = c, d
		}
	}
	return best
}

// distance counts the letters to add, drop or change to make b of a (Levenshtein).
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			change := diagonal
			if a[i] != b[j] {
				change++
			}
			diagonal = row[j+1]
			row[j+1] = min(change, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}

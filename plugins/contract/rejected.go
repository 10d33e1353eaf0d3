package contract

import (
	"cmp"
	"fmt"
	"strings"
	"unicode"

	cataloguev1 "example.com/pondwright/proto/pondwright/catalogue/v1"
)

// Rejected is yielded by Items for an item that the plugin knows of and cannot give. The other items are not touched by it.
// It goes to the host with its reasons, which lists it among the quarantined items.
type Rejected struct {
	ItemNumber  string // empty where it is not known
	Description string
	Problems    []Problem
}

// Error names the item and everything wrong with it, on one line.
func (r *Rejected) Error() string {
	return fmt.Sprintf("item %q: %s", r.ItemNumber, Join(r.Problems))
}

// Bounds on what is said of one rejected item: those of RejectedItem in the proto, in letters.
const (
	maxNumber      = 64
	maxDescription = 200
	maxField       = 200
	maxReason      = 1000
	maxReasons     = 40
)

// Bounded is the rejection as it may travel and be shown: every text on one line and none too long, only the first reasons
// where there are very many, and one that says so where there is none.
func (r *Rejected) Bounded() *Rejected {
	b := &Rejected{ItemNumber: line(r.ItemNumber, maxNumber), Description: line(r.Description, maxDescription)}
	first, more := r.Problems, 0
	if len(first) > maxReasons {
		first = first[:maxReasons-1]
		more = len(r.Problems) - len(first)
	}
	for _, p := range first {
		b.Problems = append(b.Problems, Problem{Field: line(p.Field, maxField), Reason: cmp.Or(line(p.Reason, maxReason), noReason)})
	}
	switch {
	case more > 0:
		b.Problems = append(b.Problems, Problem{Reason: fmt.Sprintf("and %d more", more)})
	case len(first) == 0:
		b.Problems = []Problem{{Reason: noReason}}
	}
	return b
}

const noReason = "left out by the plugin, which gives no reason"

// line keeps a text on one line and cuts it to a number of letters.
func line(text string, longest int) string {
	const cut = " ..."
	letters := []rune(strings.Map(func(r rune) rune {
		if unicode.Is(unicode.C, r) {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(text, "?")))
	if len(letters) <= longest {
		return string(letters)
	}
	return string(letters[:longest-len(cut)]) + cut
}

// message is the rejection on the wire.
func (r *Rejected) message() *cataloguev1.RejectedItem {
	b := r.Bounded()
	m := &cataloguev1.RejectedItem{ItemNumber: b.ItemNumber, Description: b.Description}
	for _, p := range b.Problems {
		m.Reasons = append(m.Reasons, &cataloguev1.RejectedItem_Reason{Field: p.Field, Reason: p.Reason})
	}
	return m
}

// rejectedOf is what came over the wire, as it came.
func rejectedOf(m *cataloguev1.RejectedItem) *Rejected {
	r := &Rejected{ItemNumber: m.GetItemNumber(), Description: m.GetDescription()}
	for _, reason := range m.GetReasons() {
		r.Problems = append(r.Problems, Problem{Field: reason.GetField(), Reason: reason.GetReason()})
	}
	return r
}

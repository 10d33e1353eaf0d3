// Package source is the bibliography: where each formula and number of calc comes from, and how far it was seen.
//
// A formula or a table row names one Source. The sources themselves stand in the files of this package by subject, one
// variable each, so that a citation that does not exist does not compile.
package source

// Status says how a source is known.
type Status int

// The kinds of standing a source can have, best first.
const (
	Published      Status = iota + 1 // read in the publication named
	SecondHand                       // read in another work that quotes the publication named
	FromMemory                       // known, not read for this project: check before quoting
	Derived                          // follows from definitions or from other sources by algebra
	CommonPractice                   // habit of the trade, no source
	Assumed                          // an engineering choice, to be replaced by a measurement
	Given                            // said by whoever asks, or by a catalogue
)

// String is the status in plain words.
func (s Status) String() string {
	switch s {
	case Published:
		return "published"
	case SecondHand:
		return "as quoted elsewhere"
	case FromMemory:
		return "from memory"
	case Derived:
		return "derived"
	case CommonPractice:
		return "common practice, no source"
	case Assumed:
		return "assumption"
	case Given:
		return "as given"
	default:
		return "unknown"
	}
}

// A Source is one work, one habit or one derivation.
type Source struct {
	Key      string // short, unique, stable: "colebrook-1939"
	Citation string // author, year, title, publisher
	Locator  string // equation, table, page
	Status   Status
}

// At gives the same source pointing at one place in it.
func (s Source) At(locator string) Source {
	s.Locator = locator
	return s
}

// String is the citation with its place and standing.
func (s Source) String() string {
	text := s.Citation
	if s.Locator != "" {
		text += ", " + s.Locator
	}
	switch {
	case s.Status == Published, s.Status == Given:
	case text == "":
		text = s.Status.String()
	default:
		text += " (" + s.Status.String() + ")"
	}
	return text
}

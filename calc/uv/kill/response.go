// Package kill holds published doses of 254 nm and what they did, and the arithmetic of kill between them.
//
// Doses were given in laboratory beams, mostly in one exposure to clear thin layers. What a garden unit gives on average
// is not the dose that counts in such a beam: set beside these numbers it is at best equal.
package kill

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// Group is the kind of organism.
type Group int

// Kinds of organism, as they matter to a pond.
const (
	GreenAlgae Group = iota + 1
	BlueGreenAlgae
	Bacteria
	Viruses
	Fungi
	Parasites
)

// String is the group in plain words.
func (g Group) String() string {
	names := [...]string{"", "green algae", "blue-green algae", "bacteria", "viruses", "fungi", "parasites"}
	if g < 0 || int(g) >= len(names) {
		return names[0]
	}
	return names[g]
}

// Outcome is what a dose did.
type Outcome int

// Outcomes, from least to most.
const (
	NoEffect     Outcome = iota + 1 // no significant suppression was seen
	GrowthHeld                      // growth stopped for a time, then went on
	Damaged                         // part of the cells broke
	Inactivated                     // the stated log10 reduction
	NotInfective                    // no longer passes the disease on
	Killed                          // lethal
)

// A Response is one published dose and its effect.
type Response struct {
	Key       string // stable, lower kebab case
	Organism  string
	Group     Group
	Low, High unit.Fluence // as published: a range, or the same twice
	Outcome   Outcome
	Log10     unit.Ratio // reduction by powers of ten, where published; else 0
	Effect    string
	Source    source.Source
}

// Responses are all published doses of this package, algae first. The caller may keep and change the slice.
func Responses() []Response {
	return append(algae(), germs()...)
}

// Find gives the response with that key.
func Find(key string) (Response, bool) {
	for _, r := range Responses() {
		if r.Key == key {
			return r, true
		}
	}
	return Response{}, false
}

// row is a Response with its doses in mJ/cm².
func row(key, organism string, g Group, low, high float64, o Outcome, log10 float64, effect string, s source.Source) Response {
	return Response{
		Key: key, Organism: organism, Group: g,
		Low: unit.MillijoulesPerSquareCentimetre(low), High: unit.MillijoulesPerSquareCentimetre(high),
		Outcome: o, Log10: unit.Ratio(log10), Effect: effect, Source: s,
	}
}

package tree

import "example.com/pondwright/calc/water"

// How fouled the devices of a circuit are.
const (
	clean = iota
	due
)

// Conditions are what a circuit runs in.
type Conditions struct {
	Water   water.Properties
	Due     bool        // filters are due for cleaning
	Subject string      // of the recorded steps: "winter"
	Stop    func() bool // asked now and then, ends the search with circuit.NotCalculable; nil to go on
}

// Package calc is the arithmetic of ponds: pure engineering that knows no network, no file, no clock and no protobuf.
//
// Each folder is a room with one subject. A newcomer best begins with unit, working and pipe.
package calc

import (
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/fall"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/kit"
	"example.com/pondwright/calc/outline"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/water"
	"example.com/pondwright/calc/working"
)

// MethodSet names the formulas, constants and rules in force. It changes when an answer can change though the question
// and the catalogue have not.
const MethodSet = "2026.11"

// Formulas lists every formula of every room.
func Formulas() []working.Entry {
	return slices.Concat(
		circuit.Formulas(), fall.Formulas(), filter.Formulas(), kit.Formulas(), outline.Formulas(), pipe.Formulas(),
		pump.Formulas(), stock.Formulas(), uv.Formulas(), water.Formulas(),
	)
}

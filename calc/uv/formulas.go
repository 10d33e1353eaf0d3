package uv

import (
	"slices"

	"example.com/pondwright/calc/uv/clarity"
	"example.com/pondwright/calc/uv/exposure"
	"example.com/pondwright/calc/uv/field"
	"example.com/pondwright/calc/uv/kill"
	"example.com/pondwright/calc/uv/lamp"
	"example.com/pondwright/calc/uv/mixing"
	"example.com/pondwright/calc/working"
)

// Formulas are the formulas of the packages below this one, in the order the light takes.
func Formulas() []working.Entry {
	return slices.Concat(
		lamp.Formulas(), clarity.Formulas(), field.Formulas(), mixing.Formulas(), kill.Formulas(), exposure.Formulas(),
	)
}

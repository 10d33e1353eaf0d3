package wire

import (
	"math"

	"example.com/pondwright/calc/unit"
)

// optional reads a pointer of an optional field into a type of calc.
func optional[From, To any](from *From, to func(From) To) *To {
	if from == nil {
		return nil
	}
	made := to(*from)
	return &made
}

// Celsius reads an optional temperature.
func Celsius(said *float64) *unit.Temperature { return optional(said, unit.Celsius) }

// Millimetres reads an optional length.
func Millimetres(said *float64) *unit.Length { return optional(said, unit.Millimetres) }

// Given is a pointer to a number where there is one to show: not 0, and finite.
func Given(x float64) *float64 { return given(x) }

func given(x float64) *float64 {
	if x == 0 || math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return &x
}

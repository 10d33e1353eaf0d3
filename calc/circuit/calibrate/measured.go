// Package calibrate holds a measured flow against a calculated one, and says what the difference may come from as far as
// the measurement can tell.
package calibrate

import (
	"math"
	"strings"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Bucket is a vessel filled by the stopwatch.
type Bucket struct {
	Volume       unit.Volume
	VolumeUnsure unit.Volume // either way
	Time         unit.Time
	TimeUnsure   unit.Time // either way
}

// A Drop is a level that fell, or rose, in a known time over a known surface.
type Drop struct {
	Fall       unit.Length
	FallUnsure unit.Length
	Area       unit.Area
	AreaUnsure unit.Area
	Time       unit.Time
	TimeUnsure unit.Time
}

// A Measured is a flow with half its width.
type Measured struct {
	Flow   unit.Flow
	Unsure unit.Flow // either way
}

// BucketInput is the input of BucketFlow.
type BucketInput struct {
	Volume unit.Volume `sym:"V"`
	Time   unit.Time   `sym:"t"`
}

// BucketFlow gives a flow by bucket and stopwatch.
//
//	Q = V/t
//
// Source: definition.
var BucketFlow = working.Formula[BucketInput, unit.Flow]{
	ID: "calibrate.bucket-flow", Name: "flow by bucket and stopwatch", Symbol: "Q", Equation: "Q = V/t", Source: source.Definition,
	Eval: func(in BucketInput) unit.Flow {
		return unit.CubicMetresPerSecond(in.Volume.CubicMetres() / in.Time.Seconds())
	},
}

// DropInput is the input of DropFlow.
type DropInput struct {
	Fall unit.Length `sym:"Δ"`
	Area unit.Area   `sym:"A"`
	Time unit.Time   `sym:"t"`
}

// DropFlow gives a flow by how fast a level falls.
//
//	Q = A Δ/t
//
// Source: definition.
var DropFlow = working.Formula[DropInput, unit.Flow]{
	ID: "calibrate.drop-flow", Name: "flow by how fast a level falls", Symbol: "Q", Equation: "Q = A Δ/t", Source: source.Definition,
	Eval: func(in DropInput) unit.Flow {
		return unit.CubicMetresPerSecond(in.Area.SquareMetres() * in.Fall.Metres() / in.Time.Seconds())
	},
}

// Flow is the flow with its width, the parts of which add in quadrature. Errors name volume_l, time_s and their widths.
func (b Bucket) Flow(t *working.Trail) (Measured, error) {
	var errs input.Errors
	v := part(&errs, "volume_l", b.Volume.Litres(), b.VolumeUnsure.Litres())
	s := part(&errs, "time_s", b.Time.Seconds(), b.TimeUnsure.Seconds())
	if err := errs.Err(); err != nil {
		return Measured{}, err
	}
	q := BucketFlow.Run(t, BucketInput{b.Volume, b.Time})
	return Measured{q, q * unit.Flow(math.Hypot(v, s))}, nil
}

// Flow is the flow with its width, the parts of which add in quadrature. Errors name fall_mm, area_m2, time_s and their
// widths.
func (d Drop) Flow(t *working.Trail) (Measured, error) {
	var errs input.Errors
	f := part(&errs, "fall_mm", d.Fall.Millimetres(), d.FallUnsure.Millimetres())
	a := part(&errs, "area_m2", d.Area.SquareMetres(), d.AreaUnsure.SquareMetres())
	s := part(&errs, "time_s", d.Time.Seconds(), d.TimeUnsure.Seconds())
	if err := errs.Err(); err != nil {
		return Measured{}, err
	}
	q := DropFlow.Run(t, DropInput{d.Fall, d.Area, d.Time})
	return Measured{q, q * unit.Flow(math.Hypot(f, math.Hypot(a, s)))}, nil
}

// part is half the width of a reading, in proportion.
func part(errs *input.Errors, field string, value, unsure float64) float64 {
	if !(value > 0) || math.IsInf(value, 0) {
		errs.Add(field, "give what was read, above 0", "it is %g", value)
		return 0
	}
	if !(unsure >= 0 && unsure < value) {
		name, unit := field[:strings.LastIndex(field, "_")], field[strings.LastIndex(field, "_"):]
		errs.Add(name+"_unsure"+unit, "give how far the reading may be off, less than the reading itself", "it is %g of %g", unsure, value)
		return 0
	}
	return unsure / value
}

// Formulas lists the formulas of this package.
func Formulas() []working.Entry { return []working.Entry{&BucketFlow, &DropFlow} }

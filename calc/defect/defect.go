// Package defect finds what is wrong with pump curves, and says what was probably meant. A Checker takes the curves of a
// catalogue one message after the other, in bounded memory, and knows each curve's neighbours: all that came before it and
// those of the same message.
//
// A sound curve has no defects. Which thresholds a defect has, and why, stands beside each check.
package defect

import (
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Curve is one pump's curve as a catalogue gives it. Its numbers may be anything; one that is missing is NaN, a power that
// is missing 0.
type Curve struct {
	Number, Series string
	Points         []pump.Point
	Power          unit.Power // of the pump, where the points have none; 0 where unknown
	AtShaft        bool       // power is that of the shaft, not of the mains
	LabelFlow      unit.Flow  // as the box prints it; 0 where it does not
	LabelHead      unit.Head
	Measured       []pump.Point // on the stand, to be held against the curve
}

// Result is what was found in one curve.
type Result struct {
	Place   int // in the stream, from 0
	Defects []Defect
	Repair  *Repair // nil where there is nothing better than a guess
}

// A Defect is one thing wrong.
type Defect struct {
	Code       string // upper snake case, listed in Codes
	Severity   finding.Severity
	Sentence   string
	Confidence float64 // that it is wrong and that it is this, from 0 to 1
	Evidence   []Evidence
	Change     string
	Source     source.Source
}

// Evidence is one number that speaks for a defect.
type Evidence struct {
	Name  string
	Value finding.Value
	Point int // of the curve, or NoPoint
}

// NoPoint is the point of evidence that is of the curve as a whole.
const NoPoint = -1

// A Repair is the curve as it was probably meant.
type Repair struct {
	Curve      Curve
	Changes    []string // in plain words
	Mends      []string // codes of defects that the curve given has and this one has not
	Confidence float64
}

// Worst is the gravest severity found; 0 for a sound curve.
func (r Result) Worst() finding.Severity {
	var worst finding.Severity
	for _, d := range r.Defects {
		worst = max(worst, d.Severity)
	}
	return worst
}

// Has says whether a defect of the code was found.
func (r Result) Has(code string) bool {
	for _, d := range r.Defects {
		if d.Code == code {
			return true
		}
	}
	return false
}

func of(name string, number float64, unit string) Evidence {
	return Evidence{name, finding.Value{Number: number, Unit: unit}, NoPoint}
}

func at(point int, name string, number float64, unit string) Evidence {
	return Evidence{name, finding.Value{Number: number, Unit: unit}, point}
}

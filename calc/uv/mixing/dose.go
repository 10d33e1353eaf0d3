// Package mixing turns light into dose: how long the water stays, and how unevenly.
//
// The mean dose is what ideally mixed plug flow would give every drop. Real water is faster in places, and the dose that
// counts against a germ, its reduction equivalent dose, is lower.
package mixing

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// ResidenceInput is water running through a chamber.
type ResidenceInput struct {
	Volume unit.Volume `sym:"V"`
	Flow   unit.Flow   `sym:"Q"`
}

// Residence gives the mean time water spends in the chamber.
//
//	t = V / Q        s, m³, m³/s
//
// Valid for any steady flow. Source: definition.
var Residence = working.Formula[ResidenceInput, unit.Time]{
	ID: "mixing.residence", Name: "mean time in the chamber", Equation: "t = V / Q", Symbol: "t",
	Source: source.Definition, Eval: residence,
}

func residence(in ResidenceInput) unit.Time {
	return unit.Seconds(in.Volume.CubicMetres() / in.Flow.CubicMetresPerSecond())
}

// MeanDoseInput is water under an average fluence rate for a time.
type MeanDoseInput struct {
	FluenceRate unit.FluenceRate `sym:"E"`
	Residence   unit.Time        `sym:"t"`
}

// MeanDose gives the dose of one pass in plug flow with water well mixed across the gap: the mean over all water, and
// the most that can count.
//
//	D = E t        J/m², W/m², s; 10 J/m² are 1 mJ/cm²
//
// Source: definition of fluence.
var MeanDose = working.Formula[MeanDoseInput, unit.Fluence]{
	ID: "mixing.mean-dose", Name: "mean dose of one pass", Equation: "D = E t", Symbol: "D",
	Source: source.Definition, Eval: meanDose,
}

func meanDose(in MeanDoseInput) unit.Fluence {
	return unit.Fluence(in.FluenceRate.WattsPerSquareMetre() * in.Residence.Seconds())
}

// AnnulusInput is the section of the chamber.
type AnnulusInput struct {
	SleeveRadius  unit.Length `sym:"rs"`
	ChamberRadius unit.Length `sym:"R"`
}

// PeakVelocity gives the greatest velocity of laminar flow along an annulus over the mean.
//
//	k = rs/R,  l2 = (1 - k²)/(2 ln(1/k)),  umax/umean = 2 (1 - l2 (1 - ln l2))/(1 + k² - 2 l2)
//
// Lies between 1.5 (parallel plates) and 2 (tube). Valid for developed laminar flow, 0 < k <= 0.999 (above that the
// terms cancel). Source: Bird, Stewart & Lightfoot, Transport Phenomena (from memory).
var PeakVelocity = working.Formula[AnnulusInput, unit.Ratio]{
	ID: "mixing.peak-velocity", Name: "fastest over mean velocity, laminar annulus",
	Equation: "umax/umean = 2 (1 - l2 (1 - ln l2))/(1 + k² - 2 l2), l2 = (1 - k²)/(2 ln(1/k)), k = rs/R", Symbol: "umax/umean",
	Source: source.BirdAnnulus, Outside: peakVelocityOutside, Eval: peakVelocity,
}

func peakVelocity(in AnnulusInput) unit.Ratio {
	k := in.SleeveRadius.Metres() / in.ChamberRadius.Metres()
	l2 := (1 - k*k) / (-2 * math.Log(k))
	return unit.Ratio(2 * (1 - l2*(1-math.Log(l2))) / (1 + k*k - 2*l2))
}

func peakVelocityOutside(in AnnulusInput) string {
	if in.SleeveRadius.Metres() > 0.999*in.ChamberRadius.Metres() {
		return "gap below a thousandth of the radius"
	}
	return ""
}

// FastestDoseInput is a mean dose and how much faster than the mean some water runs.
type FastestDoseInput struct {
	MeanDose     unit.Fluence `sym:"D"`
	PeakVelocity unit.Ratio   `sym:"u"` // greatest velocity over the mean
}

// FastestDose gives the dose of water that keeps to the fastest path and meets the average light on it.
//
//	D' = D / u        J/m²
//
// Water that keeps to a dim path as well gets less still. Source: Artichowicz et al. 2020 for the idea that the fastest
// water governs; the ratio is derived.
var FastestDose = working.Formula[FastestDoseInput, unit.Fluence]{
	ID: "mixing.fastest-dose", Name: "dose on the fastest laminar path", Equation: "D' = D / u", Symbol: "D'",
	Source: source.Artichowicz, Eval: fastestDose,
}

func fastestDose(in FastestDoseInput) unit.Fluence {
	return unit.Fluence(in.MeanDose.JoulesPerSquareMetre() / in.PeakVelocity.Float())
}

// Formulas are the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{&Residence, &MeanDose, &PeakVelocity, &FastestDose, &TanksDose, &UnmixedDose}
}

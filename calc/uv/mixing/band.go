package mixing

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// UsualTanks is how many mixed tanks in series a lamp chamber is taken for where nobody measured: two to three is the
// common assumption, and two the careful one.
const UsualTanks = 2

// TanksDoseInput is a mean dose given in a chamber that mixes, to an organism of known sensitivity.
type TanksDoseInput struct {
	MeanDose unit.Fluence `sym:"D"`
	D10      unit.Fluence `sym:"D10"` // the dose that leaves one in ten
	Tanks    int          `sym:"N"`
}

// TanksDose gives the dose that counts (reduction equivalent dose) when the chamber works like N mixed tanks in series
// under even light: some water leaves early, and what leaves early governs.
//
//	RED = D10 N log10(1 + ln(10) D/(N D10))        J/m²
//
// Never above D; comes to D for many tanks or small doses. Valid for N >= 1. Source: Levenspiel 1999, tanks in series
// with first-order decay.
var TanksDose = working.Formula[TanksDoseInput, unit.Fluence]{
	ID: "mixing.tanks-dose", Name: "dose that counts, tanks in series", Equation: "RED = D10 N log10(1 + ln(10) D/(N D10))",
	Symbol: "RED", Source: source.TanksInSeries, Outside: tanksOutside, Eval: tanksDose,
}

func tanksDose(in TanksDoseInput) unit.Fluence {
	D, D10, N := in.MeanDose.JoulesPerSquareMetre(), in.D10.JoulesPerSquareMetre(), float64(in.Tanks)
	return unit.Fluence(D10 * N * math.Log1p(math.Ln10*D/(N*D10)) / math.Ln10)
}

func tanksOutside(in TanksDoseInput) string {
	if in.Tanks < 1 {
		return "fewer than one tank"
	}
	return ""
}

// BandInput is one pass as an organism sees it.
type BandInput struct {
	MeanDose     unit.Fluence
	PeakVelocity unit.Ratio   // of laminar flow in the chamber, over the mean
	D10          unit.Fluence // the dose that leaves one in ten
	Tanks        int
}

// A Band is the dose of one pass that counts, Low <= Expected <= High.
type Band struct {
	Low      unit.Fluence // the fastest laminar path or the tanks, whichever is less
	Expected unit.Fluence // tanks in series
	High     unit.Fluence // ideally mixed plug flow
}

// DoseBand gives the dose of one pass as a band. Plug flow is the most that can count. The laminar bound is what water on
// the fastest path gets; against a sensitive organism, where the little water that leaves a mixed tank at once governs,
// the tanks are worse still and are the bound.
func DoseBand(t *working.Trail, in BandInput) Band {
	fastest := FastestDose.Run(t, FastestDoseInput{MeanDose: in.MeanDose, PeakVelocity: in.PeakVelocity})
	tanks := TanksDose.Run(t, TanksDoseInput{MeanDose: in.MeanDose, D10: in.D10, Tanks: in.Tanks})
	return Band{Low: min(fastest, tanks), Expected: min(tanks, in.MeanDose), High: in.MeanDose}
}

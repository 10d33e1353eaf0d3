package uv

import (
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/mixing"
	"example.com/pondwright/calc/working"
)

// A Pass is the dose of one pass that counts against an organism, by every model of how the water mixes.
type Pass struct {
	Plug           unit.Fluence // ideally mixed across, none along: the mean
	Tanks          unit.Fluence // mixed tanks in series
	Fastest        unit.Fluence // the fastest laminar path, in the average light
	Unmixed        unit.Fluence // no mixing across the gap, water at one speed
	UnmixedLaminar unit.Fluence // no mixing across the gap, laminar

	Band   mixing.Band // the least of all, tanks, plug flow
	Reason string      // what holds the low end down
}

// passOf works out the dose that counts against an organism of which D10 leaves one in ten.
func passOf(t *working.Trail, f Field, mean, d10 unit.Fluence, tanks int) Pass {
	p := Pass{Plug: mean}
	p.Band = mixing.DoseBand(t, mixing.BandInput{MeanDose: mean, PeakVelocity: f.PeakVelocity, D10: d10, Tanks: tanks})
	p.Tanks = p.Band.Expected
	p.Fastest = mixing.FastestDose.Eval(mixing.FastestDoseInput{MeanDose: mean, PeakVelocity: f.PeakVelocity})
	unmixed := mixing.UnmixedDoseInput{
		MeanDose: mean, D10: d10, SleeveRadius: f.Chamber.SleeveRadius, ChamberRadius: f.Chamber.ChamberRadius,
		Absorption: f.Absorption,
	}
	p.Unmixed = mixing.UnmixedDose.Run(t, unmixed)
	unmixed.Laminar = true
	p.UnmixedLaminar = mixing.UnmixedDose.Run(t, unmixed)
	p.Band.Low = min(p.Band.Low, p.Unmixed, p.UnmixedLaminar)
	p.Reason = p.reason()
	return p
}

func (p Pass) reason() string {
	switch p.Band.Low {
	case p.Unmixed:
		return "water that stays along the dim wall governs"
	case p.UnmixedLaminar:
		return "laminar water, fast in mid-gap and dim at the wall, governs"
	case p.Fastest:
		return "the fastest laminar water governs"
	default:
		return "water that leaves a mixed tank at once governs"
	}
}

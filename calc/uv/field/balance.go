package field

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// AbsorbedShareInput is water under an average fluence rate.
type AbsorbedShareInput struct {
	Absorption  unit.AbsorptionCoefficient `sym:"a"`
	FluenceRate unit.FluenceRate           `sym:"E"` // average over the volume
	Volume      unit.Volume                `sym:"V"`
	Output      unit.Power                 `sym:"P"` // at 254 nm, what enters the water
}

// AbsorbedShare gives the part of the light that the water takes up; the rest reaches the wall or leaves at the ends.
// No true field puts it above 1.
//
//	s = a E V / P        a in 1/m, E in W/m², V in m³, P in W
//
// Valid for any field of straight rays. Source: definition of the absorption coefficient.
var AbsorbedShare = working.Formula[AbsorbedShareInput, unit.Ratio]{
	ID: "field.absorbed-share", Name: "share of the light that the water absorbs", Equation: "s = a E V / P", Symbol: "s",
	Source: source.Definition, Eval: absorbedShare,
}

func absorbedShare(in AbsorbedShareInput) unit.Ratio {
	a, E, V, P := in.Absorption.PerMetre(), in.FluenceRate.WattsPerSquareMetre(), in.Volume.CubicMetres(), in.Output.Watts()
	return unit.Ratio(a * E * V / P)
}

// Formulas are the formulas of this package.
func Formulas() []working.Entry {
	return []working.Entry{
		&WaterVolume, &Absorption,
		&RadialAverage, &LineSourceAverage, &CarefulAverage, &ParallelAverage,
		&RadialAt, &LineSourceAt, &PointSourcesAt, &LightAt,
		&AbsorbedShare,
	}
}

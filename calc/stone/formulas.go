package stone

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry {
	return []working.Entry{&SolidVolume, &Weight, &CourseVolume, &EdgeCount, &MortarBed, &MortarJoints, &WeighedVolume, &DisplacedSum}
}

// SolidInput is a heap or bed of stone.
type SolidInput struct {
	Bulk unit.Volume `sym:"Vb"`
	Void unit.Ratio  `sym:"e"` // share of the heap between the stones
}

// SolidVolume gives the stone itself (m³), which is the water it displaces:
//
//	V = Vb (1 - e)
//
// e is 0 for one boulder, about 0.35 for rounded gravel and 0.4 to 0.45 for quarried stone.
//
// Source: by definition; the shares are common practice.
var SolidVolume = working.Formula[SolidInput, unit.Volume]{
	ID: "stone.solid-volume", Name: "water displaced by stone", Symbol: "V",
	Equation: "V = Vb (1 - e)", Source: source.Definition,
	Eval: func(in SolidInput) unit.Volume {
		return unit.CubicMetres(in.Bulk.CubicMetres() * (1 - in.Void.Float()))
	},
}

// WeightInput is solid stone.
type WeightInput struct {
	Solid   unit.Volume  `sym:"V"`
	Density unit.Density `sym:"ρ"` // of the solid, 2600 to 2700 kg/m³ for most
}

// Weight gives the mass (kg) of stone:
//
//	m = V ρ
//
// Source: by definition.
var Weight = working.Formula[WeightInput, unit.Mass]{
	ID: "stone.weight", Name: "mass of stone", Symbol: "m",
	Equation: "m = V ρ", Source: source.Definition,
	Eval: func(in WeightInput) unit.Mass {
		return unit.Kilograms(in.Solid.CubicMetres() * in.Density.KilogramsPerCubicMetre())
	},
}

// CourseInput is a course of stone along a length.
type CourseInput struct {
	Length unit.Length `sym:"l"`
	Width  unit.Length `sym:"w"`
	Height unit.Length `sym:"h"`
}

// CourseVolume gives the bulk (m³) of a course or bed of stone:
//
//	V = l w h
//
// Source: by definition.
var CourseVolume = working.Formula[CourseInput, unit.Volume]{
	ID: "stone.course-volume", Name: "bulk of a course of stone", Symbol: "V",
	Equation: "V = l w h", Source: source.Definition,
	Eval: func(in CourseInput) unit.Volume {
		return unit.CubicMetres(in.Length.Metres() * in.Width.Metres() * in.Height.Metres())
	},
}

// CountInput is an edge and the stones along it.
type CountInput struct {
	Edge  unit.Length `sym:"P"`
	Stone unit.Length `sym:"l"` // along the edge
	Joint unit.Length `sym:"j"`
}

// EdgeCount gives the number of stones along an edge that closes on itself:
//
//	n = ⌈P / (l + j)⌉
//
// Source: by definition.
var EdgeCount = working.Formula[CountInput, float64]{
	ID: "stone.edge-count", Name: "stones along an edge", Symbol: "n",
	Equation: "n = ⌈P / (l + j)⌉", Source: source.Definition,
	Eval: func(in CountInput) float64 {
		const rounding = 1e-9
		return math.Ceil(float64(in.Edge/(in.Stone+in.Joint)) - rounding)
	},
}

// BedInput is a bed of mortar under an edging.
type BedInput struct {
	Edge      unit.Length `sym:"P"`
	Width     unit.Length `sym:"w"`
	Thickness unit.Length `sym:"t"`
}

// MortarBed gives the mortar (m³, wet) in a bed:
//
//	V = P w t
//
// Source: by definition.
var MortarBed = working.Formula[BedInput, unit.Volume]{
	ID: "stone.mortar-bed", Name: "mortar in the bed", Symbol: "V",
	Equation: "V = P w t", Source: source.Definition,
	Eval: func(in BedInput) unit.Volume {
		return unit.CubicMetres(in.Edge.Metres() * in.Width.Metres() * in.Thickness.Metres())
	},
}

// JointsInput is the joints between the stones of an edging.
type JointsInput struct {
	Count  float64     `sym:"n"`
	Joint  unit.Length `sym:"j"`
	Width  unit.Length `sym:"w"`
	Height unit.Length `sym:"h"`
}

// MortarJoints gives the mortar (m³, wet) in the joints:
//
//	V = n j w h
//
// Source: by definition.
var MortarJoints = working.Formula[JointsInput, unit.Volume]{
	ID: "stone.mortar-joints", Name: "mortar in the joints", Symbol: "V",
	Equation: "V = n j w h", Source: source.Definition,
	Eval: func(in JointsInput) unit.Volume {
		return unit.CubicMetres(in.Count * in.Joint.Metres() * in.Width.Metres() * in.Height.Metres())
	},
}

// WeighedInput is solid stone by its weight.
type WeighedInput struct {
	Mass    unit.Mass    `sym:"m"`
	Density unit.Density `sym:"ρ"` // of the solid
}

// WeighedVolume gives the volume (m³) of stone that was weighed:
//
//	V = m / ρ
//
// Source: by definition.
var WeighedVolume = working.Formula[WeighedInput, unit.Volume]{
	ID: "stone.weighed-volume", Name: "volume of stone by weight", Symbol: "V",
	Equation: "V = m / ρ", Source: source.Definition,
	Eval: func(in WeighedInput) unit.Volume {
		return unit.CubicMetres(in.Mass.Kilograms() / in.Density.KilogramsPerCubicMetre())
	},
}

// DisplacedInput is like things in the water, and what others displace.
type DisplacedInput struct {
	Above unit.Volume `sym:"V0"`
	Count int         `sym:"n"`
	One   unit.Volume `sym:"Vb"`
	Void  unit.Ratio  `sym:"e"`
	Under unit.Ratio  `sym:"u"` // share below the water
}

// DisplacedSum adds the water (m³) that like things take the place of:
//
//	V = V0 + n Vb (1 - e) u
//
// Source: by definition (Archimedes).
var DisplacedSum = working.Formula[DisplacedInput, unit.Volume]{
	ID: "stone.displaced-sum", Name: "water displaced, added up", Symbol: "V",
	Equation: "V = V0 + n Vb (1 - e) u", Source: source.Definition,
	Eval: func(in DisplacedInput) unit.Volume {
		return in.Above + unit.CubicMetres(float64(in.Count)*in.One.CubicMetres()*(1-in.Void.Float())*in.Under.Float())
	},
}

package dig

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry {
	return []working.Entry{&RimVolume, &BedVolume, &Swell, &SpoilMass, &Loads, &ConeMound, &FlatMound}
}

// RimInput is the ground between the water's surface and the rim.
type RimInput struct {
	Area      unit.Area   `sym:"A"` // of the water's surface
	Perimeter unit.Length `sym:"P"`
	Freeboard unit.Length `sym:"f"`
	Batter    unit.Ratio  `sym:"b"`
}

// RimVolume gives the ground (m³) dug between the water's surface and the rim, whose outline stands b f outside:
//
//	V = A f + P b f² / 2 + π b² f³ / 3
//
// Exact where the outer corners are rounded.
//
// Source: Steiner, integrated over the height.
var RimVolume = working.Formula[RimInput, unit.Volume]{
	ID: "dig.rim-volume", Name: "ground above the water's surface", Symbol: "V",
	Equation: "V = A f + P b f² / 2 + π b² f³ / 3", Source: source.Steiner,
	Eval: func(in RimInput) unit.Volume {
		f, b := in.Freeboard.Metres(), in.Batter.Float()
		return unit.CubicMetres(in.Area.SquareMetres()*f + in.Perimeter.Metres()*b*f*f/2 + math.Pi*b*b*f*f*f/3)
	},
}

// BedInput is the ground taken out for sand, underlay or a slab under the lining.
type BedInput struct {
	Covered   unit.Area   `sym:"A"` // floor, shelves and sides
	Thickness unit.Length `sym:"t"`
}

// BedVolume gives the extra dig (m³) for a bed under the lining:
//
//	V = A t
//
// Valid for a bed thin against the pond; corners take a little more.
//
// Source: by definition.
var BedVolume = working.Formula[BedInput, unit.Volume]{
	ID: "dig.bed-volume", Name: "extra dig for the bed", Symbol: "V",
	Equation: "V = A t", Source: source.Definition,
	Eval: func(in BedInput) unit.Volume {
		return unit.CubicMetres(in.Covered.SquareMetres() * in.Thickness.Metres())
	},
}

// SwellInput is a volume in the bank and its factor.
type SwellInput struct {
	Bank   unit.Volume `sym:"Vb"`
	Factor unit.Ratio  `sym:"k"` // Soil.Loose or Soil.Compacted
}

// Swell gives the volume (m³) that ground takes up when it is dug or when it is rolled:
//
//	V = k Vb
//
// Source: by definition; the factor has its own.
var Swell = working.Formula[SwellInput, unit.Volume]{
	ID: "dig.swell", Name: "volume after digging", Symbol: "V",
	Equation: "V = k Vb", Source: source.Definition,
	Eval: func(in SwellInput) unit.Volume { return unit.CubicMetres(in.Factor.Float() * in.Bank.CubicMetres()) },
}

// SpoilMassInput is ground in the bank.
type SpoilMassInput struct {
	Bank    unit.Volume  `sym:"Vb"`
	Density unit.Density `sym:"ρ"` // in the bank, damp
}

// SpoilMass gives the mass (kg) of what is dug, which swelling does not change:
//
//	m = Vb ρ
//
// Source: by definition; densities differ by a fifth either way.
var SpoilMass = working.Formula[SpoilMassInput, unit.Mass]{
	ID: "dig.spoil-mass", Name: "mass of the spoil", Symbol: "m",
	Equation: "m = Vb ρ", Source: source.Definition,
	Eval: func(in SpoilMassInput) unit.Mass {
		return unit.Kilograms(in.Bank.CubicMetres() * in.Density.KilogramsPerCubicMetre())
	},
}

// LoadsInput is spoil and the vehicle that carts it.
type LoadsInput struct {
	Loose    unit.Volume `sym:"V"`
	Mass     unit.Mass   `sym:"m"`
	Capacity unit.Volume `sym:"Vc"` // of one load
	Payload  unit.Mass   `sym:"mc"`
}

// Loads gives the number of loads, by volume or by weight, whichever is more:
//
//	n = ⌈max(V / Vc, m / mc)⌉
//
// Source: by definition.
var Loads = working.Formula[LoadsInput, float64]{
	ID: "dig.loads", Name: "loads to cart", Symbol: "n",
	Equation: "n = ⌈max(V / Vc, m / mc)⌉", Source: source.Definition,
	Eval: func(in LoadsInput) float64 {
		const rounding = 1e-9
		return max(0, math.Ceil(max(float64(in.Loose/in.Capacity), float64(in.Mass/in.Payload))-rounding))
	},
}

// MoundInput is a heap of loose spoil and the slope of its sides.
type MoundInput struct {
	Loose unit.Volume `sym:"V"`
	Slope unit.Ratio  `sym:"s"` // rise for each metre out: 0.5 is 1 in 2
}

// MoundOutput is the heap's size.
type MoundOutput struct {
	Radius unit.Length `sym:"r"`
	Height unit.Length `sym:"h"`
}

// ConeMound gives the cone (m) that a volume makes:
//
//	r = ∛(3 V / (π s)), h = s r
//
// Source: derived.
var ConeMound = working.Formula[MoundInput, MoundOutput]{
	ID: "dig.cone-mound", Name: "mound heaped to a point",
	Equation: "r = ∛(3 V / (π s)); h = s r", Source: source.Definition,
	Eval: func(in MoundInput) MoundOutput {
		r := math.Cbrt(3 * in.Loose.CubicMetres() / (math.Pi * in.Slope.Float()))
		return MoundOutput{Radius: unit.Metres(r), Height: unit.Metres(r * in.Slope.Float())}
	},
}

// FlatInput is a heap kept to a height.
type FlatInput struct {
	Loose  unit.Volume `sym:"V"`
	Slope  unit.Ratio  `sym:"s"`
	Height unit.Length `sym:"h"`
}

// FlatOutput is the heap's radius at its foot and at its flat top.
type FlatOutput struct {
	Foot unit.Length `sym:"r"`
	Top  unit.Length `sym:"q"`
}

// FlatMound gives the frustum (m) of height h that a volume makes:
//
//	r = c/2 + √(V / (π h) - c²/12), q = r - c, with c = h / s
//
// Valid while the cone of that volume is higher than h; then q is above zero.
//
// Source: derived from V = π h (r² + r q + q²) / 3.
var FlatMound = working.Formula[FlatInput, FlatOutput]{
	ID: "dig.flat-mound", Name: "mound kept to a height",
	Equation: "r = c/2 + √(V / (π h) - c²/12); q = r - c; c = h / s", Source: source.Definition,
	Outside: func(in FlatInput) string {
		if ConeMound.Eval(MoundInput{Loose: in.Loose, Slope: in.Slope}).Height < in.Height {
			return "the spoil does not reach that height"
		}
		return ""
	},
	Eval: func(in FlatInput) FlatOutput {
		c := in.Height.Metres() / in.Slope.Float()
		r := c/2 + math.Sqrt(max(0, in.Loose.CubicMetres()/(math.Pi*in.Height.Metres())-c*c/12))
		return FlatOutput{Foot: unit.Metres(r), Top: unit.Metres(max(0, r-c))}
	},
}

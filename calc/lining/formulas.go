package lining

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Formulas lists every formula of the package.
func Formulas() []working.Entry {
	return []working.Entry{&SimpleRule, &DevelopedSection, &BoxSheet, &SheetMass, &ArealMass, &StripCount}
}

// RuleInput is one direction of a pond.
type RuleInput struct {
	Span  unit.Length `sym:"l"` // at the rim
	Depth unit.Length `sym:"z"` // greatest, from the rim
	Edge  unit.Length `sym:"o"` // beyond the rim, on each side
}

// SimpleRule gives the length (m) of sheet by the rule of the trade:
//
//	L = l + 2 z + 2 o
//
// Right for upright sides and level shelves, generous for sloping sides.
//
// Source: common practice, no source.
var SimpleRule = working.Formula[RuleInput, unit.Length]{
	ID: "lining.simple-rule", Name: "length of sheet by the rule", Symbol: "L",
	Equation: "L = l + 2 z + 2 o", Source: source.Practice,
	Eval: func(in RuleInput) unit.Length { return in.Span + 2*in.Depth + 2*in.Edge },
}

// SectionInput is one direction of a pond with its sides as they run.
type SectionInput struct {
	Span  unit.Length `sym:"l"` // at the rim
	Run   unit.Length `sym:"r"` // how far one side comes inwards from rim to floor
	Slope unit.Length `sym:"s"` // the same way measured on the ground, down slopes and over shelves
	Edge  unit.Length `sym:"o"` // beyond the rim, on each side
}

// DevelopedSection gives the length (m) of sheet by the section the ground takes:
//
//	L = l + 2 (s - r) + 2 o
//
// Source: derived.
var DevelopedSection = working.Formula[SectionInput, unit.Length]{
	ID: "lining.developed-section", Name: "length of sheet by the developed section", Symbol: "L",
	Equation: "L = l + 2 (s - r) + 2 o", Source: source.Definition,
	Eval: func(in SectionInput) unit.Length { return in.Span + 2*(in.Slope-in.Run) + 2*in.Edge },
}

// BoxInput is a formal pond with upright sides.
type BoxInput struct {
	Length unit.Length `sym:"l"`
	Width  unit.Length `sym:"w"`
	Depth  unit.Length `sym:"z"` // from the rim
	Edge   unit.Length `sym:"o"` // over the rim
}

// BoxSheet gives the material (m²) of a lining welded to a box, without folds:
//
//	A = l w + 2 (l + w) (z + o)
//
// Welds take a little more. Source: derived.
var BoxSheet = working.Formula[BoxInput, unit.Area]{
	ID: "lining.box-sheet", Name: "material of a boxed lining", Symbol: "A",
	Equation: "A = l w + 2 (l + w) (z + o)", Source: source.Definition,
	Eval: func(in BoxInput) unit.Area {
		l, w := in.Length.Metres(), in.Width.Metres()
		return unit.SquareMetres(l*w + 2*(l+w)*(in.Depth+in.Edge).Metres())
	},
}

// MassInput is a sheet of one material.
type MassInput struct {
	Area      unit.Area    `sym:"A"`
	Thickness unit.Length  `sym:"t"`
	Density   unit.Density `sym:"ρ"`
}

// SheetMass gives the mass (kg) of a sheet:
//
//	m = A t ρ
//
// Source: by definition.
var SheetMass = working.Formula[MassInput, unit.Mass]{
	ID: "lining.sheet-mass", Name: "mass of the sheet", Symbol: "m",
	Equation: "m = A t ρ", Source: source.Definition,
	Eval: func(in MassInput) unit.Mass {
		return unit.Kilograms(in.Area.SquareMetres() * in.Thickness.Metres() * in.Density.KilogramsPerCubicMetre())
	},
}

// StripInput is a width to cover from a roll.
type StripInput struct {
	Width unit.Length `sym:"W"`
	Roll  unit.Length `sym:"w"` // width of the roll
	Lap   unit.Length `sym:"a"` // lost to each join
}

// StripCount gives the number of strips that cover a width:
//
//	n = ⌈(W - a) / (w - a)⌉, at least 1
//
// Valid for a roll wider than the lap. Source: by definition.
var StripCount = working.Formula[StripInput, float64]{
	ID: "lining.strip-count", Name: "strips to cover a width", Symbol: "n",
	Equation: "n = ⌈(W - a) / (w - a)⌉, at least 1", Source: source.Definition,
	Outside: func(in StripInput) string {
		if in.Roll <= in.Lap {
			return "the roll is no wider than the lap"
		}
		return ""
	},
	Eval: func(in StripInput) float64 {
		const rounding = 1e-9
		return max(1, math.Ceil((in.Width-in.Lap).Metres()/(in.Roll-in.Lap).Metres()-rounding))
	},
}

// ArealInput is a sheet by its area and what a square metre of it weighs.
type ArealInput struct {
	Area   unit.Area         `sym:"A"`
	Weight unit.ArealDensity `sym:"q"`
}

// ArealMass gives the mass (kg) of a sheet of which a data sheet says what a square metre weighs:
//
//	m = A q
//
// Source: by definition.
var ArealMass = working.Formula[ArealInput, unit.Mass]{
	ID: "lining.areal-mass", Name: "mass of the sheet", Symbol: "m",
	Equation: "m = A q", Source: source.Definition,
	Eval: func(in ArealInput) unit.Mass {
		return unit.Kilograms(in.Area.SquareMetres() * in.Weight.KilogramsPerSquareMetre())
	},
}

package pipe

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Wall is the inside of a hose or pipe.
type Wall int

// The walls the engine knows.
const (
	Smooth     Wall = iota + 1 // smooth inside, whatever the outside is like
	Corrugated                 // ribbed inside
)

// String is the wall in the words of the trade.
func (w Wall) String() string {
	if w == Corrugated {
		return "corrugated"
	}
	return "smooth"
}

// Roughness of walls that follow Colebrook's law.
const smoothRoughness = unit.Length(0.01e-3)

// A corrugated hose has a friction factor that hardly depends on the Reynolds number. Published formulas and channel
// values give 0.08 to 0.10 for bores of 25 to 50 mm; no measurement on small plastic hose was found.
const corrugatedFactor = 0.09

// Unsure is how far the friction of such a wall may be off, either way.
func (w Wall) Unsure() unit.Ratio {
	if w == Corrugated {
		return unit.Percent(40)
	}
	return 0
}

// Source says where the wall's roughness comes from.
func (w Wall) Source() source.Source {
	if w == Corrugated {
		return source.HawthorneVonHelms1963
	}
	return source.Source{
		Key:      "smooth-hose",
		Citation: "0.01 mm for smooth hose and bonded plastic pipe in use, five times new plastic in the table of the US EPA network model",
		Status:   source.Assumed,
	}
}

// CorrugatedFactor gives Darcy's friction factor of hose that is ribbed inside.
//
//	f = max(0.09, f of a smooth hose)
//
// The larger of the two leads into laminar flow without a step. The factor may be 40 % off either way.
// Source: Hawthorne and von Helms 1963 for metal hose; 0.08 to 0.10 for bores of 25 to 50 mm.
var CorrugatedFactor = working.Formula[FactorInput, float64]{
	ID: "pipe.corrugated-factor", Name: "friction factor of corrugated hose", Symbol: "f",
	Equation: "f = max(0.09, f of a smooth hose at Re and ε/D)", Source: source.HawthorneVonHelms1963,
	Outside: func(in FactorInput) string { return "published for metal hose: in plastic hose it may be 40 % off" },
	Eval: func(in FactorInput) float64 {
		return math.Max(frictionFactor(in.Reynolds, in.RelativeRoughness.Float()), corrugatedFactor)
	},
}

// factor is the friction factor of the wall.
func (w Wall) factor(re, roughness float64) float64 {
	if w == Corrugated {
		return math.Max(frictionFactor(re, roughness), corrugatedFactor)
	}
	return frictionFactor(re, roughness)
}

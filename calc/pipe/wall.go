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

// RibbedInput is the input of RibbedFactor.
type RibbedInput struct {
	Reynolds          float64     `sym:"Re"`
	RelativeRoughness unit.Ratio  `sym:"ε/D"` // of the wall without its ribs
	Bore              unit.Length `sym:"D"`   // between the crests of the ribs
	Pitch             unit.Length `sym:"S"`   // from rib to rib
}

// RibbedFactor gives Darcy's friction factor of hose whose ribs stand at a known pitch: every rib is a small sudden widening.
//
//	f = max{(D/S) [1 − (D/(D + 0.438 S))²]², f of a smooth hose at Re and ε/D}
//
// Holds for fully rough flow, from a Reynolds number of some 20 000 on. The factor may be 40 % off either way.
// Source: Hawthorne and von Helms 1963 for metal hose.
var RibbedFactor = working.Formula[RibbedInput, float64]{
	ID: "pipe.ribbed-factor", Name: "friction factor of hose with ribs at a known pitch", Symbol: "f",
	Equation: "f = max{(D/S) [1 − (D/(D + 0.438 S))²]², f of a smooth hose at Re and ε/D}", Source: source.HawthorneVonHelms1963,
	Outside: func(in RibbedInput) string { return "published for metal hose: in plastic hose it may be 40 % off" },
	Eval: func(in RibbedInput) float64 {
		return math.Max(frictionFactor(in.Reynolds, in.RelativeRoughness.Float()), ribbedFactor(in.Bore, in.Pitch))
	},
}

func ribbedFactor(bore, pitch unit.Length) float64 {
	D, S := bore.Metres(), pitch.Metres()
	return D / S * square(1-square(D/(D+0.438*S)))
}

// ribs is the friction factor that the ribs of a wall do not let it fall below.
func (w Wall) ribs(bore, pitch unit.Length) float64 {
	switch {
	case w != Corrugated:
		return 0
	case pitch == 0:
		return corrugatedFactor
	default:
		return ribbedFactor(bore, pitch)
	}
}

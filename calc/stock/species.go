// Package stock is the fish: what they weigh, eat, breathe and leave in the water, now and when they are grown.
//
// A filter is sized for the fish that will be, so every load comes twice. The trade's rules on length stand beside the
// load by mass and feed; they ignore that mass goes with the cube of length.
package stock

import (
	"math"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// Species is a kind of fish, as far as its build matters.
type Species int

// The kinds a garden pond holds. Koi are carp, bred for colour: one length–mass relation serves both.
const (
	Goldfish Species = iota + 1
	Koi
	Carp
	Other // orfe, tench, rudd and whatever else swims
)

// String is the kind in plain words.
func (s Species) String() string {
	if s < Goldfish || s > Other {
		return "unknown fish"
	}
	return kinds[s-1].name
}

// A Build is what the mass of a fish follows from; see BodyMass.
type Build struct{ Coefficient, Exponent float64 }

// kinds is indexed by Species less one. Other takes the median exponent across species and the coefficient of the
// goldfish, a deep-bodied fish: slender fish weigh less, so the error is on the safe side.
var kinds = [...]struct {
	name  string
	build Build
	grown unit.Length
}{
	{"goldfish", Build{0.01479, 3.03}, unit.Centimetres(25)},
	{"koi", Build{0.01479, 2.99}, unit.Centimetres(70)},
	{"carp", Build{0.01479, 2.99}, unit.Centimetres(70)},
	{"other fish", Build{0.01479, 3.03}, unit.Centimetres(45)},
}

// GrownLength is the total length taken for a grown fish of this kind where nobody has said. It is an assumption: how
// large a fish grows is set by breeding, feed and room.
func (s Species) GrownLength() unit.Length {
	if s < Goldfish || s > Other {
		return 0
	}
	return kinds[s-1].grown
}

// BodyMassInput is the length of a fish and the parameters of its kind.
type BodyMassInput struct {
	Length      unit.Length `sym:"L"` // tip of the snout to tip of the tail
	Coefficient float64     `sym:"a"` // g/cm^b
	Exponent    float64     `sym:"b"`
}

// BodyMass gives the mass of a fish of that length.
//
//	W = a L^b    W in g, total length L in cm
//
// Carp and koi a = 0.01479, b = 2.99; goldfish a = 0.01479, b = 3.03. Fish of 5 to 100 cm. A well-fed koi can weigh 10 to 30 % more (common practice).
// Source: Froese, Thorson & Reyes 2014 (from memory); median exponent of all species, Froese 2006.
var BodyMass = working.Formula[BodyMassInput, unit.Mass]{
	ID: "stock.body-mass", Name: "mass of a fish from its length", Symbol: "W",
	Equation: "W = a L^b, W in g, L in cm", Source: source.CarpLengthMass,
	Outside: func(in BodyMassInput) string { return outsideLength(in.Length) },
	Eval: func(in BodyMassInput) unit.Mass {
		return unit.Grams(in.Coefficient * math.Pow(in.Length.Centimetres(), in.Exponent))
	},
}

func outsideLength(l unit.Length) string {
	if l < unit.Centimetres(5) || l > unit.Centimetres(100) {
		return "length outside 5 to 100 cm"
	}
	return ""
}

// mass is the body mass of one fish of the group at a length. Its species must be known.
func (g Group) mass(t *working.Trail, l unit.Length) unit.Mass {
	b := g.Build
	if b == (Build{}) {
		b = kinds[g.Species-1].build
	}
	return BodyMass.Run(t, BodyMassInput{Length: l, Coefficient: b.Coefficient, Exponent: b.Exponent})
}

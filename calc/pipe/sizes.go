package pipe

import (
	"slices"

	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Size is one kind of hose or pipe in one size, with the bore it really has.
type Size struct {
	ID   string // stable: "hose-25", "pressure-63x3.0", "drain-110x3.2"
	Name string

	Bore                unit.Length // by which the size is sold; of pipe, the outside diameter less two least walls
	BoreLeast, BoreMost unit.Length // that the standard lets pass

	Roughness       Roughness
	Wall            Wall
	Source          source.Source // of the bore
	RoughnessSource source.Source
}

// Roughness is the height of the unevenness of a wall as Colebrook's law feels it.
type Roughness struct{ Low, Usual, High unit.Length }

func roughness(low, usual, high float64) Roughness {
	return Roughness{unit.Millimetres(low), unit.Millimetres(usual), unit.Millimetres(high)}
}

// The roughness of walls.
var (
	hoseWall   = roughness(0.005, 0.01, 0.03)
	bondedWall = roughness(0.003, 0.01, 0.05)
	ringedWall = roughness(0.03, 0.06, 0.15)
	slimedWall = roughness(0.06, 0.15, 0.6)
)

// Aged is the same hose or pipe after some seasons in a fed pond, with a film of slime on the wall. That the film narrows
// the bore as well is left out. The ribs of corrugated hose are rougher than any slime.
//
// Source: see source.SlimedRoughness.
func (s Size) Aged() Size {
	s.ID += "-aged"
	s.Name += ", slimed"
	s.Roughness, s.RoughnessSource = slimedWall, source.SlimedRoughness
	return s
}

// Spec is a length of it, with its uncertainties and without fittings.
func (s Size) Spec(length unit.Length) Spec {
	return Spec{
		Length: length, Bore: s.Bore, BoreLeast: s.BoreLeast, BoreMost: s.BoreMost, Wall: s.Wall,
		Roughness: s.Roughness.Usual, RoughnessLeast: s.Roughness.Low, RoughnessMost: s.Roughness.High,
	}
}

// Sizes is the table of hose and pipe.
func Sizes() []Size { return slices.Clone(sizes) }

// SizeByID finds a row of the table, or its aged form.
func SizeByID(id string) (Size, bool) {
	for _, s := range sizes {
		if s.ID == id {
			return s, true
		}
		if aged := s.Aged(); aged.ID == id {
			return aged, true
		}
	}
	return Size{}, false
}

// hose is a row of hose in millimetres.
func hose(id, name string, bore, least, most float64, wall Wall) Size {
	return Size{
		ID: id, Name: name, Wall: wall,
		Bore: unit.Millimetres(bore), BoreLeast: unit.Millimetres(least), BoreMost: unit.Millimetres(most),
		Roughness: hoseWall, Source: source.HoseBores, RoughnessSource: source.HoseRoughness,
	}
}

// metric is a row of pipe by outside diameter and least wall in millimetres. European standards let a wall be a tenth and
// 0.2 mm thicker (from memory).
func metric(id, name string, outside, wall float64, r Roughness, bore, rough source.Source) Size {
	return tube(id, name, outside, wall, 1.1*wall+0.2, r, bore, rough)
}

// schedule40 is a row of US pipe in millimetres.
func schedule40(inches string, outside, thin, thick float64) Size {
	return tube("schedule-40-"+inches+"in", "schedule 40 pipe "+inches+" in", outside, thin, thick, bondedWall,
		source.Schedule40Walls, source.BondedRoughness)
}

func tube(id, name string, outside, thin, thick float64, r Roughness, bore, rough source.Source) Size {
	inside := unit.Millimetres(outside - 2*thin)
	return Size{
		ID: id, Name: name, Wall: Smooth,
		Bore: inside, BoreLeast: unit.Millimetres(outside - 2*thick), BoreMost: inside,
		Roughness: r, Source: bore, RoughnessSource: rough,
	}
}

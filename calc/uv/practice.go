package uv

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// PracticeInput is what the trade asks before it names a lamp.
type PracticeInput struct {
	Koi     bool // or as many other fish; else goldfish, or plants and few fish
	FullSun bool
}

// Practice is a range of electrical lamp power for a volume of pond, from the lowest to the highest word heard.
type Practice struct {
	Low, High unit.PowerPerVolume
	Source    source.Source
}

// PracticePower gives the trade's lamp power, to stand beside the calculated dose:
//
//	W for each 1000 L      shade     full sun
//	goldfish, plants       1 to 2    1 to 4.2
//	koi                    2 to 4    2 to 5.5
//
// Source: common practice, no source; the words heard for one pond differ by a factor of four.
func PracticePower(in PracticeInput) Practice {
	low, high := 1.0, 2.0
	switch {
	case in.Koi && in.FullSun:
		low, high = 2, 5.5
	case in.Koi:
		low, high = 2, 4
	case in.FullSun:
		high = 4.2
	}
	return Practice{
		Low: unit.WattsPerCubicMetre(low), High: unit.WattsPerCubicMetre(high), Source: source.Practice,
	}
}

package dig

import (
	"example.com/pondwright/calc/source"
	"example.com/pondwright/calc/unit"
)

// A Soil is a kind of ground by how it swells when it is dug.
type Soil struct {
	Name      string
	Loose     unit.Ratio // volume loose over volume in the bank
	Compacted unit.Ratio // volume rolled over volume in the bank; 0 where no figure is known
	Source    source.Source
}

// Soils lists the kinds of ground. Handbooks differ: another list has 5 % for sand where this has 11 %, so a heap can be
// a tenth larger or smaller than it says here.
func Soils() []Soil {
	return []Soil{
		{Name: "dry sand", Loose: 1.11, Compacted: 0.95, Source: source.Earthmoving},
		{Name: "common earth or loam", Loose: 1.25, Compacted: 0.90, Source: source.Earthmoving},
		{Name: "clay", Loose: 1.43, Compacted: 0.90, Source: source.Earthmoving},
		{Name: "blasted rock", Loose: 1.50, Compacted: 1.30, Source: source.Earthmoving},
		{Name: "topsoil", Loose: 1.35, Source: source.Practice},
		{Name: "chalk", Loose: 1.40, Source: source.Practice},
		{Name: "made ground", Loose: 1.25, Source: source.Practice},
	}
}

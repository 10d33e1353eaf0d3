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
	// Density in the bank, damp. Ground differs by a fifth either way.
	Density unit.Density
}

// Soils lists the kinds of ground. Handbooks differ: another list has 5 % for sand where this has 11 %, so a heap can be
// a tenth larger or smaller than it says here.
func Soils() []Soil { return []Soil{DrySand, Loam, Clay, BlastedRock, Topsoil, Chalk, MadeGround} }

// The kinds of ground.
var (
	DrySand     = Soil{Name: "dry sand", Loose: 1.11, Compacted: 0.95, Source: source.Earthmoving, Density: 1650}
	Loam        = Soil{Name: "common earth or loam", Loose: 1.25, Compacted: 0.90, Source: source.Earthmoving, Density: 1650}
	Clay        = Soil{Name: "clay", Loose: 1.43, Compacted: 0.90, Source: source.Earthmoving, Density: 1900}
	BlastedRock = Soil{Name: "blasted rock", Loose: 1.50, Compacted: 1.30, Source: source.Earthmoving, Density: 2600}
	Topsoil     = Soil{Name: "topsoil", Loose: 1.35, Source: source.Practice, Density: 1400}
	Chalk       = Soil{Name: "chalk", Loose: 1.40, Source: source.Practice, Density: 1900}
	MadeGround  = Soil{Name: "made ground", Loose: 1.25, Source: source.Practice, Density: 1700}
)

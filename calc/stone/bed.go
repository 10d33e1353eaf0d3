package stone

import (
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// UsualBearing is what each end of a spill stone lies on: common practice, no source.
const UsualBearing = unit.Length(0.15)

// A Bed is stone of one size in a bed, a course or a heap.
type Bed struct {
	Length, Width, Height unit.Length
	Void                  unit.Ratio // between the stones
	Density               unit.Density
}

// A Heap is what a bed takes.
type Heap struct {
	Bulk, Solid unit.Volume
	Mass        unit.Mass
}

// Fill measures the stone of a bed.
func (b Bed) Fill(t *working.Trail) Heap {
	bulk := CourseVolume.Run(t, CourseInput{Length: b.Length, Width: b.Width, Height: b.Height})
	solid := SolidVolume.Run(t, SolidInput{Bulk: bulk, Void: b.Void})
	return Heap{Bulk: bulk, Solid: solid, Mass: Weight.Run(t, WeightInput{Solid: solid, Density: b.Density})}
}

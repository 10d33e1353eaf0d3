package uv

import (
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv/field"
	"example.com/pondwright/calc/working"
)

// Apart is the light of several lamps, each in its own sleeve.
type Apart struct {
	Careful unit.FluenceRate // average
	Volume  unit.Volume      // water between the sleeves and the wall
	// OfOnAxis is what they give of the dose of all their light on the axis.
	OfOnAxis unit.Ratio
}

// LampsApart works out the light of the unit's lamps evenly round a circle about the axis. It is not asked of one lamp.
func (f Field) LampsApart(t *working.Trail, offset unit.Length) (Apart, error) {
	l := f.parallel(offset)
	var errs input.Errors
	switch {
	case f.lamps < 2:
		errs.Add("lamp_offset_mm", "leave it out for one lamp", "one lamp stands on the axis")
	case !(offset > 0) || !l.Fit():
		errs.Add("lamp_offset_mm", "give the distance from the axis of the chamber to the middle of each lamp",
			"%d sleeves do not fit %.4g mm from the axis", f.lamps, offset.Millimetres())
	}
	if err := errs.Err(); err != nil {
		return Apart{}, err
	}
	a := Apart{Careful: field.ParallelAverage.Run(t, l), Volume: l.Volume()}
	a.OfOnAxis = unit.Ratio(float64(a.Careful) * float64(a.Volume) / (float64(f.Careful) * float64(f.Volume)))
	return a, nil
}

func (f Field) parallel(offset unit.Length) field.Lamps {
	c := f.Chamber
	return field.Lamps{
		Output: c.Output, Count: f.lamps, Offset: offset, ArcLength: c.ArcLength, ChamberLength: c.ChamberLength,
		SleeveRadius: c.SleeveRadius, ChamberRadius: c.ChamberRadius, Absorption: c.Absorption,
	}
}

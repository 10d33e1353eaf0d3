package outline

import (
	"fmt"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
)

// A Joined pond is two or more bays with one water level while it stands above the saddle between them, and separate
// levels below it.
type Joined struct {
	Bays   []Curve     // full to the same level
	Saddle unit.Length // its depth below full
}

// Check says what is wrong with the pond as input.Errors.
func (j Joined) Check() error {
	var errs input.Errors
	if len(j.Bays) < 2 {
		errs.Add("bays", "give two bays or more", "a saddle needs two bays and there are %d", len(j.Bays))
	}
	if !(j.Saddle >= 0 && j.Saddle.Metres() <= longest) {
		errs.Add("saddle_depth_m", "give the depth of the saddle below the water's surface", "the saddle cannot be at %g m", j.Saddle.Metres())
		return errs
	}
	for i, bay := range j.Bays {
		if j.Saddle > bay.Depth() {
			errs.Add("saddle_depth_m", "give the depth of the highest place between the bays",
				"the saddle at %g m is deeper than bay %d, which is %g m deep", j.Saddle.Metres(), i, bay.Depth().Metres())
		}
	}
	return errs.Err()
}

// Volume is what all bays hold.
func (j Joined) Volume() unit.Volume {
	var sum unit.Volume
	for _, bay := range j.Bays {
		sum += bay.Volume()
	}
	return sum
}

// AreaAt is the surface of all bays when each has fallen to that depth.
func (j Joined) AreaAt(fallen unit.Length) unit.Area {
	var sum unit.Area
	for _, bay := range j.Bays {
		sum += bay.AreaAt(fallen)
	}
	return sum
}

// VolumeLost is what has gone when all bays have fallen that far, as by evaporation.
func (j Joined) VolumeLost(fallen unit.Length) unit.Volume {
	var sum unit.Volume
	for _, bay := range j.Bays {
		sum += bay.VolumeLost(fallen)
	}
	return sum
}

// Within is how much can be drawn from one bay by a pump in it or a leak at its floor: that bay to its floor, the others
// to the saddle. What it leaves in the others is the second result.
func (j Joined) Within(bay int) (drawn, left unit.Volume, err error) {
	if err := j.Check(); err != nil {
		return 0, 0, err
	}
	if bay < 0 || bay >= len(j.Bays) {
		return 0, 0, input.Error{
			Field: "bay", Problem: fmt.Sprintf("there is no bay %d", bay),
			Change: fmt.Sprintf("give a bay between 0 and %d", len(j.Bays)-1),
		}
	}
	for i, other := range j.Bays {
		if i != bay {
			left += other.VolumeBelow(j.Saddle)
		}
	}
	return j.Volume() - left, left, nil
}

// Depth is that of the deepest bay.
func (j Joined) Depth() unit.Length {
	var deepest unit.Length
	for _, bay := range j.Bays {
		deepest = max(deepest, bay.Depth())
	}
	return deepest
}

// DropFor is how far the level of all bays falls when that much water goes, as by evaporation. More than they hold empties
// them, and it says so with false.
func (j Joined) DropFor(lost unit.Volume) (unit.Length, bool) {
	if !(lost <= j.Volume()) {
		return j.Depth(), false
	}
	return unit.Metres(halve(0, j.Depth().Metres(), func(z float64) float64 {
		return (j.VolumeLost(unit.Metres(z)) - lost).CubicMetres()
	})), true
}

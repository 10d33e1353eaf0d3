package level

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/root"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Bay is a body of water with a level of its own. Heights and depths are from its usual level.
type Bay struct {
	Name string
	Area unit.Area // of the water at the usual level
	// Volume is the water the bay holds at a level, upwards above 0; it must rise with the level from the floor to the edge.
	// Nil takes upright sides.
	Volume    func(level unit.Length) unit.Volume
	Depth     unit.Length // of the floor
	Freeboard unit.Length // of the edge over the level, or of the lip the bay spills over; 0 where it is brimful
	SpillsTo  int         // number of the bay below that takes what spills, from 1 for the first of the list; 0 where it is lost
	Intake    unit.Length // depth of the intake of the pump; 0 where there is none
	Cover     unit.Length // least water over the intake, lest it draws air
	Catchment unit.Area   // that drains to the bay when it rains
	RunOff    unit.Ratio  // share of the rain on it that arrives
}

// held is the water the bay holds at a level.
func (b Bay) held(level unit.Length) unit.Volume {
	if b.Volume != nil {
		return b.Volume(level)
	}
	return unit.CubicMetres(b.Area.SquareMetres() * (b.Depth + level).Metres())
}

// Slice is the water between the usual level and a depth below it, no deeper than the floor.
func (b Bay) Slice(t *working.Trail, depth unit.Length) unit.Volume {
	depth = min(depth, b.Depth)
	if !(depth > 0) {
		return 0
	}
	area := unit.SquareMetres((b.held(0) - b.held(-depth)).CubicMetres() / depth.Metres())
	return Layer.Run(t, LayerInput{area, depth})
}

// settled is where a level comes to rest, and what did not fit in or was not there.
type settled struct {
	change        unit.Length
	spilt, wanted unit.Volume
}

// settle adds water to the bay at its usual level, or takes it.
func (b Bay) settle(t *working.Trail, added unit.Volume) (settled, bool) {
	room, stock := b.held(b.Freeboard)-b.held(0), b.held(0)-b.held(-b.Depth)
	switch {
	case !(room >= 0 && stock > 0):
		return settled{}, false
	case added == 0:
		return settled{}, true
	case added >= room:
		return settled{change: b.Freeboard, spilt: added - room}, true
	case -added >= stock:
		return settled{change: -b.Depth, wanted: -added - stock}, true
	}
	area := b.Area
	if b.Volume != nil {
		excess := func(level float64) float64 {
			return (b.Volume(unit.Metres(level)) - b.Volume(0) - added).CubicMetres()
		}
		level, ok := root.Find(excess, -b.Depth.Metres(), b.Freeboard.Metres())
		if !ok {
			return settled{}, false
		}
		area = unit.SquareMetres(added.CubicMetres() / level)
	}
	return settled{change: Change.Run(t, ChangeInput{added, area})}, true
}

func checkBays(bays []Bay) error {
	var errs input.Errors
	if len(bays) == 0 {
		errs.Add("bays", "give at least one bay", "no bay")
	}
	for i, b := range bays {
		within := func(field string, x, least, most float64, change string) {
			if !(x >= least && x <= most) {
				errs.Add(fmt.Sprintf("bays[%d].%s", i, field), change, "%g is outside %g to %g", x, least, most)
			}
		}
		within("upright.area_m2", b.Area.SquareMetres(), 0.01, 1e6, "give the area of the water")
		within("upright.depth_m", b.Depth.Metres(), 0.01, 20, "give the depth of the bay")
		within("freeboard_m", b.Freeboard.Metres(), 0, 5, "give the height of the edge over the water, 0 where it is brimful")
		within("intake_m", b.Intake.Metres(), 0, math.Max(b.Depth.Metres(), 0), "give the depth of the intake, no deeper than the bay")
		within("cover_m", b.Cover.Metres(), 0, math.Max(b.Intake.Metres(), 0), "give the least water over the intake")
		within("catchment_m2", b.Catchment.SquareMetres(), 0, 1e7, "give the area that drains to the bay")
		within("run_off_percent", b.RunOff.Float(), 0, 1, "give the share of the rain that arrives")
		if b.SpillsTo != 0 && (b.SpillsTo <= i+1 || b.SpillsTo > len(bays)) {
			errs.Add(fmt.Sprintf("bays[%d].spills_to", i), "list bays from the top down, and let each spill to one after it", "bay %d", b.SpillsTo)
		}
	}
	return errs.Err()
}

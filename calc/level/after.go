package level

import (
	"math"

	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// A Level is a bay after an event.
type Level struct {
	Bay    string
	Added  unit.Volume // with what spilt from above; below 0 where water left
	Change unit.Length // of the level, upwards above 0
	Spilt  unit.Volume // over the edge or the lip
}

// After finds the levels after an event that finds every bay at its usual level. Bays are listed from the top down, so that
// what spills from one is there for the next. Errors name bays[i].upright.area_m2 and so on, and moves[i].
func After(t *working.Trail, bays []Bay, e Event) ([]Level, []finding.Finding, error) {
	if err := check(bays, e); err != nil {
		return nil, nil, err
	}
	added := make([]unit.Volume, len(bays))
	for _, m := range e.Moves {
		added[m.Bay-1] += m.Volume
	}
	levels := make([]Level, len(bays))
	var found []finding.Finding
	for i, b := range bays {
		s, ok := b.settle(t, added[i])
		if !ok {
			return nil, nil, noVolume(i)
		}
		if b.SpillsTo != 0 {
			added[b.SpillsTo-1] += s.spilt
		}
		levels[i] = Level{Bay: b.Name, Added: added[i], Change: s.change, Spilt: s.spilt}
		found = append(found, b.remarks(e.Name, s)...)
	}
	return levels, found, nil
}

func check(bays []Bay, e Event) error {
	var errs input.Errors
	errs.AddUnder("", checkBays(bays))
	for i, m := range e.Moves {
		if m.Bay < 1 || m.Bay > len(bays) {
			errs.Add(moveField(i)+".bay", "give the number of a bay, from 1", "there is no bay %d", m.Bay)
		}
		if v := m.Volume.CubicMetres(); math.IsNaN(v) || math.IsInf(v, 0) {
			errs.Add(moveField(i)+".volume_l", "give the litres that move", "%g L", m.Volume.Litres())
		}
	}
	return errs.Err()
}

func noVolume(i int) error {
	var errs input.Errors
	errs.Add(bayField(i)+".volume", "give a volume that rises with the level from the floor to the edge", "the volume does not rise with the level")
	return errs
}

// A HoseLoss is the delivery hose come off, with the pump running on.
type HoseLoss struct {
	Lost  unit.Volume
	Left  unit.Volume // least water left in the bay
	Level unit.Length // below the usual one, where the pump begins to draw air
	Time  unit.Time   // until then, at the least
}

// HoseOff finds the least water left when the delivery hose of a pump comes off and the water runs away from the pond: the
// pump draws its bay down until only its cover is left over the intake. Errors name bays[0].upright.area_m2 and so on, bays[0].intake_m and
// flow_l_per_h.
func HoseOff(t *working.Trail, b Bay, q unit.Flow) (HoseLoss, []finding.Finding, error) {
	var errs input.Errors
	errs.AddUnder("", checkBays([]Bay{b}))
	if !(b.Intake > 0) {
		errs.Add("bays[0].intake_m", "give the depth of the intake", "no intake in this bay")
	}
	if !(q > 0 && q.CubicMetresPerSecond() < math.Inf(1)) {
		errs.Add("flow_l_per_h", "give the flow with the hose off", "%g L/h", q.LitresPerHour())
	}
	if err := errs.Err(); err != nil {
		return HoseLoss{}, nil, err
	}
	drawn := b.Intake - b.Cover
	if drawn > 0 && !(b.held(0)-b.held(-drawn) > 0 && b.held(-drawn) >= 0) {
		return HoseLoss{}, nil, noVolume(0)
	}
	loss := HoseLoss{Lost: b.Slice(t, drawn), Left: b.held(-drawn), Level: drawn}
	loss.Time = Emptying.Run(t, EmptyingInput{loss.Lost, q})
	return loss, []finding.Finding{loss.remark(b)}, nil
}

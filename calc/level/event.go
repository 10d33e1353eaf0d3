package level

import (
	"fmt"

	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

// An Event is water that comes to bays or leaves them, all at once.
type Event struct {
	Name  string
	Moves []Move
}

// A Move is water that comes to a bay, or leaves it below 0.
type Move struct {
	Bay    int // number in the list of bays, from 1
	Volume unit.Volume
}

// Start is the fall that starts: the water in transit is drawn from the bay the pump stands in.
func Start(bay int, inTransit unit.Volume) Event {
	return Event{"fall starts", []Move{{bay, -inTransit}}}
}

// Stop is the fall that stops: the water in transit comes down to the bay it drains to.
func Stop(bay int, inTransit unit.Volume) Event { return Event{"fall stops", []Move{{bay, inTransit}}} }

// Flush is water thrown away, to a drain or a flower bed.
func Flush(bay int, volume unit.Volume) Event { return Event{"flush", []Move{{bay, -volume}}} }

// Leak is water that a bay, or a stream that the bay feeds, loses in a time.
func Leak(t *working.Trail, bay int, flow unit.Flow, time unit.Time) Event {
	return Event{"leak", []Move{{bay, -Outflow.Run(t, OutflowInput{flow, time})}}}
}

// Siphon is a hose that runs backwards once the pump has stopped: its outlet hangs in one bay, at a depth, and its other end
// lies in a lower one. It draws the upper bay down to the outlet. A hose that ends above the water draws nothing.
func Siphon(t *working.Trail, bays []Bay, upper, lower int, outlet unit.Length) Event {
	e := Event{Name: "siphon"}
	if upper < 1 || upper > len(bays) {
		return Event{e.Name, []Move{{upper, 0}}} // After names the fault
	}
	drawn := bays[upper-1].Slice(t, outlet)
	e.Moves = []Move{{upper, -drawn}, {lower, drawn}}
	return e
}

// Rainfall is a rain on all bays and what drains to them.
func Rainfall(t *working.Trail, bays []Bay, depth unit.Length) Event {
	e := Event{Name: "rain"}
	for i, b := range bays {
		e.Moves = append(e.Moves, Move{i + 1, Rain.Run(t, RainInput{depth, b.Area, b.Catchment, b.RunOff})})
	}
	return e
}

// Together is several events at once, as a fall that stops while its hose siphons.
func Together(events ...Event) Event {
	var all Event
	for _, e := range events {
		if all.Name != "" {
			all.Name += " and "
		}
		all.Name += e.Name
		all.Moves = append(all.Moves, e.Moves...)
	}
	return all
}

func moveField(i int) string { return fmt.Sprintf("moves[%d]", i) }

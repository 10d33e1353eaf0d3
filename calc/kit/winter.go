package kit

import (
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/water"
)

// A Winter is how the pump runs in winter. Whether it should is disputed in the trade; what flows when it does is not.
type Winter struct {
	Practice    WinterPractice
	Days        float64          // of the year
	Water       water.Properties // in the circuit
	Hose        unit.Length      // of a pump that is moved, and so the next four
	Lift        unit.Head
	Filter      bool      // it still runs through the filter
	Lamp        bool      // it still runs through the lamp unit, which burns then
	Least, Most unit.Flow // wanted; 0 where nothing is asked for
}

// A WinterPractice is what is done with the pump in winter.
type WinterPractice int

// What is done.
const (
	RunsOn  WinterPractice = iota + 1 // stays, and feeds the fall
	Moved                             // draws and gives elsewhere
	Stopped                           // off, or taken out
)

// runs reports whether the pump moves water in winter and is asked about.
func (w *Winter) runs() bool { return w != nil && w.Practice != Stopped }

// moved reports whether the winter has a way of its own.
func (w *Winter) moved() bool { return w != nil && w.Practice == Moved }

// lit reports whether the lamps burn in winter.
func (w *Winter) lit() bool { return w == nil || w.Practice == RunsOn || w.Practice == Moved && w.Lamp }

// through says which of the items built in the water passes in winter.
func (w *Winter) through() (filter, lamp bool) {
	if w.moved() {
		return w.Filter, w.Lamp
	}
	return true, true
}

// winterSpec is the hose of a winter of its own: cut to its length, with the outlet alone. Whatever fittings it has there
// nobody has said, and a short straight hose has none.
func winterSpec(w *Winter, hose Hose) pipe.Spec {
	return pipe.Spec{
		Length: w.Hose, Bore: hose.Bore, TailBore: hose.TailBore, Wall: hose.Wall,
		Fittings: winterFittings(hose),
	}
}

// winterFittings are a tail on the pump, where the hose has tails, and the outlet.
func winterFittings(hose Hose) []pipe.Fitted {
	fitted := []pipe.Fitted{{Kind: pipe.Exit, Count: 1}}
	if hose.TailBore > 0 {
		fitted = append(fitted, pipe.Fitted{Kind: pipe.HoseTail, Count: 1})
	}
	return fitted
}

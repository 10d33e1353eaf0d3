// Package kit chooses sets of pump, hose, filter and lamp unit that work together, and proves each by calculation.
package kit

import (
	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/filter"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/uv"
	"example.com/pondwright/calc/water"
)

// A Question is a pond that kit is looked for.
type Question struct {
	Volume    unit.Volume
	Load      stock.Load // of the grown fish; the zero Load where there are none
	Stocking  filter.Stocking
	Water     water.Properties // in the circuit
	Warmest   unit.Temperature // of the water that fish and filter are judged in
	PH        float64
	UV        unit.Ratio // transmittance at 254 nm over 10 mm
	Lift      unit.Head  // from the water to the sill or outlet
	Hose      unit.Length
	Fittings  []pipe.Fitted
	Wall      pipe.Wall // the only wall wanted; 0 takes any
	Wanted    Wanted
	Filter    bool       // whether a filter belongs to the set
	Lamp      bool       // whether a lamp unit does
	Margin    unit.Ratio // of filter capacity over the load
	Budget    float64    // 0 is no limit
	Stock     StockRule
	Winter    *Winter // nil where winter is not asked about
	RunsDaily unit.Time
	Tariff    float64 // price of a kilowatt-hour; 0 where not known
	Years     float64 // over which cost is added up
	Tolerance pump.Tolerance
	Beside    bool // two pumps of a kind side by side instead of one, into one hose
}

// pumps is how many pumps of a kind stand in a set.
func (q *Question) pumps() int {
	if q.Beside {
		return 2
	}
	return 1
}

// RunningLoad is the ammonia that the filter has to take up while water runs through it: all of the day's in the hours the
// pump runs.
func (q *Question) RunningLoad() unit.MassRate {
	if q.RunsDaily <= 0 {
		return q.Load.TAN
	}
	return unit.MassRate(float64(q.Load.TAN) * float64(unit.Days(1)) / float64(q.RunsDaily))
}

// A Range is what there is to choose from, priced in one currency.
type Range struct {
	Currency string // ISO 4217
	Pumps    []Pump
	Hoses    []Hose
	Filters  []Filter
	Lamps    []Lamp
}

// A Pump of the range.
type Pump struct {
	Curve     *pump.Curve
	Price     float64
	LabelFlow unit.Flow   // as printed on the box; 0 where not known
	Solids    unit.Length // the largest it passes; 0 where not known
	Outlet    unit.Length // bore of the outlet; 0 where not known
	Stock     Stock
}

// A Hose of the range, by the metre.
type Hose struct {
	Bore, TailBore unit.Length // TailBore is 0 where it joins without tails
	Wall           pipe.Wall
	PricePerMetre  float64
	Stock          Stock // in whole metres
}

// A Filter of the range.
type Filter struct {
	filter.Filter
	Open             bool
	Clean, Due       circuit.Device // losses of a closed filter; zero where open
	InletAboveOutlet unit.Length    // of an open filter
	MaxFlow          unit.Flow
	LabelPond        unit.Volume // "for ponds up to", 0 where not known
	Price            float64
	Stock            Stock
}

// A Lamp unit of the range.
type Lamp struct {
	uv.Unit
	Loss      circuit.Device
	MaxFlow   unit.Flow
	Life      unit.Time
	Price     float64
	LampPrice float64 // 0 where not known
	Stock     Stock
	// Light works the light in the chamber out, or remembers it; nil works it out each time.
	Light func(uv.Condition) (uv.Field, error)
}

// A Set is one of each, by its place in the range; -1 where the question wants none.
type Set struct{ Pump, Hose, Filter, Lamp int }

// A State is one of those a circuit runs in over the year.
type State int

// The states, in the order they come.
const (
	Clean State = iota
	Due         // filter due for cleaning
	Cold        // winter
	states
)

// String is the state in the words of the trade.
func (s State) String() string { return [states]string{"clean", "due for cleaning", "winter"}[s] }

// A Candidate is a set that was calculated.
type Candidate struct {
	Set
	Flow     [states]unit.Flow // as the pump's curve says
	Weakest  unit.Flow         // of a pump and a hose at the weak edge of what they may be, with the filter due
	Cost     Cost
	Headroom unit.Ratio // to the tightest of its limits; negative where it breaks one
	Tightest Limit      // which one that is
	Pumps    Arrangement
	Fall     *Candidate // the set of the second pump, of two apart; cost and headroom above are those of both
}

// An Arrangement is how many pumps a set has, and how they stand.
type Arrangement int

// The arrangements.
const (
	OnePump    Arrangement = iota
	SideBySide             // two of one kind into one hose
	Apart                  // one for filter and lamp unit, one for the fall, each in a hose of its own
)

// A Kind is one of those a set is made of.
type Kind int

// The kinds, in the order the water takes them.
const (
	PumpKind Kind = iota
	HoseKind
	FilterKind
	LampKind
	Kinds
)

// String is the kind in the words of the trade.
func (k Kind) String() string { return [Kinds]string{"pump", "hose", "filter", "lamp unit"}[k] }

// Of is the place of the item of that kind.
func (s Set) Of(k Kind) int { return [Kinds]int{s.Pump, s.Hose, s.Filter, s.Lamp}[k] }

// Put is the set with another item of that kind.
func (s Set) Put(k Kind, place int) Set {
	*[Kinds]*int{&s.Pump, &s.Hose, &s.Filter, &s.Lamp}[k] = place
	return s
}

// Free is a set of which nothing is settled.
func Free() Set { return Set{-1, -1, -1, -1} }

// A Cost is what a set costs, in the currency of the range.
type Cost struct {
	Price         float64
	Energy        unit.Energy // a year
	EnergyPerYear float64     // 0 where the tariff is not known
	LampsPerYear  float64
	Years         float64
	Total         float64
}

// PerYear is what it costs to run for a year.
func (c Cost) PerYear() float64 { return c.EnergyPerYear + c.LampsPerYear }

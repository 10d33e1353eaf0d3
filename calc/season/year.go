package season

import (
	"errors"

	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/finding"
	"example.com/pondwright/calc/unit"
)

// A Day is the pond on one day of the year.
type Day struct {
	Sky               climate.Sky
	Mean, Least, Most unit.Temperature // of the water
	Dusk              unit.Temperature
	Ice               unit.Length // at the end of the day
	Evaporation       unit.Length
	Level             unit.Length // at the end of the day, before it is topped up; below full where negative
	Surface           unit.Area   // at the start of the day
	Moves             Moves
	Feed, TAN         unit.MassRate
	Cleaned           bool
	// By the mean of the water over the seven days before.
	WinterPlace, Lamp, Feeding bool

	start state
}

// Moves are what comes to the pond and leaves it.
type Moves struct {
	Rain, ToppedUp                               unit.Volume
	Evaporation, Splash, Leak, Flushed, Overflow unit.Volume // of wet stone too
	Changed                                      unit.Volume // let out and filled in again: the level knows nothing of it
}

func (m *Moves) add(n Moves) {
	m.Rain += n.Rain
	m.ToppedUp += n.ToppedUp
	m.Evaporation += n.Evaporation
	m.Splash += n.Splash
	m.Leak += n.Leak
	m.Flushed += n.Flushed
	m.Overflow += n.Overflow
	m.Changed += n.Changed
}

// in and out are what raised the level and what lowered it.
func (m Moves) in() unit.Volume  { return m.Rain + m.ToppedUp }
func (m Moves) out() unit.Volume { return m.Evaporation + m.Splash + m.Leak + m.Flushed + m.Overflow }

// A Month is the part of a calendar month that lies in the year.
type Month struct {
	Month          int // 0 for January
	From, To       int // days of the year, To not among them
	Air, Water     unit.Temperature
	Least, Most    unit.Temperature // of the water, over all days
	Evaporation    unit.Length
	Penman         unit.Length
	Shallow        unit.Length
	Rain           unit.Length
	Moves          Moves
	TopUps         int
	DryInterval    unit.Time // between top-ups without rain; negative is never
	LevelLeast     unit.Length
	LevelEnd       unit.Length
	Feed, TAN      unit.MassRate // mean of the days
	FeedingDays    int
	Cleanings      int
	LampDays       int
	WinterDays     int
	Ice            unit.Length
	AlgaeDoublings float64 // a day, at the edge of what cultures reach
}

// A Span is from one day to another, both counted; it may go over the turn of the year, Last then lies before First.
type Span struct{ First, Last, Days int }

// A Year is all of it.
type Year struct {
	Days                            []Day
	Months                          []Month
	Start, End                      unit.Volume // held by the pond
	Moves                           Moves
	Error                           unit.Ratio // what the months do not account for, of all that moved
	TopUps                          []int
	TopUpEach                       unit.Volume
	Shortest                        unit.Time // dry interval of the worst month; negative is never
	Reserve                         unit.Flow
	Cleanings                       []int
	Feeding, Lamp, WinterPlace, Ice *Span // nil without
	IceMost                         unit.Length
	Warmest, Coldest                int              // days with the warmest dusk and the coldest water
	HotDusk                         unit.Temperature // after a hot spell about the warmest day
	Energy                          Energy
	Findings                        []finding.Finding
}

// ErrStopped means that Input.Stop ended the year.
var ErrStopped = errors.New("season: stopped")

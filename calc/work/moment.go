package work

import (
	"math"

	"example.com/pondwright/calc/unit"
)

// A moment is the time since midnight before the first day. Work fills the hours of working days from the morning on.

// hair is a part of a day that rounding may take.
const hair = 1e-9

// FirstDay is the number of the day the task begins on, from 1.
func (p Planned) FirstDay() int { return dayOf(p.Begin) }

// LastDay is the number of the day its work ends on. What ends at midnight ends on the day before.
func (p Planned) LastDay() int { return max(p.FirstDay(), int(math.Ceil(p.End.Days()-hair))) }

// ReadyDay is the number of the day on which what comes after may begin.
func (p Planned) ReadyDay() int { return dayOf(p.Next) }

func dayOf(at unit.Time) int { return int(math.Floor(at.Days()+hair)) + 1 }

// start is the hour work begins at. A day of 24 hours begins at midnight.
func (team Team) start() unit.Time { return min(morning, unit.Days(1)-team.Daily) }

func (team Team) works(day int) bool { return (team.FirstWeekday+day)%7 < team.DaysPerWeek }

// open is the first moment, from at on, that work can go on in.
func (team Team) open(at unit.Time) unit.Time {
	day := int(math.Floor(at.Days() + hair))
	clock := max(0, at-unit.Days(float64(day)))
	const second = unit.Time(1e-3)
	for {
		switch {
		case !team.works(day), clock >= team.start()+team.Daily-second:
			day, clock = day+1, 0
		default:
			return unit.Days(float64(day)) + max(clock, team.start())
		}
	}
}

// done is when so much work is done that begins at a moment when work can go on.
func (team Team) done(from, labour unit.Time) unit.Time {
	at := from
	for labour > 0 {
		at = team.open(at)
		day := math.Floor(at.Days() + hair)
		left := unit.Days(day) + team.start() + team.Daily - at
		if labour <= left {
			return at + labour
		}
		labour -= left
		at += left
	}
	return at
}

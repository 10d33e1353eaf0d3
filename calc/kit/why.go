package kit

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/finding"
)

// WhyFirst says in sentences why the first candidate stands before the second: what it costs in all, and what each does
// better.
func (f *Finder) WhyFirst(first, second Candidate) []string {
	var why []string
	if f.q.Tariff > 0 {
		why = append(why, fmt.Sprintf("Over %g years the first costs %s in all, the second %s.",
			f.q.Years, f.money(first.Cost.Total), f.money(second.Cost.Total)))
	}
	buy := f.compare("to buy", second.Cost.Price-first.Cost.Price)
	if f.q.Tariff == 0 {
		return append(why, "The first costs "+buy+".", headroom(first, second))
	}
	joint := ", and "
	if (second.Cost.Price-first.Cost.Price)*(second.Cost.PerYear()-first.Cost.PerYear()) < 0 {
		joint = ", but "
	}
	run := f.compare("a year to run", second.Cost.PerYear()-first.Cost.PerYear())
	return append(why, "The first costs "+buy+joint+run+".", headroom(first, second))
}

// compare says which of two costs less, given the second less the first.
func (f *Finder) compare(what string, saved float64) string {
	switch {
	case saved > 0:
		return f.money(saved) + " less " + what
	case saved < 0:
		return f.money(-saved) + " more " + what
	default:
		return "the same " + what
	}
}

func headroom(first, second Candidate) string {
	switch a, b := math.Round(first.Headroom.Percent()), math.Round(second.Headroom.Percent()); {
	case a > b:
		return fmt.Sprintf("The first has more headroom, %.0f %% against %.0f %%.", a, b)
	case a < b:
		return fmt.Sprintf("But the second has more headroom, %.0f %% against %.0f %%: take it where the figures of pond or fish are unsure.", b, a)
	default:
		return fmt.Sprintf("Both have about the same headroom, %.0f %%.", a)
	}
}

func (f *Finder) money(amount float64) string {
	whole, part := math.Modf(math.Round(amount*100) / 100)
	return fmt.Sprintf("%s %s.%02.0f", f.r.Currency, finding.Whole(whole), 100*part)
}

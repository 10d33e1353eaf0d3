package kit

import (
	"fmt"
	"math"
)

// WhyFirst says in sentences why the first candidate stands before the second: what it costs in all, and what each does
// better.
func (f *Finder) WhyFirst(first, second Candidate) []string {
	var why []string
	if f.q.Tariff > 0 {
		why = append(why, fmt.Sprintf("Over %g years the first costs %.2f less in all: %.2f against %.2f.",
			f.q.Years, second.Cost.Total-first.Cost.Total, first.Cost.Total, second.Cost.Total))
	}
	why = append(why, compare("to buy", second.Cost.Price-first.Cost.Price))
	if f.q.Tariff > 0 {
		why = append(why, compare("a year to run", second.Cost.PerYear()-first.Cost.PerYear()))
	}
	switch a, b := math.Round(first.Headroom.Percent()), math.Round(second.Headroom.Percent()); {
	case a > b:
		why = append(why, fmt.Sprintf("The first has more headroom, %.0f %% against %.0f %%.", a, b))
	case a < b:
		why = append(why, fmt.Sprintf("The second has more headroom, %.0f %% against %.0f %%: take it where the figures of pond or fish are unsure.", b, a))
	}
	return why
}

// compare says which of two costs less, given the second less the first.
func compare(what string, saved float64) string {
	switch {
	case saved > 0:
		return fmt.Sprintf("The first costs %.2f less %s.", saved, what)
	case saved < 0:
		return fmt.Sprintf("The first costs %.2f more %s.", -saved, what)
	default:
		return fmt.Sprintf("Both cost the same %s.", what)
	}
}

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
		why = append(why, fmt.Sprintf("Over %g years the first costs %s in all, the second %s.",
			f.q.Years, f.money(first.Cost.Total), f.money(second.Cost.Total)))
	}
	why = append(why, f.compare("to buy", second.Cost.Price-first.Cost.Price))
	if f.q.Tariff > 0 {
		why = append(why, f.compare("a year to run", second.Cost.PerYear()-first.Cost.PerYear()))
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
func (f *Finder) compare(what string, saved float64) string {
	switch {
	case saved > 0:
		return fmt.Sprintf("The first costs %s less %s.", f.money(saved), what)
	case saved < 0:
		return fmt.Sprintf("The first costs %s more %s.", f.money(-saved), what)
	default:
		return fmt.Sprintf("Both cost the same %s.", what)
	}
}

func (f *Finder) money(amount float64) string { return fmt.Sprintf("%s %.2f", f.r.Currency, amount) }

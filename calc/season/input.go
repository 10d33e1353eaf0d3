package season

import (
	"fmt"

	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/solids"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
)

// Input is a pond and the weather of its year.
type Input struct {
	Site      climate.Site
	Days      []climate.Day // 365 or 366 in order, from the first day on
	Usual     bool          // whether they were spread from the months of a usual year
	Shape     Shape
	WetStone  unit.Area // kept wet by the running falls, beside the surface
	Splash    unit.Flow // while they run
	FallsRest bool      // while the pump is in its winter place
	Allowance unit.Length
	Overflow  unit.Length // of the level above full at which the pond runs over
	Catchment unit.Area
	RunOff    unit.Ratio
	Leak      unit.Flow
	Tap       unit.Temperature
	Change    unit.PerTime // water let out and filled in again by hand
	Fish      []stock.Group
	Protein   unit.Ratio
	Bed       *solids.Input // of the filter, but for fish and months; nil without
	Loads     []Load
	Tariff    []Tariff
	HotSpell  float64     // how much warmer than the usual year a hot spell is, in °C
	Stop      func() bool // asked day by day; true ends with ErrStopped. Nil never does.
}

// Trade habits that set the year's dates, by the mean of the water over seven days.
// Source: common practice, no source; feeding stops at stock.FeedingStops.
const (
	ToWinterPlace   = unit.Temperature(8)  // the pump goes to the shallow end
	FromWinterPlace = unit.Temperature(10) // and back
	LampOn          = unit.Temperature(10) // green algae grow fast enough for a lamp
)

// HotSpellDays is how long a hot spell lasts.
const HotSpellDays = 7

// leastDepth is of a pond that one temperature can be told of.
const leastDepth = 0.05

// Check says what is wrong with the input, as an input.Errors.
func (in Input) Check() error {
	var problems input.Errors
	problems.AddUnder("climate", in.Site.Check())
	if n := len(in.Days); n != climate.YearDays && n != climate.YearDays+1 {
		problems.Add("climate.daily.days", "give every day of a year", "%d days are no year", n)
	}
	for i, d := range in.Days {
		if problems.AddUnder(fmt.Sprintf("climate.daily.days[%d]", i), d.Check()); len(problems) > 20 {
			break
		}
	}
	in.checkPond(&problems)
	problems.Between("splash_l_per_day", in.Splash.LitresPerDay(), 0, 1e4, "give the water the falls throw beside the pond")
	problems.Between("wet_stone_m2", in.WetStone.SquareMetres(), 0, 1e4, "give the stone that the falls keep wet")
	problems.Between("catchment_m2", in.Catchment.SquareMetres(), 0, 1e5, "give the roof or paving that drains into the pond")
	problems.Between("run_off_percent", in.RunOff.Percent(), 0, 100, "give the share of the rain that arrives")
	problems.Between("leak_l_per_day", in.Leak.LitresPerDay(), 0, 1e5, "give what leaks")
	problems.Between("tap_temperature_c", in.Tap.Celsius(), 0, 30, "give the temperature of the water that fills the pond")
	problems.Between("hot_spell_k", in.HotSpell, 0, 15, "give how much warmer a hot spell is")
	for i, l := range in.Loads {
		problems.Between(fmt.Sprintf("loads[%d].power_w", i), l.Power.Watts(), 0, 1e5, "give the power from the mains")
	}
	checkTariff(&problems, in.Tariff)
	return problems.Err()
}

func (in Input) checkPond(problems *input.Errors) {
	if len(in.Shape.lines) == 0 {
		problems.Add("pond", "give the pond", "no pond")
		return
	}
	full, surface := in.Shape.Full(), in.Shape.Surface()
	problems.Between("pond.volume_l", full.Litres(), 10, 1e8, "give the water in litres")
	problems.Between("pond.surface_m2", surface.SquareMetres(), 0.05, 1e6, "give the open water in square metres")
	if depth := full.CubicMetres() / surface.SquareMetres(); depth < leastDepth {
		problems.Add("pond", "look for a wrong unit", "%.0f L under %g m² are %.3f m deep on the mean, too shallow to follow", full.Litres(), surface.SquareMetres(), depth)
	}
	problems.Between("level_allowance_mm", in.Allowance.Millimetres(), 5, 500, "give the fall of the level at which it is topped up")
	problems.Between("overflow_mm", in.Overflow.Millimetres(), 0, 500, "give the rise of the level at which the pond runs over")
	if in.Shape.lostAt(in.Allowance.Metres()) > 0.5*full.CubicMetres() {
		problems.Add("level_allowance_mm", "top up sooner", "the pond has lost half its water by then")
	}
}

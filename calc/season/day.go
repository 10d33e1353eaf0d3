package season

import (
	"fmt"
	"math"

	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/input"
	"example.com/pondwright/calc/ode"
	"example.com/pondwright/calc/unit"
)

// tolerance of a step: a ten-thousandth of a degree, and of a millimetre evaporated. The pond forgets its errors in days.
var tolerance = ode.Tolerance{Relative: 1e-5, Absolute: 1e-4}

// Components of the hot loop's state.
const (
	heat    = iota // °C; below 0 the water is at 0 and the rest is ice
	dried          // mm evaporated since the day began
	warmth         // °C day since the day began
	degrees = 3
)

// state is the pond between days.
type state struct {
	heat                  float64    // °C
	lost                  float64    // m³ missing from full
	week                  [7]float64 // mean temperatures of the last seven days
	past                  int        // days followed
	foul                  float64    // share of the dirt that the filter holds
	winter, lamp, feeding bool
}

// weekMean is the mean of the water over the last seven days, or as many as there were.
func (s *state) weekMean() float64 {
	n := min(s.past, len(s.week))
	sum := 0.0
	for _, t := range s.week[:n] {
		sum += t
	}
	return sum / float64(n)
}

// season decides, as a careful owner would on the morning of the day, what the week before allows.
func (s *state) season() {
	if s.past == 0 {
		return
	}
	mean := unit.Temperature(s.weekMean())
	switch {
	case mean < ToWinterPlace:
		s.winter = true
	case mean > FromWinterPlace:
		s.winter = false
	}
	s.lamp = mean >= LampOn
	s.feeding = mean > feedingStops
}

// follower takes the pond from day to day.
type follower struct {
	in    Input
	meals meals
	air   air
	// of the day that is followed
	capacity float64 // J/K of the pond, by its surface with wet stone: J/(K m²)
	inflow   float64 // share of the pond that rain and changed water bring, 1/s
	arrives  float64 // °C, of the inflow
	warmed   float64 // W/m² by pumps in the water
	ice      float64 // m of ice for each °C of heat missing
}

// rates are the right-hand side.
func (f *follower) rates(t float64, y, dy []float64) {
	water := max(0, y[heat])
	net, vapour := f.air.heat(water, f.air.warmth(t), f.air.sun(t))
	if y[heat] < 0 {
		thickness := -y[heat] * f.ice
		if net = throughIce(net, f.air.exchange, thickness); net < 0 {
			// The top of the ice is as much colder than the water as drives its heat up.
			vapour = f.air.drying * (climate.SaturationKilopascals(net*thickness/iceConducts) - f.air.vapour)
		}
	}
	dy[heat] = (net+f.warmed)/f.capacity + f.inflow*(f.arrives-water)
	dy[dried] = vapour / f.air.latent // kg/m², which is mm
	dy[warmth] = water / secondsOfDay
}

// begin sets up the day.
func (f *follower) begin(s *state, sky climate.Sky, d *Day) {
	in := f.in
	s.season()
	d.WinterPlace, d.Lamp, d.Feeding = s.winter, s.lamp, s.feeding
	f.air = over(sky)
	area, _ := in.Shape.at(s.lost)
	d.Surface = unit.SquareMetres(area)
	volume := in.Shape.Full().CubicMetres() - s.lost
	wet := area + f.wetStone(d)
	f.capacity = waterHeat * volume / wet
	f.ice = waterHeat * volume / (iceDensity * iceMelting * area)
	d.Moves.Rain = unit.CubicMetres(sky.Day.Rain.Metres() * (in.Shape.Surface().SquareMetres() + in.RunOff.Float()*in.Catchment.SquareMetres()))
	d.Moves.Changed = unit.CubicMetres(float64(in.Change) * secondsOfDay * volume)
	rain, changed := d.Moves.Rain.CubicMetres(), d.Moves.Changed.CubicMetres()
	f.inflow = (rain + changed) / (secondsOfDay * volume)
	f.arrives = 0
	if rain+changed > 0 {
		f.arrives = (rain*max(0, sky.Mean.Celsius()) + changed*in.Tap.Celsius()) / (rain + changed)
	}
	f.warmed = 0
	for _, l := range in.Loads {
		if l.WarmsPond && l.runs(d) {
			f.warmed += l.Power.Watts() * l.Clock.hours() / 24 / wet
		}
	}
}

// wetStone is kept wet while the falls run.
func (f *follower) wetStone(d *Day) float64 {
	if d.WinterPlace && f.in.FallsRest {
		return 0
	}
	return f.in.WetStone.SquareMetres()
}

// follow takes the pond through a day and writes what it was like.
func (f *follower) follow(s *state, sky climate.Sky, d *Day) error {
	d.Sky, d.start = sky, *s
	f.begin(s, sky, d)
	y := [degrees]float64{heat: s.heat}
	d.Least, d.Most = unit.Temperature(max(0, s.heat)), unit.Temperature(max(0, s.heat))
	d.Dusk = d.Most
	look := func(step *ode.Step) error {
		now := unit.Temperature(0)
		for _, part := range [4]float64{0.25, 0.5, 0.75, 1} {
			now = unit.Temperature(max(0, step.At(step.From+part*(step.To-step.From), heat)))
			d.Least, d.Most = min(d.Least, now), max(d.Most, now)
		}
		if step.To == f.air.set {
			d.Dusk = now
		}
		return nil
	}
	// The sun turns on and off at once: a step must not run over it.
	for from, i := 0.0, 0; i < 3; i++ {
		to := [3]float64{f.air.rise, f.air.set, secondsOfDay}[i]
		if to > from {
			if err := ode.Solve(f.rates, y[:], from, to, tolerance, look); err != nil {
				return fmt.Errorf("season: day %d of the year: %w", sky.Day.Date, err)
			}
		}
		from = max(from, to)
	}
	s.heat = y[heat]
	d.Mean = unit.Temperature(y[warmth])
	d.Evaporation = unit.Millimetres(y[dried])
	d.Ice = unit.Metres(max(0, -y[heat]) * f.ice)
	s.week[s.past%len(s.week)] = y[warmth]
	s.past++
	f.live(s, d)
	return nil
}

// live feeds the fish and fouls the filter.
func (f *follower) live(s *state, d *Day) {
	T := d.Mean.Celsius()
	d.Feed, d.TAN = unit.MassRate(at(&f.meals.feed, T)), unit.MassRate(at(&f.meals.tan, T))
	if f.meals.clogging > 0 {
		s.foul += at(&f.meals.dirt, T) * secondsOfDay / f.meals.clogging
		if s.foul >= 1 {
			// More than one cleaning a day is one, and a finding elsewhere.
			d.Cleaned, s.foul = true, math.Mod(s.foul, 1)
		}
	}
}

// level moves the water of the day.
func (f *follower) level(s *state, d *Day) error {
	in, m := f.in, &d.Moves
	day := unit.Days(1)
	m.Evaporation = unit.CubicMetres(d.Evaporation.Metres() * (d.Surface.SquareMetres() + f.wetStone(d)))
	if !d.WinterPlace || !in.FallsRest {
		m.Splash = unit.CubicMetres(float64(in.Splash) * day.Seconds())
	}
	m.Leak = unit.CubicMetres(float64(in.Leak) * day.Seconds())
	if d.Cleaned {
		m.Flushed = in.Bed.Flush
	}
	lost := s.lost + (m.out() - m.in()).CubicMetres()
	if most := -in.Shape.lines[0].area * in.Overflow.Metres(); lost < most {
		m.Overflow = unit.CubicMetres(most - lost)
		lost = most
	}
	full := in.Shape.Full().CubicMetres()
	if lost >= 0.9*full {
		return input.Error{Field: "pond", Problem: fmt.Sprintf("in one day %.0f L go, of the %.0f L the pond holds", 1000*(lost-s.lost), 1000*full),
			Change: "look for a wrong leak, splash or flush"}
	}
	_, fallen := in.Shape.at(lost)
	d.Level = -unit.Length(fallen)
	if fallen >= in.Allowance.Metres() {
		m.ToppedUp = unit.CubicMetres(lost)
		s.heat += (in.Tap.Celsius() - s.heat) * lost / full
		lost = 0
	}
	s.lost = lost
	return nil
}

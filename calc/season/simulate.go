package season

import (
	"example.com/pondwright/calc/climate"
	"example.com/pondwright/calc/greenwater/algae"
	"example.com/pondwright/calc/stock"
	"example.com/pondwright/calc/unit"
	"example.com/pondwright/calc/working"
)

const feedingStops = stock.FeedingStops

// Simulate follows the pond through the year. It begins full, as warm as the weather of the weeks before the first day has made
// it; those are the last of the year. Workings are those of the sky in the middle of each month and of what was made of it.
// Problems of the input are in err, an input.Errors.
func Simulate(t *working.Trail, in Input) (Year, error) {
	if err := in.Check(); err != nil {
		return Year{}, err
	}
	eaten, err := in.meals(t)
	if err != nil {
		return Year{}, err
	}
	f := follower{in: in, meals: eaten}
	skies := make([]climate.Sky, len(in.Days))
	for i, d := range in.Days {
		skies[i] = in.Site.Under(nil, d)
	}
	y := Year{Days: make([]Day, len(skies))}
	s, err := f.before(skies)
	if err != nil {
		return Year{}, err
	}
	y.Start = in.Shape.Full()
	for i := range y.Days {
		if in.Stop != nil && in.Stop() {
			return Year{}, ErrStopped
		}
		if err := f.follow(&s, skies[i], &y.Days[i]); err != nil {
			return Year{}, err
		}
		if err := f.level(&s, &y.Days[i]); err != nil {
			return Year{}, err
		}
	}
	y.End = in.Shape.Full() - unit.CubicMetres(s.lost)
	if err := f.sumUp(t, &y); err != nil {
		return Year{}, err
	}
	y.Findings = append(eaten.found, in.findings(&y)...)
	return y, nil
}

// before takes a full pond through the weeks before the first day, longer for a deep one: it forgets where it began.
func (f *follower) before(skies []climate.Sky) (state, error) {
	depth := f.in.Shape.Full().CubicMetres() / f.in.Shape.Surface().SquareMetres()
	days := min(20+int(40*depth), len(skies))
	first := skies[len(skies)-days]
	s := state{heat: max(1, first.Mean.Celsius())}
	s.winter = first.Mean < ToWinterPlace
	for _, sky := range skies[len(skies)-days:] {
		if f.in.Stop != nil && f.in.Stop() {
			return s, ErrStopped
		}
		var d Day
		if err := f.follow(&s, sky, &d); err != nil {
			return s, err
		}
	}
	s.foul = 0 // the filter is clean on the first day
	return s, nil
}

// sumUp makes months, spans and dates of the days.
func (f *follower) sumUp(t *working.Trail, y *Year) error {
	y.Shortest = -1
	for i := range y.Days {
		d := &y.Days[i]
		month := climate.MonthOf(d.Sky.Day.Date)
		if n := len(y.Months); n == 0 || y.Months[n-1].Month != month {
			y.Months = append(y.Months, Month{Month: month, From: i, Least: d.Least, Most: d.Most, LevelLeast: d.Level})
		}
		y.Months[len(y.Months)-1].take(i, d)
		if d.Moves.ToppedUp > 0 {
			y.TopUps = append(y.TopUps, i)
		}
		if d.Cleaned {
			y.Cleanings = append(y.Cleanings, i)
		}
		if d.Dusk > y.Days[y.Warmest].Dusk {
			y.Warmest = i
		}
		if d.Mean < y.Days[y.Coldest].Mean {
			y.Coldest = i
		}
		y.IceMost = max(y.IceMost, d.Ice)
	}
	for i := range y.Months {
		f.finish(t, y, &y.Months[i])
	}
	y.balance()
	y.TopUpEach = unit.CubicMetres(f.in.Shape.lostAt(f.in.Allowance.Metres()))
	y.Feeding = longest(y.Days, func(d *Day) bool { return d.Feeding })
	if len(f.in.Fish) == 0 {
		y.Feeding = nil
	}
	y.Lamp = longest(y.Days, func(d *Day) bool { return d.Lamp })
	y.WinterPlace = longest(y.Days, func(d *Day) bool { return d.WinterPlace })
	y.Ice = longest(y.Days, func(d *Day) bool { return d.Ice > 0 })
	y.Energy = use(t, f.in.Loads, f.in.Tariff, y)
	return f.hotSpell(y)
}

// take adds a day to its month.
func (m *Month) take(i int, d *Day) {
	m.To = i + 1
	m.Air += d.Sky.Mean
	m.Water += d.Mean
	m.Least, m.Most = min(m.Least, d.Least), max(m.Most, d.Most)
	m.Evaporation += d.Evaporation
	day := unit.Days(1).Seconds()
	m.Penman += unit.Length(float64(d.Sky.Penman) * day)
	m.Shallow += unit.Length(float64(d.Sky.Shallow) * day)
	m.Rain += d.Sky.Day.Rain
	m.Moves.add(d.Moves)
	if d.Moves.ToppedUp > 0 {
		m.TopUps++
	}
	m.LevelLeast, m.LevelEnd = min(m.LevelLeast, d.Level), d.Level
	if d.Moves.ToppedUp > 0 {
		m.LevelEnd = 0
	}
	m.Feed += d.Feed
	m.TAN += d.TAN
	count := func(n *int, is bool) {
		if is {
			*n++
		}
	}
	count(&m.FeedingDays, d.Feeding)
	count(&m.Cleanings, d.Cleaned)
	count(&m.LampDays, d.Lamp)
	count(&m.WinterDays, d.WinterPlace)
	m.Ice = max(m.Ice, d.Ice)
}

// finish turns sums into means, and works out what hangs on them.
func (f *follower) finish(t *working.Trail, y *Year, m *Month) {
	n := m.To - m.From
	m.Air /= unit.Temperature(n)
	m.Water /= unit.Temperature(n)
	m.Feed /= unit.MassRate(n)
	m.TAN /= unit.MassRate(n)
	over := unit.Days(float64(n)).Seconds()
	perSecond := func(v unit.Volume) unit.Flow { return unit.CubicMetresPerSecond(v.CubicMetres() / over) }

	middle := &y.Days[(m.From+m.To)/2]
	t.About(monthNames[m.Month])
	f.in.Site.Under(t, middle.Sky.Day)
	f.explain(t, middle)
	dry := IntervalInput{
		Allowance: f.in.Allowance, Surface: f.in.Shape.Surface(), WetStone: unit.SquareMetres(f.wetStone(middle)),
		Evaporation: unit.Velocity(m.Evaporation.Metres() / over), Splash: perSecond(m.Moves.Splash), Flush: perSecond(m.Moves.Flushed), Leak: perSecond(m.Moves.Leak),
	}
	m.DryInterval = TopUpInterval.Run(t, dry)
	if m.DryInterval > 0 && (y.Shortest < 0 || m.DryInterval < y.Shortest) {
		y.Shortest = m.DryInterval
	}
	growth := algae.Envelope.Run(t, algae.GrowthInput{Temperature: max(2, m.Water)})
	m.AlgaeDoublings = growth.PerDay() / ln2 * middle.Sky.Daylight.Hours() / 24
	t.About("")
	// The trade keeps half as much again of the worst month's loss in hand, for hot spells.
	y.Reserve = max(y.Reserve, unit.Flow(heatReserve)*perSecond(m.Moves.out()-m.Moves.Overflow))
}

const (
	heatReserve = 1.5
	ln2         = 0.6931471805599453
)

// explain records the heat of the pond at noon of a day, and what ice there is.
func (f *follower) explain(t *working.Trail, d *Day) {
	if t == nil {
		return
	}
	a := over(d.Sky)
	WaterHeat.Run(t, HeatInput{
		Water: d.Mean, Air: unit.Temperature(a.warmth(secondsOfDay / 2)), MeanAir: d.Sky.Mean, Kept: unit.HeatWattsPerSquareMetre(a.sun(secondsOfDay / 2)),
		Long: d.Sky.Long, Vapour: d.Sky.Day.Vapour, Wind: d.Sky.Wind, Psychrometric: d.Sky.Psychrometric,
	})
}

// balance holds what the months moved against what the pond gained.
func (y *Year) balance() {
	for _, m := range y.Months {
		y.Moves.add(m.Moves)
	}
	all := y.Moves.in() + y.Moves.out()
	if all > 0 {
		y.Error = unit.Ratio((y.Moves.in() - y.Moves.out() - (y.End - y.Start)) / all)
	}
}

// longest is the longest run of days that are so, over the turn of the year if need be; nil where none is.
func longest(days []Day, is func(*Day) bool) *Span {
	n := len(days)
	var best *Span
	for i := range n {
		if !is(&days[i]) || is(&days[(i+n-1)%n]) && i > 0 {
			continue
		}
		length := 0
		for length < n && is(&days[(i+length)%n]) {
			length++
		}
		first := i
		if i == 0 && length < n { // it may have begun before the turn
			for is(&days[(first+n-1)%n]) {
				first, length = (first+n-1)%n, length+1
			}
		}
		if best == nil || length > best.Days {
			best = &Span{First: first, Last: (first + length - 1) % n, Days: length}
		}
	}
	return best
}

// hotSpell follows the days before the warmest again, in warmer air.
func (f *follower) hotSpell(y *Year) error {
	n := len(y.Days)
	first := y.Warmest - HotSpellDays + 1
	s := y.Days[(first+n)%n].start
	var d Day
	for i := first; i <= y.Warmest; i++ {
		hot := y.Days[(i+n)%n].Sky.Day
		hot.Least += unit.Temperature(f.in.HotSpell)
		hot.Most += unit.Temperature(f.in.HotSpell)
		d = Day{}
		if err := f.follow(&s, f.in.Site.Under(nil, hot), &d); err != nil {
			return err
		}
	}
	y.HotDusk = d.Dusk
	return nil
}

var monthNames = [12]string{"January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November", "December"}

package kit

import (
	"cmp"
	"math"
	"slices"

	"example.com/pondwright/calc/circuit"
	"example.com/pondwright/calc/pipe"
	"example.com/pondwright/calc/pump"
	"example.com/pondwright/calc/unit"
)

// A missed set is one that falls short, and by how much.
type missed struct {
	Candidate
	short int64 // all limits it breaks added up, by the limit, in millionths
	price float64
}

// millionths are what shortfalls are compared by, so that the order they are added up in does not matter.
func millionths(short float64) int64 { return int64(math.Floor(1e6*min(short, 1e9) + 0.5)) }

// compare ranks sets that fall short: by how much, then by price, then by their places in the range.
func (m missed) compare(o missed) int {
	return cmp.Or(cmp.Compare(m.short, o.short), cmp.Compare(m.price, o.price), m.Set.compare(o.Set))
}

// fallsShort judges a set in full; ok is false where it works.
func (f *Finder) fallsShort(set Set) (m missed, ok bool) {
	c, s := f.judge(set, true)
	tightest, slack := s.tightest()
	c.Tightest, c.Headroom = tightest, unit.Ratio(slack)
	if c.Cost.Years == 0 { // it does not run
		c.Cost = Cost{Price: f.price(set), Total: f.price(set), Years: f.q.Years}
	}
	_, broken := s.broken()
	return missed{c, millionths(s.short()), f.price(set)}, broken
}

// A chase looks for the set that falls short by least, where none works. As in a search, sets are passed over together where
// what they fall short by at least is more than the nearest found falls short.
type chase struct {
	*search
	filters, lamps []lack
	best           *missed
}

// A lack is an item with what it lacks by itself: never more than any set with it falls short.
type lack struct {
	part
	short float64 // whatever flows
	dose  float64 // where anything flows
}

// nearest finds the set that breaks its limits by least, all of them added up.
func (f *Finder) nearest(p pick, stop func() bool) (*Candidate, error) {
	c := &chase{search: &search{Finder: f, pick: p, stop: stop}}
	c.lacks()
	c.spread()
	pairs, err := c.rank()
	if err != nil {
		return nil, err
	}
	for i := range pairs {
		if stop != nil && stop() {
			return nil, ErrStopped
		}
		if c.passes(pairs[i].short, pairs[i].total) {
			break // and so do those after it
		}
		c.tryPair(&pairs[i])
	}
	return &c.best.Candidate, nil
}

// passes reports whether sets that fall short by so much at least, and cost so much at least, are passed over.
func (c *chase) passes(short, price float64) bool {
	if c.best == nil {
		return false
	}
	return cmp.Or(cmp.Compare(millionths(short-hair), c.best.short), cmp.Compare(price, c.best.price)) > 0
}

func (c *chase) lacks() {
	lacking := func(missing, inStock bool) float64 {
		short := 0.0
		if missing {
			short++
		}
		if !inStock {
			short++
		}
		return short
	}
	for _, i := range c.pick.filters {
		l := lack{part: c.filterPart(i)}
		l.short = lacking(i < 0 && c.q.Filter, i < 0 || c.q.Stock.allows(c.r.Filters[i].Stock, 1)) + max(0, -l.slack)
		c.filters = append(c.filters, l)
	}
	for _, i := range c.pick.lamps {
		l := lack{part: c.lampPart(i)}
		l.short = lacking(i < 0 && c.q.Lamp, i < 0 || c.q.Stock.allows(c.r.Lamps[i].Stock, 1))
		l.dose = max(0, -l.slack-hair)
		c.lamps = append(c.lamps, l)
	}
	order := func(a, b lack) int {
		return cmp.Or(cmp.Compare(a.short+a.dose, b.short+b.dose), cmp.Compare(a.price, b.price), cmp.Compare(a.place, b.place))
	}
	slices.SortFunc(c.filters, order)
	slices.SortFunc(c.lamps, order)
	for i := range c.filters {
		c.search.filters.parts = append(c.search.filters.parts, c.filters[i].part)
	}
	for i := range c.lamps {
		c.search.lamps.parts = append(c.search.lamps.parts, c.lamps[i].part)
	}
	c.search.filters.order()
	c.search.lamps.order()
}

// spread lays the grid far beyond what is wanted on both sides.
func (c *chase) spread() {
	const far = 100
	c.lay()
	c.grid.lay(c.flow[0]/far, c.flow[steps-1]*far)
	for i := range c.ducts {
		c.stretch(&c.ducts[i])
	}
}

// A shortfall is a pair with what every set that holds it falls short by at least.
type shortfall struct {
	pair
	apart float64 // for its own sake, whatever flows
	short float64 // with what flow falls short by, and the best of filters and lamp units
}

// rank bounds every pair, the least shortfall first and then the least price.
func (c *chase) rank() ([]shortfall, error) {
	var pairs []shortfall
	filters, lamps := &c.search.filters, &c.search.lamps
	hard := filters.clean.most.plus(lamps.clean.most)
	easy := filters.due.least.plus(lamps.due.least)
	filter, lamp := c.filters[0], c.lamps[0]
	cheapest := func(parts []part) float64 { return parts[0].price }
	c.spins = make([]*spin, 0, len(c.pick.pumps))
	for _, p := range c.pick.pumps {
		if c.stop != nil && c.stop() {
			return nil, ErrStopped
		}
		c.spins = append(c.spins, c.spin(p))
		k := len(c.spins) - 1
		for i := range c.ducts {
			d := &c.ducts[i]
			s := shortfall{pair: pair{spin: k, duct: i, price: c.pairPrice(p, d.place)}}
			if !c.q.Stock.allows(c.r.Pumps[p].Stock, c.q.pumps()) {
				s.apart++
			}
			if !c.q.Stock.allows(c.r.Hoses[d.place].Stock, c.metres()) {
				s.apart++
			}
			s.total = s.price + cheapest(filters.parts) + cheapest(lamps.parts)
			s.short = c.least(&s, filter.short+lamp.short, lamp.dose, s.total, hard, easy, filters.most, lamps.most, false)
			pairs = append(pairs, s)
		}
	}
	slices.SortFunc(pairs, func(a, b shortfall) int {
		return cmp.Or(
			cmp.Compare(millionths(a.short-hair), millionths(b.short-hair)), cmp.Compare(a.total, b.total),
			cmp.Compare(a.duct, b.duct), cmp.Compare(a.spin, b.spin),
		)
	})
	return pairs, nil
}

// least is what sets fall short by at least that hold a pair: for their own sake, for their price, and for what flows at most
// from a weak pump against the easiest law and at least from the pump against the hardest. Where nothing flows at all, that
// alone counts as a whole part, and the dose as nothing.
func (c *chase) least(s *shortfall, apart, dose, price float64, hard, easy law, filter, lamp float64, fine bool) float64 {
	k, d := c.spins[s.spin], &c.ducts[s.duct]
	low, high := c.meet(&k.strong, &d.runs, hard, k.sound, anywhere), c.meet(&k.weak, &d.rough, easy, k.weakSound, anywhere)
	clean, weak := c.above(low), c.below(high)
	if lo, hi := low.lo, high.hi; fine {
		if lo >= 0 && lo+1 < steps {
			clean, _ = c.halve(c.Finder.pumps[k.place], c.Finder.runs[d.place], hard, clean, c.flow[lo+1])
		}
		if hi > k.weakSound && hi < steps {
			_, weak = c.halve(c.Finder.weak[k.place], c.Finder.rough[d.place], easy, c.flow[hi-1], weak)
		}
	}
	flow := 0.0
	over := func(most float64) {
		if most > 0 {
			flow += max(0, clean/most-1)
		}
	}
	over(float64(c.q.Wanted.Most))
	over(filter)
	over(lamp)
	over(float64(circuit.VelocityLimit) * d.area)
	if least := float64(c.q.Wanted.Least); least > 0 {
		flow += max(0, 1-weak/least)
	}
	apart += s.apart
	if c.q.Budget > 0 {
		apart += max(0, price/c.q.Budget-1)
	}
	return apart + min(1, flow+dose)
}

// halve narrows a bracket.
func (c *chase) halve(p pump.Pump, run *pipe.Run, l law, lo, hi float64) (float64, float64) {
	for range 8 {
		q := (lo + hi) / 2
		excess := headAt(p, q) - float64(c.q.Lift+run.Loss(unit.Flow(q), c.q.Water)) - l.at(q*q)
		switch {
		case excess > float64(doubt):
			lo = q
		case excess < -float64(doubt):
			hi = q
		default:
			return lo, hi
		}
	}
	return lo, hi
}

func (c *chase) tryPair(p *shortfall) {
	lamps := &c.search.lamps
	for i := range c.filters {
		f := &c.filters[i]
		price := p.price + f.price
		apart, dose := f.short+c.lamps[0].short, c.lamps[0].dose
		cheapest := price + lamps.parts[0].price
		if c.passes(p.apart+apart, cheapest) {
			continue
		}
		hard, easy := f.clean.plus(lamps.clean.most), f.due.plus(lamps.due.least)
		if c.passes(c.least(p, apart, dose, cheapest, hard, easy, f.most, lamps.most, true), cheapest) {
			continue
		}
		for j := range c.lamps {
			l := &c.lamps[j]
			apart, full := f.short+l.short, price+l.price
			if c.passes(p.apart+apart, full) {
				continue
			}
			hard, easy := f.clean.plus(l.clean), f.due.plus(l.due)
			if !c.passes(c.least(p, apart, l.dose, full, hard, easy, f.most, l.most, true), full) {
				c.trySet(Set{Pump: c.spins[p.spin].place, Hose: c.ducts[p.duct].place, Filter: f.place, Lamp: l.place})
			}
		}
	}
}

func (c *chase) trySet(set Set) {
	if m, _ := c.fallsShort(set); c.best == nil || m.compare(*c.best) < 0 {
		c.best = &m
	}
}
